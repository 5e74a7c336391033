import type { Point } from '@underlap/geometry/point';
import type { Region } from '@underlap/geometry/region';
import { ringArea } from '@underlap/geometry/ring';
import { ringMoments } from './ring-signature.ts';

/** Centre of mass of flat regions of one thickness, mm; the origin for none. O(n). */
export function centroidOf(regions: readonly Region[]): Point {
  let sum = 0;
  let x = 0;
  let y = 0;
  for (const ring of regions.flatMap((region) => [region.outer, ...region.holes])) {
    const area = ringArea(ring);
    const { centre } = ringMoments(ring);
    sum += area;
    x += area * centre.x;
    y += area * centre.y;
  }
  return sum === 0 ? { x: 0, y: 0 } : { x: x / sum, y: y / sum };
}
