import { intersectRegions, subtractRegions } from '@underlap/geometry/boolean';
import { offsetRegions } from '@underlap/geometry/offset';
import { type Region, regionArea } from '@underlap/geometry/region';
import type { Bounds } from '@underlap/geometry/ring';
import { largestRectangle } from './largest-rectangle.ts';

/** Chords of the rests' rounded corners, mm: nobody cuts along them. */
const COARSE_MM = 0.1;

/** Wood between a cut and a rest, mm: what burning makes brittle, and a board that lies a little askew next time. */
const FROM_CUT_MM = 2;

/** What is left of a board and can be used again. */
export interface Rest {
  /** Its true outline, in the sheet's frame, without strips too narrow to use. */
  readonly region: Region;
  readonly areaMm2: number;
  /** The largest rectangle in it, sides along the board. */
  readonly rectangle: Bounds;
}

/**
 * All usable rests of a board, the largest rectangle first.
 * @param cut - what was cut from it, in the sheet's frame.
 * @param leastSide - a rest is usable when its rectangle is at least so wide and high, mm, > 0.
 * @returns disjoint regions; places narrower than a third of `leastSide` are left out of their outlines.
 * @remarks A few offsets, and the cells of every rest's box.
 */
export function restsOf(board: Region, cut: readonly Region[], leastSide: number): Rest[] {
  const left = subtractRegions([board], offsetRegions(cut, FROM_CUT_MM, COARSE_MM));
  const narrow = leastSide / 6;
  const rounded = offsetRegions(offsetRegions(left, -narrow - COARSE_MM, COARSE_MM), narrow, COARSE_MM);
  // Square corners come back: they lie 0.42 of the rounding beyond it.
  return intersectRegions(left, offsetRegions(rounded, 0.45 * narrow + COARSE_MM, COARSE_MM))
    .flatMap((region): Rest[] => {
      const rectangle = largestRectangle(region);
      if (rectangle === null || Math.min(rectangle.maxX - rectangle.minX, rectangle.maxY - rectangle.minY) < leastSide)
        return [];
      return [{ region, areaMm2: regionArea(region), rectangle }];
    })
    .sort((a, b) => boxArea(b.rectangle) - boxArea(a.rectangle));
}

export function boxArea({ minX, minY, maxX, maxY }: Bounds): number {
  return (maxX - minX) * (maxY - minY);
}
