/**
 * No-fit polygons: where one region may not be put because of another.
 *
 *   noFit(fixed, moving)           rings of the forbidden translations of `moving` (its frame's origin), `fixed` in its own frame
 * For pieces with turns ka and kb hand in b turned by kb - ka and turn the result by ka. NFP(b, a, k) = -R(k) NFP(a, b, -k):
 * whoever keeps polygons needs one order of each pair only (search/model.ts does so).
 *
 * Convention: `moving` at p overlaps `fixed` exactly when p is strictly inside the rings by the non-zero rule. Outer rings are
 * counter-clockwise, holes (places inside a notch or hole of `fixed`, where `moving` fits) clockwise. On a ring the two touch.
 * A place that only an exact fit could reach (a slot of zero play) is not represented.
 */
import { regionsFromRings } from '@underlap/geometry/boolean';
import type { Region } from '@underlap/geometry/region';
import { type Bounds, type Ring, ringBounds } from '@underlap/geometry/ring';
import { convexSum, isConvexRing } from './convex.ts';
import { convolutionCycles } from './convolution.ts';
import { keyholeRing } from './keyhole.ts';
import { reflectedRing } from './turned.ts';

/** Forbidden translations of one shape against another. */
export interface NoFit {
  /** Outer rings counter-clockwise, holes clockwise. */
  readonly rings: readonly Ring[];
  /** One convex ring: depth is then a matter of half-planes. */
  readonly isConvex: boolean;
  readonly bounds: Bounds;
}

/** Largest coordinate handed to the union, so that its integers stay in the fast range whatever the input's unit. */
const UNION_EXTENT = 45;

/**
 * No-fit polygon of two regions in their own frames.
 * @param fixed - stays where it is; outer ring counter-clockwise, holes clockwise.
 * @param moving - the piece whose origin is to be placed.
 * @remarks Convex pairs O(n + m), exact. Others by the convolution curve of `fixed` and -`moving` and one non-zero union;
 * coordinates are then good to about 1e-8 of the extent.
 */
export function noFit(fixed: Region, moving: Region): NoFit {
  const a = keyholeRing(fixed);
  const b = reflectedRing(keyholeRing(moving));
  if (fixed.holes.length === 0 && moving.holes.length === 0 && isConvexRing(a) && isConvexRing(b)) {
    return described([convexSum(a, b)], true);
  }
  const cycles = convolutionCycles(a, b);
  let extent = 1e-300;
  for (const cycle of cycles) for (const value of cycle) extent = Math.max(extent, Math.abs(value));
  const scale = UNION_EXTENT / extent;
  const regions = regionsFromRings(
    cycles.map((cycle) => cycle.map((value) => value * scale)),
    'nonzero',
  );
  const rings = regions.flatMap((region) => [region.outer, ...region.holes]);
  return described(
    rings.map((ring) => ring.map((value) => value / scale)),
    false,
  );
}

/** A turn in [0, 360) with the noise of sums taken off (1e-9 degrees). */
export function normalTurn(turnDeg: number): number {
  const rounded = Math.round((((turnDeg % 360) + 360) % 360) * 1e9) / 1e9;
  return rounded >= 360 ? 0 : rounded;
}

function described(rings: readonly Ring[], isConvex: boolean): NoFit {
  const bounds = { minX: Infinity, minY: Infinity, maxX: -Infinity, maxY: -Infinity };
  for (const ring of rings) {
    const own = ringBounds(ring);
    bounds.minX = Math.min(bounds.minX, own.minX);
    bounds.minY = Math.min(bounds.minY, own.minY);
    bounds.maxX = Math.max(bounds.maxX, own.maxX);
    bounds.maxY = Math.max(bounds.maxY, own.maxY);
  }
  return { rings, isConvex, bounds };
}
