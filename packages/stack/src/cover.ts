import { intersectRegions, unionRegions } from '@underlap/geometry/boolean';
import { ringsCross } from '@underlap/geometry/distance';
import { isInRegion, type Region, regionBounds } from '@underlap/geometry/region';
import type { Bounds } from '@underlap/geometry/ring';
import type { Part, Sign } from './sign.ts';

/**
 * What hides a part in the finished sign: the union of the parts above it, where they come near it.
 * @param partId - id of a part of the sign.
 * @returns disjoint regions in the sign's frame; they may reach beyond the part; empty when nothing lies on it or when it is not
 * known where the part goes.
 * @remarks One boolean union of the parts above, O(n log n) in their vertices.
 */
export function coverOf(sign: Sign, partId: string): Region[] {
  const above = partsOn(sign, partId);
  return above.length === 0 ? [] : unionRegions(above.map((part) => part.region));
}

/** The parts that lie above the given part and whose bounding boxes meet it, bottom first. */
export function partsOn(sign: Sign, partId: string): Part[] {
  const index = sign.parts.findIndex((part) => part.id === partId);
  const lower = sign.parts[index];
  if (lower === undefined || lower.place === 'drawn') return [];
  const box = boundsOf(lower.region);
  return sign.parts
    .slice(index + 1)
    .filter((part) => part.place === 'assembled' && doBoundsMeet(box, boundsOf(part.region)));
}

/** Regions are never changed, so their boxes are kept for as long as they are. */
const boxes = new WeakMap<Region, Bounds>();

/** The bounding box of a region that is asked for often. */
export function boundsOf(region: Region): Bounds {
  const known = boxes.get(region) ?? regionBounds(region);
  boxes.set(region, known);
  return known;
}

/** What two regions share is worked out once for as long as both are there. */
const shared = new WeakMap<Region, WeakMap<Region, readonly Region[]>>();

/**
 * Area of `lower` that `upper` lies on, as regions.
 * @remarks One boolean where the outlines meet; where one lies well within the other none. Asked again it costs nothing.
 */
export function contactBetween(lower: Part, upper: Part): readonly Region[] {
  if (!doBoundsMeet(boundsOf(lower.region), boundsOf(upper.region))) return [];
  const known = shared.get(lower.region)?.get(upper.region);
  if (known !== undefined) return known;
  const found = sharedArea(lower.region, upper.region);
  const ofLower = shared.get(lower.region) ?? new WeakMap<Region, readonly Region[]>();
  shared.set(lower.region, ofLower.set(upper.region, found));
  return found;
}

function sharedArea(lower: Region, upper: Region): readonly Region[] {
  const rings = [lower.outer, ...lower.holes];
  const meet = [upper.outer, ...upper.holes].some((ring) => rings.some((other) => ringsCross(ring, other)));
  if (!meet && isWhollyIn(upper, lower)) return [upper];
  if (!meet && isWhollyIn(lower, upper)) return [lower];
  return intersectRegions([lower], [upper]);
}

/** Of two regions whose outlines do not meet: does one lie where the other has neither edge nor hole? */
function isWhollyIn(inner: Region, outer: Region): boolean {
  const whole = { outer: inner.outer, holes: [] };
  return (
    isInRegion(outer, inner.outer[0]!, inner.outer[1]!) &&
    !outer.holes.some((hole) => isInRegion(whole, hole[0]!, hole[1]!))
  );
}

/** Do the bounding boxes overlap? */
export function doBoundsMeet(first: Bounds, second: Bounds): boolean {
  return first.minX < second.maxX && second.minX < first.maxX && first.minY < second.maxY && second.minY < first.maxY;
}
