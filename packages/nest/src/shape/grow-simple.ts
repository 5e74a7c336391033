import type { Ring } from '@underlap/geometry/ring';

/** Largest total change of direction that one new corner may take over, radians: keeps corners near what they replace. */
const LARGEST_TURN = 1;

/**
 * Fewer vertices without giving up any material: runs of inward vertices are spanned by chords, and runs of outward vertices
 * are replaced by the corner where the edges before and behind the run meet. The material lies left of the ring, so outer
 * rings (counter-clockwise) grow and holes (clockwise) shrink; straight edges that are kept stay exactly where they are.
 * @param ring - mm, simple; not modified.
 * @param tolerance - how far a chord, and how far a corner, may lie outside the ring, mm; the sum where both meet.
 * @returns the same ring when nothing can be dropped.
 * @remarks Greedy, longest run first from each vertex: O(n x run length).
 */
export function growSimpler(ring: Ring, tolerance: number): Ring {
  const spanned = spanInward(ring, tolerance);
  const cut = cornerOutward(spanned, tolerance);
  return cut.length === ring.length || cut.length < 8 ? ring : cut;
}

/** Drop runs of inward vertices whose chord stays within the tolerance. */
function spanInward(ring: Ring, tolerance: number): Ring {
  const n = ring.length / 2;
  const start = firstOutward(ring);
  if (start < 0) return ring;
  const kept: number[] = [];
  for (let k = 0; k < n; ) {
    const i = (start + k) % n;
    kept.push(ring[2 * i]!, ring[2 * i + 1]!);
    let reach = 1;
    for (let next = 2; k + next <= n && bendAt(ring, (i + next - 1) % n) <= 0; next++) {
      if (strayOfChord(ring, i, next) > tolerance) break;
      reach = next;
    }
    k += reach;
  }
  return kept.length === ring.length ? ring : Float64Array.from(kept);
}

/** Replace runs of outward vertices by single corners. */
function cornerOutward(ring: Ring, tolerance: number): Ring {
  const n = ring.length / 2;
  const kept: number[] = [];
  // edge e runs from vertex e to e + 1; a run of vertices e + 1 .. f lies between edges e and f
  let e = 0;
  for (let done = 0; done < n; ) {
    let reach = 1;
    let corner = { x: ring[2 * ((e + 1) % n)]!, y: ring[2 * ((e + 1) % n) + 1]! };
    let turn = turnAt(ring, (e + 1) % n);
    for (let next = 2; turn > 0 && done + next <= n && kept.length / 2 + n - done - next >= 4; next++) {
      const bend = turnAt(ring, (e + next) % n);
      turn += bend;
      if (bend <= 0 || turn > LARGEST_TURN) break;
      const meeting = meet(ring, e, (e + next) % n);
      if (meeting === null || distanceToRun(ring, e, next, meeting.x, meeting.y) > tolerance) break;
      reach = next;
      corner = meeting;
    }
    kept.push(corner.x, corner.y);
    done += reach;
    e = (e + reach) % n;
  }
  return kept.length === ring.length ? ring : Float64Array.from(kept);
}

function firstOutward(ring: Ring): number {
  for (let i = 0; i < ring.length / 2; i++) if (bendAt(ring, i) > 0) return i;
  return -1;
}

/** Cross product of the edges before and behind a vertex: positive where the outline bends outwards. */
function bendAt(ring: Ring, i: number): number {
  const n = ring.length / 2;
  const p = (i + n - 1) % n;
  const q = (i + 1) % n;
  return (
    (ring[2 * i]! - ring[2 * p]!) * (ring[2 * q + 1]! - ring[2 * i + 1]!) -
    (ring[2 * i + 1]! - ring[2 * p + 1]!) * (ring[2 * q]! - ring[2 * i]!)
  );
}

/** Change of direction at a vertex, radians. */
function turnAt(ring: Ring, i: number): number {
  const n = ring.length / 2;
  const p = (i + n - 1) % n;
  const q = (i + 1) % n;
  const ux = ring[2 * i]! - ring[2 * p]!;
  const uy = ring[2 * i + 1]! - ring[2 * p + 1]!;
  const vx = ring[2 * q]! - ring[2 * i]!;
  const vy = ring[2 * q + 1]! - ring[2 * i + 1]!;
  return Math.atan2(ux * vy - uy * vx, ux * vx + uy * vy);
}

/** How far the vertices between i and i + count stray from the chord; Infinity when one lies outside of it. */
function strayOfChord(ring: Ring, i: number, count: number): number {
  const n = ring.length / 2;
  const j = (i + count) % n;
  const ax = ring[2 * i]!;
  const ay = ring[2 * i + 1]!;
  const dx = ring[2 * j]! - ax;
  const dy = ring[2 * j + 1]! - ay;
  const length = Math.hypot(dx, dy);
  if (length === 0) return Infinity;
  let stray = 0;
  for (let k = 1; k < count; k++) {
    const m = (i + k) % n;
    const side = (dx * (ring[2 * m + 1]! - ay) - dy * (ring[2 * m]! - ax)) / length;
    if (side < -1e-12) return Infinity;
    if (side > stray) stray = side;
  }
  return stray;
}

/** Distance of a corner from the run that it replaces: vertices e + 1 .. e + count. */
function distanceToRun(ring: Ring, e: number, count: number, x: number, y: number): number {
  const n = ring.length / 2;
  let least = Infinity;
  for (let k = 1; k < count; k++) {
    const i = (e + k) % n;
    const j = (i + 1) % n;
    const ax = ring[2 * i]!;
    const ay = ring[2 * i + 1]!;
    const dx = ring[2 * j]! - ax;
    const dy = ring[2 * j + 1]! - ay;
    const square = dx * dx + dy * dy;
    const t = square === 0 ? 0 : Math.min(1, Math.max(0, ((x - ax) * dx + (y - ay) * dy) / square));
    least = Math.min(least, Math.hypot(x - ax - t * dx, y - ay - t * dy));
  }
  return least;
}

/** Where edge e, drawn on, meets edge f, drawn back; null when they do not meet between them. */
function meet(ring: Ring, e: number, f: number): { x: number; y: number } | null {
  const n = ring.length / 2;
  const a = (e + 1) % n;
  const ux = ring[2 * a]! - ring[2 * e]!;
  const uy = ring[2 * a + 1]! - ring[2 * e + 1]!;
  const g = (f + 1) % n;
  const vx = ring[2 * f]! - ring[2 * g]!;
  const vy = ring[2 * f + 1]! - ring[2 * g + 1]!;
  const det = ux * vy - uy * vx;
  if (det >= -1e-12 * Math.hypot(ux, uy) * Math.hypot(vx, vy)) return null;
  const t = ((ring[2 * f]! - ring[2 * a]!) * vy - (ring[2 * f + 1]! - ring[2 * a + 1]!) * vx) / det;
  return t > 0 ? { x: ring[2 * a]! + ux * t, y: ring[2 * a + 1]! + uy * t } : null;
}
