import { type Ring, ringPerimeter } from '@underlap/geometry/ring';
import { evenSamples } from './even-samples.ts';
import type { Pose } from './ring-align.ts';

/** Points along the ring, so many that half a step is below what registration corrects. */
const RING_POINTS = 720;
/** Points compared along the stretch. */
const STRETCH_POINTS = 32;
/** Drawing noise makes a line longer and an inset shorter than its counterpart. */
const LENGTH_FACTORS = [1, 0.97, 0.94, 1.03];

/** A pose worth refining, and how far off the stretch is there (root of mean squares). */
export interface ProposedPose {
  readonly pose: Pose;
  readonly rmsMm: number;
}

/**
 * Poses that lay an open stretch along a part of a ring.
 * @param line - the stretch, in either direction of travel, mm.
 * @returns the best pose at every local minimum along the ring, best first, at most `most`.
 * @remarks Corresponding points are paired by length along both; each pairing is solved in closed form (Procrustes). O(ring points x
 * stretch points) for every factor and direction.
 */
export function proposePoses(line: Float64Array, length: number, ring: Ring, most: number): ProposedPose[] {
  const perimeter = ringPerimeter(ring);
  const along = evenSamples(ring, RING_POINTS, true);
  const count = along.length / 2;
  const own = evenSamples(line, STRETCH_POINTS, false);
  const found: ProposedPose[] = [];
  for (const way of [1, -1] as const) {
    const best: ProposedPose[] = [];
    for (let start = 0; start < count; start++) {
      let least: ProposedPose | null = null;
      for (const factor of LENGTH_FACTORS) {
        const step = ((way * length * factor) / perimeter) * (count / (own.length / 2));
        const candidate = paired(own, along, start, step);
        if (least === null || candidate.rmsMm < least.rmsMm) least = candidate;
      }
      best.push(least!);
    }
    const isLow = (i: number): boolean =>
      best[i]!.rmsMm <= best[(i + count - 1) % count]!.rmsMm && best[i]!.rmsMm < best[(i + 1) % count]!.rmsMm;
    found.push(...best.filter((_, i) => isLow(i)));
  }
  return found.sort((a, b) => a.rmsMm - b.rmsMm).slice(0, most);
}

/** The turn and move that lay the points of a stretch on points of the ring from `start` on, a step (in ring points) apart. */
function paired(own: Float64Array, along: Float64Array, start: number, step: number): ProposedPose {
  const n = own.length / 2;
  const count = along.length / 2;
  let [gx, gy, qx, qy] = [0, 0, 0, 0];
  const on = new Float64Array(own.length);
  for (let k = 0; k < n; k++) {
    const at = start + step * k;
    const low = Math.floor(at);
    const u = at - low;
    const i = 2 * (((low % count) + count) % count);
    const j = (i + 2) % along.length;
    on[2 * k] = along[i]! + u * (along[j]! - along[i]!);
    on[2 * k + 1] = along[i + 1]! + u * (along[j + 1]! - along[i + 1]!);
    gx += own[2 * k]! / n;
    gy += own[2 * k + 1]! / n;
    qx += on[2 * k]! / n;
    qy += on[2 * k + 1]! / n;
  }
  let [dot, cross, squares] = [0, 0, 0];
  for (let k = 0; k < n; k++) {
    const [ax, ay] = [own[2 * k]! - gx, own[2 * k + 1]! - gy];
    const [bx, by] = [on[2 * k]! - qx, on[2 * k + 1]! - qy];
    dot += ax * bx + ay * by;
    cross += ax * by - ay * bx;
    squares += ax * ax + ay * ay + bx * bx + by * by;
  }
  const turn = Math.atan2(cross, dot);
  const [cos, sin] = [Math.cos(turn), Math.sin(turn)];
  const rmsMm = Math.sqrt(Math.max(0, squares - 2 * Math.hypot(dot, cross)) / n);
  return { pose: { turn, x: qx - (cos * gx - sin * gy), y: qy - (sin * gx + cos * gy) }, rmsMm };
}
