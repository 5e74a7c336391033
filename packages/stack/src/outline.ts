import type { DrawnShape } from '@underlap/artwork/drawing';
import { regionsFromRings } from '@underlap/geometry/boolean';
import type { Contour } from '@underlap/geometry/curve';
import { FLATTEN_TOLERANCE_MM, flattenContour } from '@underlap/geometry/flatten';
import { plainContour } from '@underlap/geometry/packed-segments';
import type { Point } from '@underlap/geometry/point';
import { regionsArea } from '@underlap/geometry/region';
import { type Bounds, isInRing, type Ring, ringArea, ringBounds } from '@underlap/geometry/ring';

/** A closed contour of the drawing with what is needed to tell what lies in what. */
export interface Outline {
  readonly shape: DrawnShape;
  /** Which of the shape's contours it is. */
  readonly place: number;
  readonly contour: Contour;
  readonly ring: Ring;
  readonly area: number;
  readonly bounds: Bounds;
}

/** Area below which a closed contour is no part and no hole but a stray dot, mm2. */
export const SMALLEST_OUTLINE_MM2 = 0.01;

/** What is known of shapes already: a drawing's outlines are asked for by every kind of evidence. */
const known = new WeakMap<DrawnShape, readonly Outline[]>();

/** Closed contours with an area; flattened once for every shape. */
export function outlinesOf(shape: DrawnShape): readonly Outline[] {
  const before = known.get(shape);
  if (before !== undefined) return before;
  const outlines = flattened(shape);
  known.set(shape, outlines);
  return outlines;
}

function flattened(shape: DrawnShape): Outline[] {
  return shape.contours.flatMap((contour, place) => {
    if (!contour.closed) return [];
    const ring = flattenContour(contour, FLATTEN_TOLERANCE_MM);
    const bounds = ringBounds(ring);
    const area = enclosedArea(ring, bounds);
    return area < SMALLEST_OUTLINE_MM2 ? [] : [{ shape, place, contour: plainContour(contour), ring, area, bounds }];
  });
}

/** The lobes of an outline that crosses itself may cancel each other in the signed area, down to nothing. */
function enclosedArea(ring: Ring, { minX, minY, maxX, maxY }: Bounds): number {
  const area = Math.abs(ringArea(ring));
  const isClear = area >= SMALLEST_OUTLINE_MM2 || (maxX - minX) * (maxY - minY) < SMALLEST_OUTLINE_MM2;
  return isClear ? area : regionsArea(regionsFromRings([ring], 'evenodd'));
}

/** Does `outer` hold `inner`, judged by most of the inner vertices (touching edges are common in drawings)? O(n m) after a box test. */
export function holds(outer: Outline, inner: Outline): boolean {
  const o = outer.bounds;
  const i = inner.bounds;
  if (outer === inner || outer.area <= inner.area) return false;
  if (i.minX < o.minX - 0.05 || i.maxX > o.maxX + 0.05 || i.minY < o.minY - 0.05 || i.maxY > o.maxY + 0.05)
    return false;
  return shareInside(outer.ring, inner.ring) > 0.5;
}

/** Share of the vertices of `line` inside `ring`, over at most 64 vertices evenly spread. */
export function shareInside(ring: Ring, line: Ring): number {
  const count = line.length / 2;
  const step = Math.max(1, Math.floor(count / 64));
  let seen = 0;
  let inside = 0;
  for (let v = 0; v < count; v += step) {
    seen++;
    if (isInRing(ring, line[2 * v]!, line[2 * v + 1]!)) inside++;
  }
  return seen === 0 ? 0 : inside / seen;
}

/** First point of a shape, for messages. */
export function firstPoint(shape: DrawnShape): Point | null {
  return shape.place.at ?? shape.contours[0]?.start ?? null;
}
