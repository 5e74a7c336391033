import type { ContourView } from '@underlap/geometry/curve';
import type { Matrix } from '@underlap/geometry/matrix';
import type { ComplaintList } from '../complaint-list.ts';
import type { Colour, DrawnShape } from '../drawing.ts';
import { enclosesArea } from '../repair/close-outlines.ts';
import type { IdIndex } from './id-index.ts';
import { userLength, type ViewportSize } from './lengths.ts';
import { NO_PAINT, type Paint, resolvePaint } from './paint.ts';
import type { Style } from './style.ts';
import type { UseChain } from './use-chain.ts';

/** How a shape looks. */
export type Look = Pick<DrawnShape, 'fillRule' | 'fill' | 'stroke' | 'strokeWidthMm'>;

/** A shape with all that its looks are made from. */
interface Unpainted {
  readonly contours: readonly ContourView[];
  readonly style: Style;
  readonly opacity: number;
  readonly uses: UseChain | null;
  /** In drawing units. */
  readonly strokeWidth: number;
  readonly words: string;
}

/**
 * The looks of a shape; null when nothing of it is seen. What is not seen, and where a shape is read otherwise than it looks (in one
 * colour for several, as a whole line for dashes), is told.
 */
export function lookOf(shape: Unpainted, byId: IdIndex, complaints: ComplaintList): Look | null {
  const { contours, style, opacity, uses, strokeWidth, words } = shape;
  const visibility = (style.inherited.visibility ?? 'visible').trim();
  const wantedFill = resolvePaint('fill', style, byId, opacity, uses);
  const fill = contours.some(enclosesArea) ? wantedFill : NO_PAINT;
  const stroke = resolvePaint('stroke', style, byId, opacity, uses);
  const strokeColour = strokeWidth > 0 ? stroke.colour : null;
  const at = contours[0]?.start ?? null;
  if (visibility !== 'visible' || (fill.colour === null && strokeColour === null)) {
    // A filled outline that was drawn shut without an area was meant as a part: that is a fault, not a hidden shape.
    if (visibility === 'visible' && wantedFill.colour !== null && contours.every((contour) => contour.closed)) {
      complaints.add('zero-area', 'error', 'it encloses no area: draw it again or delete it', words, at);
      return null;
    }
    const why = visibility !== 'visible' ? 'it is invisible' : 'it has neither fill nor outline';
    complaints.add('hidden', 'note', `${why} and is left out: give it a colour if it is meant to be cut`, words, at);
    return null;
  }
  for (const paint of [fill, strokeColour === null ? NO_PAINT : stroke]) {
    const message = replacedPaint(paint);
    if (message !== null) complaints.add('paint-replaced', 'note', message, words, at);
  }
  if (strokeColour !== null && isDashed(style)) {
    const message = 'its dashed line is read as a whole line: draw the dashes as lines if they are meant';
    complaints.add('dashed', 'note', message, words, at);
  }
  const fillRule = style.inherited['fill-rule'] === 'evenodd' ? 'evenodd' : 'nonzero';
  return { fillRule, fill: fill.colour, stroke: strokeColour, strokeWidthMm: strokeWidth };
}

/** A colour that lets no more than this through is a plain one. */
const SOLID = 0.98;

function replacedPaint({ replaced, colour, strength }: Paint): string | null {
  if (colour === null) return null;
  if (replaced !== null)
    return `its ${replaced} is read as the one colour ${colour}: use a plain colour to choose another`;
  if (strength >= SOLID) return null;
  const share = Math.round(100 * (1 - strength));
  return `its colour lets ${share} % of what lies below shine through and is read as plain ${colour}: delete it if it is only a shade, since what is filled is a part`;
}

const CLIP_COLOUR: Colour = '#000000';

/** How a shape counts in a clip, where paint means nothing; null when it lets nothing be seen. */
export function lookInClip(contours: readonly ContourView[], style: Style): Look | null {
  const isSeen = (style.inherited.visibility ?? 'visible').trim() === 'visible' && contours.some(enclosesArea);
  if (!isSeen) return null;
  const fillRule = style.inherited['clip-rule'] === 'evenodd' ? 'evenodd' : 'nonzero';
  return { fillRule, fill: CLIP_COLOUR, stroke: null, strokeWidthMm: 0 };
}

function isDashed(style: Style): boolean {
  const dashes = style.inherited['stroke-dasharray'];
  return dashes !== undefined && dashes !== 'none' && /[1-9]/.test(dashes);
}

/**
 * Width of the outline in drawing units.
 * @param matrix - from the shape's units to those; `toDrawing` is the page's alone, which counts for outlines that do not scale.
 */
export function strokeWidthOf(style: Style, viewport: ViewportSize, matrix: Matrix, toDrawing: Matrix): number {
  const given = userLength(style.inherited['stroke-width'] ?? '1', 'both', style, viewport);
  const width = Math.max(0, given ?? 1);
  const { a, b, c, d } = style.own['vector-effect'] === 'non-scaling-stroke' ? toDrawing : matrix;
  const scaled = width * Math.sqrt(Math.abs(a * d - b * c));
  return Number.isFinite(scaled) ? scaled : 0;
}
