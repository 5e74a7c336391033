import { apply, type Matrix } from '@underlap/geometry/matrix';
import type { ComplaintList } from '../complaint-list.ts';
import type { DrawnText } from '../drawing.ts';
import type { IdIndex } from './id-index.ts';
import type { ViewportSize } from './lengths.ts';
import { resolvePaint } from './paint.ts';
import type { Style, StyleReader } from './style.ts';
import { textRuns } from './text-runs.ts';
import { complainOfUndrawable } from './undrawable.ts';
import type { UseChain } from './use-chain.ts';
import type { XmlNode } from './xml-tree.ts';

/** A text element with all that its ancestors hand down. */
interface PlacedTextElement {
  readonly node: XmlNode;
  readonly style: Style;
  /** To drawing units. */
  readonly matrix: Matrix;
  readonly viewport: ViewportSize;
  readonly opacity: number;
  readonly uses: UseChain | null;
  /** In drawing units. */
  readonly strokeWidth: number;
  readonly words: string;
}

interface TextSurroundings {
  readonly styles: StyleReader;
  readonly byId: IdIndex;
  readonly complaints: ComplaintList;
}

/**
 * Words and places of a text: with a font they become letters; without one they are missing, which is told here.
 * @returns null when no letter of it is seen (told).
 */
export function readText(
  element: PlacedTextElement,
  { styles, byId, complaints }: TextSurroundings,
): Omit<DrawnText, 'id' | 'name' | 'layer' | 'after'> | null {
  const { node, style, matrix, viewport, opacity, uses, strokeWidth, words } = element;
  const runs = textRuns(node, style, {
    styles,
    byId,
    viewport,
    onBadValue: (property, value) => {
      const message = `${property} '${value.slice(0, 40)}' cannot be read and is left out`;
      complaints.add('bad-style', 'warning', message, words);
    },
    tell: (message) => complaints.add('text-layout', 'warning', `${message}: look at where its letters stand`, words),
  });
  const fill = resolvePaint('fill', style, byId, opacity, uses);
  const stroke = resolvePaint('stroke', style, byId, opacity, uses);
  const isSeen = (style.inherited.visibility ?? 'visible').trim() === 'visible';
  const first = runs[0];
  const at = apply(matrix, { x: first?.x[0] ?? 0, y: first?.y[0] ?? 0 });
  if (first === undefined || !isSeen || (fill.colour === null && stroke.colour === null)) {
    complaints.add('hidden', 'note', 'it shows no letter and is left out', words, at);
    return null;
  }
  complainOfUndrawable(node, complaints, matrix);
  const strokeWidthMm = stroke.colour === null ? 0 : strokeWidth;
  return { runs, matrix, fill: fill.colour, stroke: stroke.colour, strokeWidthMm, place: { element: words, at } };
}
