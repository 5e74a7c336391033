import { EdgeStrips } from './edge-strips.ts';
import type { Region } from './region.ts';
import { type Bounds, ringBounds } from './ring.ts';

/** An open line x0, y0, x1, y1, ... in mm. */
export type Polyline = Float64Array;

/** Pieces shorter than this carry no information, mm. */
const SHORTEST_PIECE_MM = 1e-6;

/**
 * Keep the stretches of a line that lie inside (or outside) a set of regions.
 * @param line - open unless `closed`, then the last vertex joins the first.
 * @param regions - mm; may overlap each other; a point counts as inside when any region holds it.
 * @param keep - which stretches come back.
 * @returns open polylines in the order of travel; a closed line that is kept whole comes back with its first point repeated.
 * @remarks O(n) for edges and segments, and a handful of edges for every segment. Points on an edge may be told either way.
 */
export function clipPolyline(
  line: Polyline,
  closed: boolean,
  regions: readonly Region[],
  keep: 'inside' | 'outside',
): Polyline[] {
  const box = ringBounds(line);
  const near = new EdgeStrips(regions.filter((region) => meet(box, ringBounds(region.outer))));
  const wanted = keep === 'inside';
  const pieces: number[][] = [];
  let current: number[] | null = null;
  const count = line.length / 2;
  const last = closed ? count : count - 1;
  for (let i = 0; i < last; i++) {
    const j = (i + 1) % count;
    const ax = line[2 * i]!;
    const ay = line[2 * i + 1]!;
    const bx = line[2 * j]!;
    const by = line[2 * j + 1]!;
    const stops = near.stops(ax, ay, bx, by);
    for (let k = 0; k + 1 < stops.length; k++) {
      const u = stops[k]!;
      const v = stops[k + 1]!;
      const middle = (u + v) / 2;
      const mx = ax + (bx - ax) * middle;
      const my = ay + (by - ay) * middle;
      if (near.holds(mx, my) !== wanted) {
        current = null;
        continue;
      }
      if (current === null) {
        current = [ax + (bx - ax) * u, ay + (by - ay) * u];
        pieces.push(current);
      }
      current.push(ax + (bx - ax) * v, ay + (by - ay) * v);
    }
  }
  return joinAcrossStart(pieces, closed)
    .map((piece) => Float64Array.from(piece))
    .filter((piece) => polylineLength(piece) > SHORTEST_PIECE_MM);
}

/** Length of an open line, mm. O(n). */
export function polylineLength(line: Polyline): number {
  let sum = 0;
  for (let i = 2; i < line.length; i += 2) sum += Math.hypot(line[i]! - line[i - 2]!, line[i + 1]! - line[i - 1]!);
  return sum;
}

function meet(a: Bounds, b: Bounds): boolean {
  return a.minX <= b.maxX && b.minX <= a.maxX && a.minY <= b.maxY && b.minY <= a.maxY;
}

/** On a closed line the stretch that runs over the start point is one stretch, not two. */
function joinAcrossStart(pieces: number[][], closed: boolean): number[][] {
  if (!closed || pieces.length < 2) return pieces;
  const first = pieces[0]!;
  const last = pieces[pieces.length - 1]!;
  const touches = first[0] === last[last.length - 2] && first[1] === last[last.length - 1];
  if (!touches) return pieces;
  return [[...last, ...first.slice(2)], ...pieces.slice(1, -1)];
}
