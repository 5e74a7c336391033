import type { Ring } from './ring.ts';

/**
 * Convex hull of points, counter-clockwise (positive area), without collinear vertices. Fewer than three distinct points, or
 * points on a line, give a ring of one or two points.
 * @remarks O(n log n), monotone chains (Andrew, Inf. Proc. Letters 9, 1979).
 */
export function convexHull(points: Ring): Ring {
  const n = points.length / 2;
  const order = Array.from({ length: n }, (_, index) => index).sort(
    (i, j) => points[2 * i]! - points[2 * j]! || points[2 * i + 1]! - points[2 * j + 1]!,
  );
  const lower = chain(points, order);
  const upper = chain(points, order.reverse());
  // Each chain ends where the other begins.
  const hull = lower.length > 1 ? [...lower.slice(0, -1), ...upper.slice(0, -1)] : lower;
  const ring = new Float64Array(hull.length * 2);
  hull.forEach((vertex, index) => {
    ring[2 * index] = points[2 * vertex]!;
    ring[2 * index + 1] = points[2 * vertex + 1]!;
  });
  return ring;
}

function chain(points: Ring, order: readonly number[]): number[] {
  const out: number[] = [];
  for (const vertex of order) {
    const x = points[2 * vertex]!;
    const y = points[2 * vertex + 1]!;
    while (out.length > 0) {
      const last = out[out.length - 1]!;
      const lx = points[2 * last]!;
      const ly = points[2 * last + 1]!;
      if (out.length === 1) {
        if (lx === x && ly === y) out.pop();
        break;
      }
      const before = out[out.length - 2]!;
      const px = points[2 * before]!;
      const py = points[2 * before + 1]!;
      if ((lx - px) * (y - py) - (ly - py) * (x - px) > 0) break;
      out.pop();
    }
    out.push(vertex);
  }
  return out;
}
