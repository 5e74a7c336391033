import type { DrawnShape } from '@underlap/artwork/drawing';
import { intersectRegions } from '@underlap/geometry/boolean';
import { ringsCross } from '@underlap/geometry/distance';
import { type Region, regionsArea } from '@underlap/geometry/region';
import { orientedRing } from '@underlap/geometry/ring';
import { doBoxesMeet } from './meetings.ts';
import { holds, type Outline, outlinesOf } from './outline.ts';

/** An overlap up to this share of the smaller outline is drawing imprecision where outlines touch. */
const TOUCHING_SHARE = 0.01;

/** The outline of a shape that encloses most; null for open lines. */
export function largestOutline(shape: DrawnShape): Outline | null {
  return outlinesOf(shape).reduce<Outline | null>(
    (best, next) => (best === null || next.area > best.area ? next : best),
    null,
  );
}

export function isOutline(outline: Outline | null): outline is Outline {
  return outline !== null;
}

/** Does one of two outlines lie on the other, wholly or partly? */
export function overlaps(lower: Outline, upper: Outline): boolean {
  if (!doBoxesMeet(lower, upper)) return false;
  return holds(lower, upper) || holds(upper, lower) || overlapsPartly(lower, upper);
}

/** Do both share some area while neither holds the other? Parts that only touch, or share a cut line, do not. */
export function overlapsPartly(lower: Outline, upper: Outline): boolean {
  if (!doBoxesMeet(lower, upper) || !ringsCross(lower.ring, upper.ring)) return false;
  const shared = regionsArea(intersectRegions([asRegion(lower)], [asRegion(upper)]));
  const share = shared / Math.min(lower.area, upper.area);
  return share > TOUCHING_SHARE && share < 1 - TOUCHING_SHARE;
}

/** Does any of the shapes lie on another? O(n^2) box tests. */
export function overlapsAny(shapes: readonly DrawnShape[]): boolean {
  const outlines = shapes.map(largestOutline).filter(isOutline);
  return outlines.some((upper, index) => outlines.slice(0, index).some((lower) => overlaps(lower, upper)));
}

function asRegion(outline: Outline): Region {
  return { outer: orientedRing(outline.ring, 1), holes: [] };
}
