import { IDENTITY, type Matrix, multiply } from '@underlap/geometry/matrix';
import type { Bounds } from '@underlap/geometry/ring';
import type { ComplaintList } from '../complaint-list.ts';
import { fontSizeOf, rootFontSizeOf, type Style } from './style.ts';
import { fullTransform } from './transform.ts';
import { transformOrigin } from './transform-origin.ts';
import type { Visit } from './visit.ts';

/**
 * An element's own transform, about its origin: attribute and style sheet together.
 * @param ownBox - the box of what the element draws, asked for where the origin refers to it; null when it cannot be told.
 * @returns null, with a complaint, when it cannot be read; an origin or path that is not followed is told and left out.
 */
export function elementTransform(
  visit: Visit,
  style: Style,
  words: string,
  complaints: ComplaintList,
  ownBox: () => Bounds | null,
): Matrix | null {
  const { node } = visit;
  const text = style.own.transform ?? node.attributes.transform;
  const { translate, rotate, scale } = style.own;
  if (style.own['offset-path'] !== undefined && style.own['offset-path'] !== 'none') {
    const message =
      'its offset-path is not followed, so it is read where it stands without it: move it in the drawing program';
    complaints.add('transform-origin', 'warning', message, words);
  }
  const isMoved = translate !== undefined || rotate !== undefined || scale !== undefined;
  if (text === undefined && !isMoved) return IDENTITY;
  const matrix = fullTransform(text, isMoved ? style.own : null);
  if (matrix === null) {
    const all = [translate, rotate, scale, text].filter((part) => part !== undefined).join(' ');
    const shown = all.slice(0, 60);
    const message = `its transform '${shown}' cannot be read, so it and what it holds are left out: correct it or apply it in the drawing program`;
    complaints.add('bad-transform', 'error', message, words);
    return null;
  }
  if (
    style.own.transform === undefined &&
    text !== undefined &&
    /\d(?:deg|g?rad|turn|px|mm|cm|in|pt|pc|q)\b/i.test(text)
  ) {
    const message = `its transform '${text.slice(0, 60)}' has units, which an attribute may not have, so that viewers pass over it; it is read as meant: check its place`;
    complaints.add('bad-transform', 'warning', message, words);
  }
  const origin = style.own['transform-origin'];
  if (origin === undefined || matrix === IDENTITY) return matrix;
  const box = referenceBox(visit, style, ownBox);
  const fonts = { fontSize: fontSizeOf(style), rootFontSize: rootFontSizeOf(style) };
  const point = box && transformOrigin(origin, box, fonts);
  if (point === null) {
    const message = `transform-origin '${origin.slice(0, 40)}' is not followed: apply the transform in the drawing program`;
    complaints.add('transform-origin', 'warning', message, words);
    return matrix;
  }
  const there = { ...IDENTITY, e: point.x, f: point.y };
  return multiply(multiply(there, matrix), { ...IDENTITY, e: -point.x, f: -point.y });
}

/**
 * What percentages and keywords of a transform refer to, in the element's own units; null when it cannot be told. Source: CSS
 * Transforms Level 1, 'transform-box': the viewport from 0, 0 unless the element's own box is asked for.
 */
function referenceBox(visit: Visit, style: Style, ownBox: () => Bounds | null): Bounds | null {
  const kind = (style.own['transform-box'] ?? 'view-box').trim();
  if (kind === 'view-box') return { minX: 0, minY: 0, maxX: visit.viewport.width, maxY: visit.viewport.height };
  return kind === 'fill-box' || kind === 'content-box' ? ownBox() : null;
}
