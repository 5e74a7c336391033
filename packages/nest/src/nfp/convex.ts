import type { Ring } from '@underlap/geometry/ring';

/** Sine of the smallest turn that counts as a reflex vertex: below it a ring with rounding noise is still convex. */
const STRAIGHT = 1e-9;

/** Is the counter-clockwise ring convex (collinear vertices allowed, one full turn)? O(n). */
export function isConvexRing(ring: Ring): boolean {
  const n = ring.length / 2;
  let turned = 0;
  let px = ring[0]! - ring[2 * n - 2]!;
  let py = ring[1]! - ring[2 * n - 1]!;
  for (let v = 0; v < n; v++) {
    const w = (v + 1) % n;
    const qx = ring[2 * w]! - ring[2 * v]!;
    const qy = ring[2 * w + 1]! - ring[2 * v + 1]!;
    const cross = px * qy - py * qx;
    if (cross < -STRAIGHT * Math.hypot(px, py) * Math.hypot(qx, qy)) return false;
    turned += Math.atan2(cross, px * qx + py * qy);
    px = qx;
    py = qy;
  }
  return turned < 3 * Math.PI;
}

/**
 * Minkowski sum of two convex counter-clockwise rings by merging their edges in order of direction; parallel edges are
 * joined into one. O(n + m). Source: de Berg et al., Computational Geometry, section 13.3.
 */
export function convexSum(a: Ring, b: Ring): Ring {
  const n = a.length / 2;
  const m = b.length / 2;
  const i0 = lowest(a);
  const j0 = lowest(b);
  const out: number[] = [];
  let i = 0;
  let j = 0;
  while (i < n || j < m) {
    const p = (i0 + i) % n;
    const q = (j0 + j) % m;
    out.push(a[2 * p]! + b[2 * q]!, a[2 * p + 1]! + b[2 * q + 1]!);
    if (i >= n) j++;
    else if (j >= m) i++;
    else {
      const pn = (p + 1) % n;
      const qn = (q + 1) % m;
      const ax = a[2 * pn]! - a[2 * p]!;
      const ay = a[2 * pn + 1]! - a[2 * p + 1]!;
      const bx = b[2 * qn]! - b[2 * q]!;
      const by = b[2 * qn + 1]! - b[2 * q + 1]!;
      const cross = ax * by - ay * bx;
      const limit = STRAIGHT * Math.hypot(ax, ay) * Math.hypot(bx, by);
      const apart = halfOf(ax, ay) - halfOf(bx, by);
      if (apart < 0) i++;
      else if (apart > 0) j++;
      else if (cross > limit) i++;
      else if (cross < -limit) j++;
      else {
        i++;
        j++;
      }
    }
  }
  return Float64Array.from(out);
}

/** 0 for directions in [0, pi), 1 for [pi, 2 pi): edges from the lowest vertex run through them in that order. */
function halfOf(x: number, y: number): number {
  return y > 0 || (y === 0 && x > 0) ? 0 : 1;
}

function lowest(ring: Ring): number {
  let best = 0;
  for (let v = 1; v < ring.length / 2; v++) {
    const dy = ring[2 * v + 1]! - ring[2 * best + 1]!;
    if (dy < 0 || (dy === 0 && ring[2 * v]! < ring[2 * best]!)) best = v;
  }
  return best;
}
