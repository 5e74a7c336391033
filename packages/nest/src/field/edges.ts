import type { Ring } from '@underlap/geometry/ring';

/** Numbers per edge: x0, y0, dx, dy, 1 / length squared, 1 / length, sign at the start vertex, sign at the end vertex. */
export const EDGE = 8;

/**
 * Edge records of rings whose inside lies to the left. The sign of a vertex is -1 where a point nearest to it is outside
 * (convex corner) and +1 where it is inside (reflex corner). Edges of no length are dropped.
 */
export function edgeRecords(rings: readonly Ring[]): Float64Array {
  const records: number[] = [];
  for (const ring of rings) {
    const points = withoutRepeats(ring);
    const n = points.length / 2;
    if (n < 3) continue;
    const signs = Array.from({ length: n }, (_, v) => {
      const p = (v + n - 1) % n;
      const q = (v + 1) % n;
      const cross =
        (points[2 * v]! - points[2 * p]!) * (points[2 * q + 1]! - points[2 * v + 1]!) -
        (points[2 * v + 1]! - points[2 * p + 1]!) * (points[2 * q]! - points[2 * v]!);
      return cross >= 0 ? -1 : 1;
    });
    for (let v = 0; v < n; v++) {
      const w = (v + 1) % n;
      const dx = points[2 * w]! - points[2 * v]!;
      const dy = points[2 * w + 1]! - points[2 * v + 1]!;
      const squared = dx * dx + dy * dy;
      records.push(
        points[2 * v]!,
        points[2 * v + 1]!,
        dx,
        dy,
        1 / squared,
        1 / Math.sqrt(squared),
        signs[v]!,
        signs[w]!,
      );
    }
  }
  return Float64Array.from(records);
}

function withoutRepeats(ring: Ring): number[] {
  const out: number[] = [];
  const n = ring.length;
  for (let i = 0; i < n; i += 2) {
    const x = ring[i]!;
    const y = ring[i + 1]!;
    if (x !== ring[(i + n - 2) % n]! || y !== ring[(i + n - 1) % n]!) out.push(x, y);
  }
  return out;
}

/** Is the point inside by the non-zero rule? `edges` as made by edgeRecords, between `from` and `to` (indices of records). */
export function isInsideEdges(edges: Float64Array, from: number, to: number, x: number, y: number): boolean {
  let winding = 0;
  for (let e = from * EDGE; e < to * EDGE; e += EDGE) {
    const ay = edges[e + 1]!;
    const by = ay + edges[e + 3]!;
    if (ay <= y) {
      if (by > y && edges[e + 2]! * (y - ay) - edges[e + 3]! * (x - edges[e]!) > 0) winding++;
    } else if (by <= y && edges[e + 2]! * (y - ay) - edges[e + 3]! * (x - edges[e]!) < 0) winding--;
  }
  return winding !== 0;
}

/** Squared distance from a point to edge record at offset e (already multiplied by EDGE). */
export function squaredToEdge(edges: Float64Array, e: number, x: number, y: number): number {
  const px = x - edges[e]!;
  const py = y - edges[e + 1]!;
  const dx = edges[e + 2]!;
  const dy = edges[e + 3]!;
  let t = (px * dx + py * dy) * edges[e + 4]!;
  if (t < 0) t = 0;
  else if (t > 1) t = 1;
  const rx = px - t * dx;
  const ry = py - t * dy;
  return rx * rx + ry * ry;
}
