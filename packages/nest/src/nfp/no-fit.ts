/**
 * No-fit polygons: where one region may not be put because of another.
 *
 *   noFit(fixed, moving)           rings of the forbidden translations of `moving` (its frame's origin), `fixed` in its own frame
 *   new NoFitTable(regions)        the same for many shapes and turns, built when first asked for, kept, half of it by reflection
 *     .between(a, b, turnDeg)      shape a unturned at the origin, shape b turned by turnDeg
 *   placedNoFit(noFit, x, y, deg)  the rings for a fixed piece that lies at x, y with a turn
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
import { reflectedRing, turnedRegion, turnedRing } from './turned.ts';

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

/** The same no-fit polygon for the fixed shape lying at x, y with a turn; the moving shape turns along with it. */
export function placedNoFit(shape: NoFit, x: number, y: number, turnDeg: number): Ring[] {
  return shape.rings.map((ring) => {
    const out = turnedRing(ring, turnDeg);
    for (let i = 0; i < out.length; i += 2) {
      out[i]! += x;
      out[i + 1]! += y;
    }
    return out;
  });
}

/** No-fit polygons between shapes of a problem by relative turn; each is built once, on first use. */
export class NoFitTable {
  readonly #shapes: readonly Region[];
  readonly #known = new Map<string, NoFit>();

  constructor(shapes: readonly Region[]) {
    this.#shapes = shapes;
  }

  /**
   * Shape `a` unturned at the origin, shape `b` turned by `turnDeg` and placed at p. For pieces with turns ka and kb take
   * turnDeg = kb - ka and turn the result by ka (`placedNoFit`).
   * @remarks NFP(b, a, k) = -R(k) NFP(a, b, -k): pairs in descending order are reflections of the stored ones.
   */
  between(a: number, b: number, turnDeg: number): NoFit {
    const turn = normalTurn(turnDeg);
    const key = `${a} ${b} ${turn}`;
    const known = this.#known.get(key);
    if (known) return known;
    let made: NoFit;
    if (a <= b) made = noFit(this.#shapes[a]!, turnedRegion(this.#shapes[b]!, turn));
    else {
      const twin = this.between(b, a, -turn);
      made = described(
        twin.rings.map((ring) => turnedRing(ring, turn + 180)),
        twin.isConvex,
      );
    }
    this.#known.set(key, made);
    return made;
  }
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
