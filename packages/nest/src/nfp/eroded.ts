import type { Region } from '@underlap/geometry/region';
import type { Ring } from '@underlap/geometry/ring';

/** Least of 1 + cosine between two edges' normals that a corner is moved by: keeps the move at spikes finite. */
const SHARPEST = 0.02;

/**
 * A region with every edge moved inwards by a tiny distance, corners staying corners.
 * @param region - outer ring counter-clockwise, holes clockwise; not modified.
 * @param distance - far less than the shortest edge and the narrowest neck; nothing is checked.
 */
export function erodedRegion(region: Region, distance: number): Region {
  return {
    outer: movedRing(region.outer, distance),
    holes: region.holes.map((hole) => movedRing(hole, distance)),
  };
}

function movedRing(given: Ring, distance: number): Ring {
  const ring = withoutRepeats(given);
  const n = ring.length / 2;
  const out = new Float64Array(ring.length);
  for (let v = 0; v < n; v++) {
    const p = 2 * ((v + n - 1) % n);
    const q = 2 * ((v + 1) % n);
    const x = ring[2 * v]!;
    const y = ring[2 * v + 1]!;
    const into = Math.hypot(x - ring[p]!, y - ring[p + 1]!);
    const from = Math.hypot(ring[q]! - x, ring[q + 1]! - y);
    // Normals to the left of both edges, which is the inside.
    const ax = (ring[p + 1]! - y) / into;
    const ay = (x - ring[p]!) / into;
    const bx = (y - ring[q + 1]!) / from;
    const by = (ring[q]! - x) / from;
    const share = distance / Math.max(SHARPEST, 1 + ax * bx + ay * by);
    out[2 * v] = x + share * (ax + bx);
    out[2 * v + 1] = y + share * (ay + by);
  }
  return out;
}

/** Repeated points have no edge between them and so no normal. */
function withoutRepeats(ring: Ring): Ring {
  const out: number[] = [];
  const n = ring.length;
  for (let i = 0; i < n; i += 2) {
    const x = ring[i]!;
    const y = ring[i + 1]!;
    if (x !== ring[(i + n - 2) % n]! || y !== ring[(i + n - 1) % n]!) out.push(x, y);
  }
  return Float64Array.from(out);
}
