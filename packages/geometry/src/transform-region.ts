import type { Matrix } from './matrix.ts';
import type { Region } from './region.ts';
import type { Ring } from './ring.ts';

/** The ring under an affine map. A mirroring map also reverses the order of the vertices, so that its area keeps its sign. */
export function transformRing(ring: Ring, matrix: Matrix): Ring {
  const { a, b, c, d, e, f } = matrix;
  const mirrors = a * d - b * c < 0;
  const n = ring.length;
  const out = new Float64Array(n);
  for (let i = 0; i < n; i += 2) {
    const x = ring[i]!;
    const y = ring[i + 1]!;
    const at = mirrors ? n - 2 - i : i;
    out[at] = a * x + c * y + e;
    out[at + 1] = b * x + d * y + f;
  }
  return out;
}

/** The region under an affine map; outer stays positive and holes stay negative, also when mirrored. O(n). */
export function transformRegion(region: Region, matrix: Matrix): Region {
  return {
    outer: transformRing(region.outer, matrix),
    holes: region.holes.map((hole) => transformRing(hole, matrix)),
  };
}
