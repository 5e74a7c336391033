import type { DrawnShape } from '@underlap/artwork/drawing';
import { isOutline, largestOutline, overlaps, overlapsPartly } from './overlaps.ts';

/** How a drawing shows its parts, and why we think so. */
export interface ModeDecision {
  readonly mode: 'stacked' | 'spread';
  readonly reason: string;
}

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
