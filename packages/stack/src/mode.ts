import type { DrawnShape } from '@underlap/artwork/drawing';
import { intersectRegions } from '@underlap/geometry/boolean';
import { ringsCross } from '@underlap/geometry/distance';
import { type Region, regionsArea } from '@underlap/geometry/region';
import { orientedRing } from '@underlap/geometry/ring';
import { holds, type Outline, outlinesOf } from './outline.ts';

/** How a drawing shows its parts, and why we think so. */
export interface ModeDecision {
  readonly mode: 'stacked' | 'spread';
  readonly reason: string;
}

/** An overlap up to this share of the smaller outline is drawing imprecision where outlines touch. */
const TOUCHING_SHARE = 0.01;

/** Share of filled shapes that must lie on another for a drawing to be a stack. */
const STACKED_SHARE = 0.2;

/**
 * Tell a stacked drawing (shapes lie on one another as in the finished sign) from a spread one (parts side by side, holes and
 * marks inside them).
 * @remarks Filled shapes that lie on other filled shapes make a stack. Without fills, outlines that cross each other make a
 * stack, since parts that lie side by side never cross; outlines that are only nested are holes and marks, hence spread.
 * O(n^2) box tests in the number of shapes.
 */
export function decideMode(shapes: readonly DrawnShape[]): ModeDecision {
  const filled = shapes
    .filter((shape) => shape.fill !== null)
    .map(largestOutline)
    .filter(isOutline);
  if (filled.length > 0) {
    const lying = filled.filter((upper, index) =>
      filled.slice(0, index).some((lower) => overlaps(lower, upper)),
    ).length;
    if (lying >= Math.max(1, STACKED_SHARE * (filled.length - 1))) {
      return { mode: 'stacked', reason: `${lying} of ${filled.length} filled shapes lie on others` };
    }
    return { mode: 'spread', reason: `the ${filled.length} filled shapes lie side by side` };
  }
  const outlines = shapes.map(largestOutline).filter(isOutline);
  const crossing = outlines.some((upper, index) =>
    outlines.slice(0, index).some((lower) => overlapsPartly(lower, upper)),
  );
  return crossing
    ? { mode: 'stacked', reason: 'outlines cross each other, so they cannot lie side by side' }
    : { mode: 'spread', reason: 'no shape is filled and outlines are only nested' };
}

function largestOutline(shape: DrawnShape): Outline | null {
  return outlinesOf(shape).reduce<Outline | null>(
    (best, next) => (best === null || next.area > best.area ? next : best),
    null,
  );
}

function isOutline(outline: Outline | null): outline is Outline {
  return outline !== null;
}

function overlaps(lower: Outline, upper: Outline): boolean {
  if (!doBoxesMeet(lower, upper)) return false;
  return holds(lower, upper) || holds(upper, lower) || overlapsPartly(lower, upper);
}

/** Do both share some area while neither holds the other? Parts that only touch, or share a cut line, do not. */
function overlapsPartly(lower: Outline, upper: Outline): boolean {
  if (!doBoxesMeet(lower, upper) || !ringsCross(lower.ring, upper.ring)) return false;
  const shared = regionsArea(intersectRegions([asRegion(lower)], [asRegion(upper)]));
  const share = shared / Math.min(lower.area, upper.area);
  return share > TOUCHING_SHARE && share < 1 - TOUCHING_SHARE;
}

function asRegion(outline: Outline): Region {
  return { outer: orientedRing(outline.ring, 1), holes: [] };
}

function doBoxesMeet(first: Outline, second: Outline): boolean {
  const a = first.bounds;
  const b = second.bounds;
  return a.minX < b.maxX && b.minX < a.maxX && a.minY < b.maxY && b.minY < a.maxY;
}
