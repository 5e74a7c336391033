import { distancePointToRing } from '@underlap/geometry/distance';
import type { Region } from '@underlap/geometry/region';
import { isInRing, ringBounds } from '@underlap/geometry/ring';

/** Circles kept of one outline: enough to tell bays from bodies. */
const MOST_CIRCLES = 10;
/** Points looked at along each side of the box. */
const STEPS = 22;

/** Circles within a region as x, y, radius, ..., large ones first: what overlaps them overlaps the region. */
export function innerCircles({ outer, holes }: Region): Float64Array {
  const { minX, minY, maxX, maxY } = ringBounds(outer);
  const found: { x: number; y: number; radius: number }[] = [];
  for (let i = 0; i < STEPS; i++) {
    for (let j = 0; j < STEPS; j++) {
      const x = minX + ((i + 0.5) / STEPS) * (maxX - minX);
      const y = minY + ((j + 0.5) / STEPS) * (maxY - minY);
      if (!isInRing(outer, x, y) || holes.some((hole) => isInRing(hole, x, y))) continue;
      const radius = Math.min(...[outer, ...holes].map((ring) => distancePointToRing(x, y, ring)));
      found.push({ x, y, radius });
    }
  }
  found.sort((a, b) => b.radius - a.radius || a.x - b.x || a.y - b.y);
  const kept: typeof found = [];
  for (const circle of found) {
    if (kept.length === MOST_CIRCLES) break;
    // one whose middle lies in a larger one adds little
    if (kept.every(({ x, y, radius }) => Math.hypot(circle.x - x, circle.y - y) > radius)) kept.push(circle);
  }
  return Float64Array.from(kept.flatMap(({ x, y, radius }) => [x, y, radius]));
}

/** How deep circles reach into others that lie dx, dy away, at least; with a distance to keep. 0 = they are apart, the regions need not be. */
export function circleDepth(a: Float64Array, b: Float64Array, dx: number, dy: number, clearance: number): number {
  let deepest = 0;
  for (let i = 0; i < a.length; i += 3) {
    const x = a[i]! - dx;
    const y = a[i + 1]! - dy;
    const reach = a[i + 2]! + clearance;
    for (let k = 0; k < b.length; k += 3) {
      const ux = b[k]! - x;
      const uy = b[k + 1]! - y;
      const sum = reach + b[k + 2]! - deepest;
      if (sum > 0 && ux * ux + uy * uy < sum * sum) deepest += sum - Math.sqrt(ux * ux + uy * uy);
    }
  }
  return deepest;
}
