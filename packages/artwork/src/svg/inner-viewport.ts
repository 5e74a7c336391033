import { IDENTITY, type Matrix, multiply } from '@underlap/geometry/matrix';
import type { ComplaintList } from '../complaint-list.ts';
import { type ClipChain, viewportClip } from './clip.ts';
import { LengthReader, type ViewportSize } from './lengths.ts';
import type { Style } from './style.ts';
import { parseViewBox, viewportMatrix } from './viewport.ts';
import type { Visit } from './visit.ts';

/** What an inner svg, or a symbol that is shown, hands down to its children. */
export interface InnerViewport {
  readonly matrix: Matrix;
  readonly viewport: ViewportSize;
  readonly clips: ClipChain | null;
}

/** The viewport that an inner svg or a symbol opens; null, told, when it has no size. */
export function innerViewport(
  visit: Visit,
  style: Style,
  words: string,
  complaints: ComplaintList,
): InnerViewport | null {
  const { node, override } = visit;
  const lengths = new LengthReader(node, style, visit.viewport);
  const isSvg = node.name === 'svg';
  const width = override?.width ?? lengths.read('width', 'x') ?? visit.viewport.width;
  const height = override?.height ?? lengths.read('height', 'y') ?? visit.viewport.height;
  const x = isSvg ? lengths.orZero('x', 'x') : 0;
  const y = isSvg ? lengths.orZero('y', 'y') : 0;
  if (lengths.fault !== null) complaints.add('bad-length', 'warning', lengths.fault, words);
  if (width <= 0 || height <= 0) {
    complaints.add('hidden', 'note', 'its viewport has no size, so nothing in it is drawn', words);
    return null;
  }
  const view = parseViewBox(node.attributes.viewBox);
  if (view === null && node.attributes.viewBox !== undefined) {
    const message = `its viewBox '${node.attributes.viewBox.slice(0, 40)}' cannot be read and is not used`;
    complaints.add('bad-viewbox', 'warning', message, words);
  }
  const map =
    view === null
      ? { ...IDENTITY, e: x, f: y }
      : viewportMatrix(view, { x, y, width, height }, node.attributes.preserveAspectRatio);
  const isOpen = ['visible', 'auto'].includes((style.own.overflow ?? 'hidden').trim());
  const clips = isOpen ? visit.clips : viewportClip({ x, y, width, height }, visit.matrix, words, visit.clips);
  return { matrix: multiply(visit.matrix, map), viewport: view ?? { width, height }, clips };
}
