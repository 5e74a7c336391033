import { intersectRegions, unionRegions } from '@underlap/geometry/boolean';
import { type Region, regionBounds } from '@underlap/geometry/region';
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
  const box = regionBounds(lower.region);
  return sign.parts
    .slice(index + 1)
    .filter((part) => part.place === 'assembled' && doBoundsMeet(box, regionBounds(part.region)));
}

/** Area of `lower` that `upper` lies on, as regions. */
export function contactBetween(lower: Part, upper: Part): Region[] {
  if (!doBoundsMeet(regionBounds(lower.region), regionBounds(upper.region))) return [];
  return intersectRegions([lower.region], [upper.region]);
}

/** Do the bounding boxes overlap? */
export function doBoundsMeet(first: Bounds, second: Bounds): boolean {
  return first.minX < second.maxX && second.minX < first.maxX && first.minY < second.maxY && second.minY < first.maxY;
}
