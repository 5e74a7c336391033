import { placementMatrix } from '@underlap/geometry/matrix';
import type { Region } from '@underlap/geometry/region';
import type { Ring } from '@underlap/geometry/ring';

/** A ring turned about the origin by degrees (quarter turns exactly). */
export function turnedRing(ring: Ring, turnDeg: number): Ring {
  const m = placementMatrix(0, 0, turnDeg);
  const out = new Float64Array(ring.length);
  for (let i = 0; i < ring.length; i += 2) {
    out[i] = m.a * ring[i]! + m.c * ring[i + 1]!;
    out[i + 1] = m.b * ring[i]! + m.d * ring[i + 1]!;
  }
  return out;
}

/** A region turned about its frame's origin. */
export function turnedRegion(region: Region, turnDeg: number): Region {
  return { outer: turnedRing(region.outer, turnDeg), holes: region.holes.map((hole) => turnedRing(hole, turnDeg)) };
}

/** The point reflection -ring; keeps the sense of rotation. */
export function reflectedRing(ring: Ring): Ring {
  return ring.map((value) => -value);
}
