import { contourBounds } from '@underlap/geometry/contour';
import type { ContourView } from '@underlap/geometry/curve';
import { apply, type Matrix, multiply } from '@underlap/geometry/matrix';
import type { Bounds } from '@underlap/geometry/ring';
import { ComplaintList } from '../complaint-list.ts';
import { SHAPE_ELEMENTS } from './element-geometry.ts';
import type { ViewportSize } from './lengths.ts';
import { placedGeometry } from './placed-geometry.ts';
import { ROOT_STYLE } from './style.ts';
import { parseTransform } from './transform.ts';
import type { XmlNode } from './xml-tree.ts';

/** Overhang that no eye sees, as a share of the clip's size. */
const OVERHANG_SHARE = 1e-3;

/** Segments of a clip's outline beyond which it is no rectangle anyway. */
const RECTANGLE_SEGMENTS = 16;

/** Rectangles that cut off what reaches beyond them, innermost first. */
export interface ClipChain {
  readonly bounds: Bounds;
  /** Element that clips, in words. */
  readonly words: string;
  readonly outer: ClipChain | null;
}

export const CLIP_MESSAGE =
  'its clipping is not followed, so more is read than is seen: cut the shapes to the clip in the drawing program';

/** The chain with a viewport's box in front; for a turned one the box around it. */
export function boxClip(
  viewport: { readonly x: number; readonly y: number; readonly width: number; readonly height: number },
  matrix: Matrix,
  words: string,
  outer: ClipChain | null,
): ClipChain {
  const { x, y, width, height } = viewport;
  const corners = [x, x + width].flatMap((left) => [y, y + height].map((top) => apply(matrix, { x: left, y: top })));
  const xs = corners.map((corner) => corner.x);
  const ys = corners.map((corner) => corner.y);
  const bounds = { minX: Math.min(...xs), minY: Math.min(...ys), maxX: Math.max(...xs), maxY: Math.max(...ys) };
  return { bounds, words, outer };
}

/**
 * The box of a clipPath that is one upright rectangle once drawn: programs clip whole pages with such. Null for any other clip.
 * @param matrix - of the clipped element.
 */
export function clipBox(clip: XmlNode, matrix: Matrix, viewport: ViewportSize): Bounds | null {
  const [shape, ...others] = clip.children.filter((child) => child.isSvg && child.name !== 'title');
  if (shape === undefined || others.length > 0 || !SHAPE_ELEMENTS.has(shape.name)) return null;
  if (clip.attributes.clipPathUnits === 'objectBoundingBox' || shape.attributes['clip-path'] !== undefined) return null;
  const own = parseTransform(shape.attributes.transform ?? '');
  const around = parseTransform(clip.attributes.transform ?? '');
  if (own === null || around === null) return null;
  const placed = multiply(multiply(matrix, around), own);
  const told = new ComplaintList();
  const geometry = placedGeometry(shape, ROOT_STYLE, viewport, RECTANGLE_SEGMENTS, placed, 'clipPath', told);
  if (geometry === null || geometry.fault !== null || geometry.contours.length !== 1) return null;
  const contour = geometry.contours[0]!;
  return isUprightRectangle(contour) ? contourBounds(contour) : null;
}

/** Does the shape reach beyond the box? */
export function reachesBeyond(contours: readonly ContourView[], bounds: Bounds): boolean {
  const slack = OVERHANG_SHARE * Math.max(bounds.maxX - bounds.minX, bounds.maxY - bounds.minY);
  return contours.some((contour) => {
    const { minX, minY, maxX, maxY } = contourBounds(contour);
    return (
      minX < bounds.minX - slack ||
      minY < bounds.minY - slack ||
      maxX > bounds.maxX + slack ||
      maxY > bounds.maxY + slack
    );
  });
}

function isUprightRectangle({ start, segments }: ContourView): boolean {
  const corners = [...segments].map(({ to }) => to);
  if (corners.length !== 4 || segments.some(({ kind }) => kind !== 'line')) return false;
  return corners.every((corner, i) => {
    const before = i === 0 ? start : corners[i - 1]!;
    return Math.abs(corner.x - before.x) < 1e-9 || Math.abs(corner.y - before.y) < 1e-9;
  });
}
