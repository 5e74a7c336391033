import Flatten from '@flatten-js/core';
import type { Primitive } from './carrier.ts';
import type { Point } from './point.ts';

/**
 * The only door to @flatten-js/core: distances and intersections of single lines and circular arcs. Which pairs are worth asking for
 * is decided outside (exact-outline.ts): one answer takes some hundred microseconds, too long to ask for all pairs of two outlines, and
 * the library's own index holds polygons, which would have to be rebuilt for every placement.
 */
export type ExactEdge = Flatten.Segment | Flatten.Arc;

/** The library takes points nearer than this for one, mm (its fixed tolerance). */
export const EXACT_SAME_POINT_MM = 1e-6;

/** A line or arc as the library holds it. */
export function exactEdge({ from, segment }: Primitive): ExactEdge {
  if (segment.kind === 'line') {
    return new Flatten.Segment(new Flatten.Point(from.x, from.y), new Flatten.Point(segment.to.x, segment.to.y));
  }
  const { centre, radius, sweep } = segment;
  const start = Math.atan2(from.y - centre.y, from.x - centre.x);
  return new Flatten.Arc(new Flatten.Point(centre.x, centre.y), radius, start, start + sweep, sweep > 0);
}

/** The nearest points of two edges and their distance, mm. */
export function nearestOnEdges(a: ExactEdge, b: ExactEdge): { distance: number; onA: Point; onB: Point } {
  const [distance, link] = a.distanceTo(b);
  const { ps, pe } = link;
  return { distance, onA: { x: ps.x, y: ps.y }, onB: { x: pe.x, y: pe.y } };
}

/** The common points of two edges; of edges that overlap along a stretch, its ends. */
export function edgesMeet(a: ExactEdge, b: ExactEdge): Point[] {
  return a.intersect(b).map(({ x, y }) => ({ x, y }));
}
