import type { DrawnShape } from '@underlap/artwork/drawing';
import { ringsCross } from '@underlap/geometry/distance';
import { holds, type Outline, outlinesOf } from './outline.ts';
import { nestOutlines } from './outline-tree.ts';

/** How the outer outlines of different shapes meet: pairs by index, the lower area second. */
export interface Meetings {
  /** Outlines that lie in no other of their own shape. */
  readonly outlines: readonly Outline[];
  /** For every outline the larger ones that hold it, and all that it crosses. */
  readonly liesIn: readonly (readonly number[])[];
  readonly crosses: readonly (readonly number[])[];
}

/** @remarks O(n^2) box tests in the outlines, an exact test only where boxes meet. */
export function meetingsOf(shapes: readonly DrawnShape[]): Meetings {
  const outlines = shapes.flatMap((shape) => {
    const own = outlinesOf(shape);
    return own.length === 1
      ? own
      : nestOutlines(own)
          .filter((node) => node.depth === 0)
          .map((node) => node.outline);
  });
  const liesIn: number[][] = outlines.map(() => []);
  const crosses: number[][] = outlines.map(() => []);
  outlines.forEach((first, i) => {
    for (let j = 0; j < i; j++) {
      const second = outlines[j]!;
      if (first.shape === second.shape || !doBoxesMeet(first, second)) continue;
      if (holds(second, first)) liesIn[i]!.push(j);
      else if (holds(first, second)) liesIn[j]!.push(i);
      if (!ringsCross(first.ring, second.ring)) continue;
      crosses[i]!.push(j);
      crosses[j]!.push(i);
    }
  });
  return { outlines, liesIn, crosses };
}

export function doBoxesMeet({ bounds: a }: Outline, { bounds: b }: Outline): boolean {
  return a.minX < b.maxX && b.minX < a.maxX && a.minY < b.maxY && b.minY < a.maxY;
}
