import { clip } from './clipper.ts';
import type { Region } from './region.ts';
import type { Ring } from './ring.ts';

/** All rings of some regions in one list. */
export function regionRings(regions: readonly Region[]): Ring[] {
  return regions.flatMap((region) => [region.outer, ...region.holes]);
}

/**
 * Everything that lies in at least one of the regions.
 * @returns disjoint regions, oriented by convention.
 * @throws GeometryError `non-finite`, `out-of-range`.
 * @remarks O((n + k) log n) for k crossings; vertices move by up to a nanometre. The same holds for the others here.
 */
export function unionRegions(regions: readonly Region[]): Region[] {
  return clip('union', regionRings(regions), [], 'positive');
}

/** What lies in `a` and in `b`; overlaps within one list count once. */
export function intersectRegions(a: readonly Region[], b: readonly Region[]): Region[] {
  return clip('intersection', regionRings(a), regionRings(b), 'positive');
}

/** What lies in `a` but not in `b`. */
export function subtractRegions(a: readonly Region[], b: readonly Region[]): Region[] {
  return clip('difference', regionRings(a), regionRings(b), 'positive');
}

/** The regions that a set of rings encloses by a fill rule, whatever crossings and orientations the rings have. */
export function regionsFromRings(rings: readonly Ring[], fillRule: 'nonzero' | 'evenodd'): Region[] {
  return clip('union', rings, [], fillRule);
}
