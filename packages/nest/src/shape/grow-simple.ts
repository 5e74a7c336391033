import type { Ring } from '@underlap/geometry/ring';

/**
 * Fewer vertices without giving up any material: an inward vertex is dropped (its triangle is added), and a short edge
 * between two outward vertices is replaced by the corner where its neighbours meet. The material lies left of the ring, so
 * holes (clockwise) shrink and outer rings (counter-clockwise) grow.
 * @param ring - mm, simple; not modified.
 * @param tolerance - how far any point of the new ring may lie outside the old one, mm.
 * @returns the same ring when nothing can be dropped.
 * @remarks Cheapest operation first from a list that is scanned, O(n^2) for n vertices in the worst case, far below for real
 * outlines, as one scan takes many operations. Costs add up along merged vertices, so the tolerance holds for the sum.
 */
export function growSimpler(ring: Ring, tolerance: number): Ring {
  let xs: number[] = [];
  let ys: number[] = [];
  for (let i = 0; i < ring.length; i += 2) {
    xs.push(ring[i]!);
    ys.push(ring[i + 1]!);
  }
  let spent = new Array<number>(xs.length).fill(0);
  for (let limit = tolerance / 8; limit <= tolerance; limit *= 2) {
    for (;;) {
      const before = xs.length;
      const next = sweep(xs, ys, spent, limit, tolerance);
      xs = next.xs;
      ys = next.ys;
      spent = next.spent;
      if (xs.length === before || xs.length <= 4) break;
    }
  }
  if (xs.length === ring.length / 2) return ring;
  const out = new Float64Array(2 * xs.length);
  xs.forEach((x, i) => {
    out[2 * i] = x;
    out[2 * i + 1] = ys[i]!;
  });
  return out;
}

interface Vertices {
  readonly xs: number[];
  readonly ys: number[];
  readonly spent: number[];
}

/** One pass over the ring; vertices next to a change wait for the following pass. */
function sweep(xs: number[], ys: number[], spent: number[], limit: number, tolerance: number): Vertices {
  const n = xs.length;
  const state = new Uint8Array(n); // 1 dropped, 2 touched
  let left = n;
  for (let i = 0; i < n && left > 4; i++) {
    const p = (i + n - 1) % n;
    const a = (i + 1) % n;
    if (state[i] || state[p] || state[a]) continue;
    const bend = cross(xs, ys, p, i, a);
    if (bend <= 0) {
      const cost = Math.abs(bend) / Math.hypot(xs[a]! - xs[p]!, ys[a]! - ys[p]!);
      const total = cost + Math.max(spent[i]!, spent[p]!, spent[a]!);
      if (cost <= limit && total <= tolerance) {
        state[i] = 1;
        state[p] = 2;
        state[a] = 2;
        spent[p] = Math.max(spent[p]!, total);
        spent[a] = Math.max(spent[a]!, total);
        left--;
      }
      continue;
    }
    const b = (i + 2) % n;
    if (n < 6 || state[b] || cross(xs, ys, i, a, b) <= 0) continue;
    const corner = meet(xs, ys, p, i, a, b);
    if (corner === null) continue;
    const total = corner.height + Math.max(spent[i]!, spent[a]!);
    if (corner.height > limit || total > tolerance) continue;
    xs[i] = corner.x;
    ys[i] = corner.y;
    spent[i] = total;
    state[a] = 1;
    state[p] = 2;
    state[i] = 2;
    state[b] = 2;
    left--;
  }
  const keep = (list: number[]) => list.filter((_, i) => state[i] !== 1);
  return { xs: keep(xs), ys: keep(ys), spent: keep(spent) };
}

function cross(xs: number[], ys: number[], a: number, b: number, c: number): number {
  return (xs[b]! - xs[a]!) * (ys[c]! - ys[b]!) - (ys[b]! - ys[a]!) * (xs[c]! - xs[b]!);
}

/** Where the edges p-i and b-a, drawn on, meet beyond the edge i-a; null when they run apart. */
function meet(
  xs: number[],
  ys: number[],
  p: number,
  i: number,
  a: number,
  b: number,
): { x: number; y: number; height: number } | null {
  const ux = xs[i]! - xs[p]!;
  const uy = ys[i]! - ys[p]!;
  const vx = xs[a]! - xs[b]!;
  const vy = ys[a]! - ys[b]!;
  const ex = xs[a]! - xs[i]!;
  const ey = ys[a]! - ys[i]!;
  const det = ux * vy - uy * vx;
  // both corners are outward; the lines meet ahead only when they turn by less than half a circle together
  if (det >= -1e-12 * Math.hypot(ux, uy) * Math.hypot(vx, vy)) return null;
  const t = (ex * vy - ey * vx) / det;
  if (!(t > 0)) return null;
  const x = xs[i]! + ux * t;
  const y = ys[i]! + uy * t;
  const height = Math.abs((x - xs[i]!) * ey - (y - ys[i]!) * ex) / Math.hypot(ex, ey);
  return { x, y, height };
}
