import type { Point } from '@underlap/geometry/point';
import type { Ring } from '@underlap/geometry/ring';

/** Centroid of the area and mean squared distance of the area from it, mm and mm2. */
export interface RingMoments {
  readonly centre: Point;
  readonly spread: number;
}

/** Directions in a signature: half a degree each, refined afterwards. */
export const SIGNATURE_STEPS = 720;

/** Area centroid and spread; independent of start point, orientation and number of points. O(n). */
export function ringMoments(ring: Ring): RingMoments {
  const ox = ring[0]!;
  const oy = ring[1]!;
  let twice = 0;
  let cx = 0;
  let cy = 0;
  let second = 0;
  let px = ring[ring.length - 2]! - ox;
  let py = ring[ring.length - 1]! - oy;
  for (let i = 0; i < ring.length; i += 2) {
    const x = ring[i]! - ox;
    const y = ring[i + 1]! - oy;
    const cross = px * y - x * py;
    twice += cross;
    cx += (px + x) * cross;
    cy += (py + y) * cross;
    second += cross * (px * px + px * x + x * x + py * py + py * y + y * y);
    px = x;
    py = y;
  }
  if (twice === 0) return { centre: { x: ox, y: oy }, spread: 0 };
  const gx = cx / (3 * twice);
  const gy = cy / (3 * twice);
  return {
    centre: { x: gx + ox, y: gy + oy },
    spread: Math.max(0, second / (6 * twice) - gx * gx - gy * gy),
  };
}

/** Farthest distance of the ring from the centroid in each direction, mm; 0 where the ring does not reach. O(n + steps). */
export function radialSignature(ring: Ring, moments: RingMoments): Float64Array {
  const out = new Float64Array(SIGNATURE_STEPS);
  const perStep = (2 * Math.PI) / SIGNATURE_STEPS;
  const { x: cx, y: cy } = moments.centre;
  const n = ring.length;
  for (let i = 0; i < n; i += 2) {
    const j = (i + 2) % n;
    const ax = ring[i]! - cx;
    const ay = ring[i + 1]! - cy;
    const bx = ring[j]! - cx;
    const by = ring[j + 1]! - cy;
    const from = Math.atan2(ay, ax);
    let sweep = Math.atan2(by, bx) - from;
    if (sweep > Math.PI) sweep -= 2 * Math.PI;
    if (sweep < -Math.PI) sweep += 2 * Math.PI;
    const first = Math.ceil(Math.min(from, from + sweep) / perStep);
    const last = Math.floor(Math.max(from, from + sweep) / perStep);
    for (let k = first; k <= last; k++) {
      const angle = k * perStep;
      const cos = Math.cos(angle);
      const sin = Math.sin(angle);
      const across = cos * (by - ay) - sin * (bx - ax);
      const along = across === 0 ? Math.hypot(ax, ay) : (ax * (by - ay) - ay * (bx - ax)) / across;
      const slot = ((k % SIGNATURE_STEPS) + SIGNATURE_STEPS) % SIGNATURE_STEPS;
      if (along > out[slot]!) out[slot] = along;
    }
  }
  return out;
}

/**
 * Turns (radians) at which `from` looks most like `to`: local minima of the summed squared difference, best first.
 * @remarks O(steps^2) with 720 steps: about half a million multiplications.
 */
export function signaturePeaks(from: Float64Array, to: Float64Array, most: number): number[] {
  const n = SIGNATURE_STEPS;
  const score = new Float64Array(n);
  for (let shift = 0; shift < n; shift++) {
    let sum = 0;
    for (let k = 0; k < n; k++) {
      let source = k - shift;
      if (source < 0) source += n;
      const difference = to[k]! - from[source]!;
      sum += difference * difference;
    }
    score[shift] = sum;
  }
  const minima: number[] = [];
  for (let shift = 0; shift < n; shift++) {
    const before = score[(shift + n - 1) % n]!;
    const after = score[(shift + 1) % n]!;
    if (score[shift]! <= before && score[shift]! < after) minima.push(shift);
  }
  if (minima.length === 0) minima.push(0);
  minima.sort((first, second) => score[first]! - score[second]! || first - second);
  return minima.slice(0, most).map((shift) => (shift * 2 * Math.PI) / n);
}
