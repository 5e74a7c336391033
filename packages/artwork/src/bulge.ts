import type { ArcSegment, Contour, LineSegment, Segment } from '@underlap/geometry/curve';
import type { Point } from '@underlap/geometry/point';

/** Below this a bulge is a straight line: the arc would leave its chord by less than 1e-9 of the chord's half. */
const STRAIGHT = 1e-9;

/** A vertex of a polyline; `bulge` = tan(sweep / 4) of the arc to the next vertex, 0 for a straight line. */
export interface BulgeVertex extends Point {
  readonly bulge: number;
}

/**
 * The line or arc from one vertex to the next.
 * @param bulge - tan(sweep / 4), positive when the angle grows from +x towards +y (DXF reference, LWPOLYLINE group 42).
 */
export function bulgeSegment(from: Point, to: Point, bulge: number): LineSegment | ArcSegment {
  const dx = to.x - from.x;
  const dy = to.y - from.y;
  const chord = Math.hypot(dx, dy);
  if (Math.abs(bulge) < STRAIGHT || chord === 0) return { kind: 'line', to };
  const reach = (1 - bulge * bulge) / (4 * bulge);
  const centre = { x: (from.x + to.x) / 2 - dy * reach, y: (from.y + to.y) / 2 + dx * reach };
  const radius = (chord * (1 + bulge * bulge)) / (4 * Math.abs(bulge));
  return { kind: 'arc', to, centre, radius, sweep: 4 * Math.atan(bulge) };
}

/** The contour through the vertices; the last vertex's bulge counts only when closed. */
export function bulgeContour(vertices: readonly BulgeVertex[], closed: boolean): Contour {
  const [first] = vertices;
  if (!first) throw new RangeError('a contour needs at least one vertex');
  const start = { x: first.x, y: first.y };
  const segments: Segment[] = [];
  const count = closed ? vertices.length : vertices.length - 1;
  for (let i = 0; i < count; i++) {
    const from = vertices[i]!;
    const next = i + 1 < vertices.length ? vertices[i + 1]! : first;
    const to = { x: next.x, y: next.y };
    const isEmpty = from.x === to.x && from.y === to.y;
    if (!isEmpty) segments.push(bulgeSegment(from, to, from.bulge));
  }
  return { start, segments, closed };
}
