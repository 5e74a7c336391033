import { placementMatrix } from '@underlap/geometry/matrix';
import type { Region } from '@underlap/geometry/region';
import { type Ring, reversedRing } from '@underlap/geometry/ring';

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

/** A region turned over (x -> -x); rings keep their sense of rotation. */
export function mirroredRegion(region: Region): Region {
  const flip = (ring: Ring) => reversedRing(ring.map((value, index) => (index % 2 === 0 ? -value : value)));
  return { outer: flip(region.outer), holes: region.holes.map(flip) };
}

/** The point reflection -ring; keeps the sense of rotation. */
export function reflectedRing(ring: Ring): Ring {
  return ring.map((value) => -value);
}
