import { type Bounds, isInRing, type Ring, ringArea, ringBounds } from './ring.ts';

/** One connected flat area with holes: outer ring of positive area, holes of negative area, mm. */
export interface Region {
  readonly outer: Ring;
  readonly holes: readonly Ring[];
}

/** Net area, mm2 (holes taken off). O(n). */
export function regionArea(region: Region): number {
  return region.holes.reduce((sum, hole) => sum + ringArea(hole), ringArea(region.outer));
}

/** Net area of several disjoint regions, mm2. */
export function regionsArea(regions: readonly Region[]): number {
  return regions.reduce((sum, region) => sum + regionArea(region), 0);
}

/** Bounding box of the outer ring. */
export function regionBounds(region: Region): Bounds {
  return ringBounds(region.outer);
}

/** Is the point in the area and in none of the holes? Edge points may be told either way. O(n). */
export function isInRegion(region: Region, x: number, y: number): boolean {
  return isInRing(region.outer, x, y) && !region.holes.some((hole) => isInRing(hole, x, y));
}
