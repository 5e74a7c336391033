import Flatten from '@flatten-js/core';
import type { Primitive } from './carrier.ts';
import type { Point } from './point.ts';
import type { Bounds } from './ring.ts';

/**
 * The only door to @flatten-js/core: distances and measures of single lines and circular arcs. Which pairs are worth asking for
 * is decided outside (exact-outline.ts): one answer takes some hundred microseconds, too long to ask for all pairs of two outlines, and
 * the library's own index holds polygons, which would have to be rebuilt for every placement.
 */
export type ExactEdge = Flatten.Segment | Flatten.Arc;

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

/** What an outline measures, by the library alone: length, signed area (of closed outlines), and box, mm. */
export interface EdgeMeasures {
  readonly lengthMm: number;
  readonly areaMm2: number;
  readonly box: Bounds;
}

/** Length, area by the integrals under the edges, and box of edges in a row. O(n). */
export function measureEdges(edges: readonly ExactEdge[]): EdgeMeasures {
  let lengthMm = 0;
  const box = { minX: Infinity, minY: Infinity, maxX: -Infinity, maxY: -Infinity };
  for (const edge of edges) {
    lengthMm += edge.length;
    const { xmin, ymin, xmax, ymax } = edge.box;
    box.minX = Math.min(box.minX, xmin);
    box.minY = Math.min(box.minY, ymin);
    box.maxX = Math.max(box.maxX, xmax);
    box.maxY = Math.max(box.maxY, ymax);
  }
  const areaMm2 = edges.reduce((sum, edge) => sum + integralUnder(edge, box.minY), 0);
  return { lengthMm, areaMm2, box };
}

/** The library's own integral under an edge, which its type definitions leave out. */
function integralUnder(edge: ExactEdge, fromY: number): number {
  return (edge as unknown as { definiteIntegral(ymin: number): number }).definiteIntegral(fromY);
}
