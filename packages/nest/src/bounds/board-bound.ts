import type { NoFitCache } from '../nfp/no-fit-cache.ts';
import type { BoardBound } from '../problem.ts';
import type { Prepared } from '../shape/prepare.ts';
import { areaBound } from './area-bound.ts';
import { dualFeasibleBound } from './dual-feasible.ts';
import { exclusionBound } from './exclusion.ts';

/**
 * A number of boards that no layout of the pieces can undercut, and the argument that proves it: areas; pieces that cannot
 * share a board; dual feasible functions on rectangles that the pieces contain. The largest wins; ties go to the simplest.
 * @param unplaced - pieces that no layout of this problem places (they fit no board), by piece index: they need no board.
 * @remarks Holds for every layout that keeps spacing and margin exactly; windows of a small bed and groups could only raise
 * the true number. Exclusion costs one no-fit polygon for each pair of large parts and turns, the others are cheap.
 */
export function boardBound(
  prepared: Prepared,
  unplaced: ReadonlySet<number> = new Set(),
  noFits?: NoFitCache,
): BoardBound {
  const counts = countsWithout(prepared, unplaced);
  if (counts.every((count) => count === 0) || prepared.stocks.length === 0) return { boards: 0, by: 'area' };
  const area = areaBound(prepared, counts);
  const excluded = exclusionBound(prepared, counts, noFits);
  const dual = dualFeasibleBound(prepared, counts);
  if (area >= excluded && area >= dual) return { boards: area, by: 'area' };
  return excluded >= dual ? { boards: excluded, by: 'exclusion' } : { boards: dual, by: 'dual-feasible' };
}

/** The area's argument alone: at once, for a first layout. */
export function quickBound(prepared: Prepared, unplaced: ReadonlySet<number>): BoardBound {
  return { boards: areaBound(prepared, countsWithout(prepared, unplaced)), by: 'area' };
}

function countsWithout(prepared: Prepared, unplaced: ReadonlySet<number>): number[] {
  const counts = prepared.pieces.map(() => 0);
  for (const piece of prepared.copies) if (!unplaced.has(piece.index)) counts[piece.pieceIndex]!++;
  return counts;
}
