import type { Region } from '@underlap/geometry/region';
import type { Ring } from '@underlap/geometry/ring';
import type { Sign } from '@underlap/stack/sign';
import type { SectionView } from '../workers/views.ts';

/** Cuts through the sign, evenly from its top to its bottom. */
const CUTS = 24;

/**
 * What lies on horizontal cuts through the assembled sign.
 * @remarks O(n) in the corners of the sign for each cut that an edge crosses.
 */
export function sectionsOf(sign: Sign): SectionView[] {
  const ys = sign.parts.flatMap(({ region }) => ordinates(region.outer));
  const top = ys.reduce((least, y) => Math.min(least, y), Infinity);
  const bottom = ys.reduce((most, y) => Math.max(most, y), -Infinity);
  if (!(bottom > top)) return [];
  return Array.from({ length: CUTS }, (_, index) => {
    const y = top + ((index + 0.5) / CUTS) * (bottom - top);
    return {
      y,
      spans: sign.parts.flatMap(({ id, region }) => spansAt(region, y).map(([from, to]) => ({ partId: id, from, to }))),
    };
  });
}

function ordinates(ring: Ring): number[] {
  return Array.from({ length: ring.length / 2 }, (_, i) => ring[2 * i + 1]!);
}

/** Stretches of a region on the line at `y`, from left to right, mm. */
export function spansAt(region: Region, y: number): [number, number][] {
  const crossings = [region.outer, ...region.holes].flatMap((ring) => crossingsAt(ring, y)).sort((a, b) => a - b);
  const spans: [number, number][] = [];
  for (let i = 0; i + 1 < crossings.length; i += 2) spans.push([crossings[i]!, crossings[i + 1]!]);
  return spans;
}

/** Where a ring crosses the line at `y`; a corner on the line belongs to the edge below it. */
function crossingsAt(ring: Ring, y: number): number[] {
  const found: number[] = [];
  const n = ring.length;
  for (let i = 0, j = n - 2; i < n; j = i, i += 2) {
    const y0 = ring[j + 1]!;
    const y1 = ring[i + 1]!;
    if (y0 > y === y1 > y) continue;
    found.push(ring[j]! + ((y - y0) / (y1 - y0)) * (ring[i]! - ring[j]!));
  }
  return found;
}
