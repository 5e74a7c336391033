import { type NestContext, nest } from './nest.ts';
import type { BoardBound, Effort, NestProblem, NestResult } from './problem.ts';

/** What one batch size takes. */
export interface EstimateRow {
  readonly batch: number;
  readonly boards: number;
  readonly boardsLowerBound: number;
  readonly boundBy: BoardBound['by'];
  readonly isProvedMinimal: boolean;
  /** Pieces' area / area of the boards used, 0..1, and the rest. */
  readonly yield: number;
  readonly waste: number;
  readonly boardsPerSign: number;
  /** Pieces that fit no board; the other figures then tell of the rest. */
  readonly unplaced: number;
  /** Fewer boards per sign than every smaller batch, and the next size is no better. */
  readonly isSweetSpot: boolean;
}

/** Differences in boards per sign below this share are rounding. */
const SAME_SHARE = 1e-9;

/**
 * How many boards a batch needs, for several batch sizes.
 * @param problemFor - the nesting problem of a batch size.
 * @param batches - whole numbers > 0, ascending.
 * @param onResult - each nested layout, for pictures.
 * @returns a row for each size; after a cancel the rows that were finished.
 */
export async function estimateBatches(
  problemFor: (batch: number) => NestProblem,
  batches: readonly number[],
  effort: Effort,
  context: NestContext,
  onResult?: (batch: number, result: NestResult) => void,
): Promise<EstimateRow[]> {
  const rows: EstimateRow[] = [];
  for (const [index, batch] of batches.entries()) {
    if (context.signal?.aborted === true) break;
    const result = await nest(problemFor(batch), effort, {
      ...context,
      onProgress: ({ done }) =>
        context.onProgress?.({
          stage: 'estimate',
          done: (index + done) / batches.length,
          message: `batch of ${batch}`,
        }),
    });
    if (result.endedBy === 'cancelled') break;
    onResult?.(batch, result);
    rows.push(rowOf(batch, result));
  }
  return withSweetSpots(rows);
}

function rowOf(batch: number, { layout, lowerBound, isProvedMinimal }: NestResult): EstimateRow {
  const boards = layout.sheets.length;
  return {
    batch,
    boards,
    boardsLowerBound: lowerBound.boards,
    boundBy: lowerBound.by,
    isProvedMinimal,
    yield: layout.yield,
    waste: boards === 0 ? 0 : 1 - layout.yield,
    boardsPerSign: boards / batch,
    unplaced: layout.unplaced.length,
    isSweetSpot: false,
  };
}

/**
 * Mark the sizes after which the next board would start: one sign more would need more boards a sign, and no smaller batch
 * is as good.
 * @param rows - ascending by batch; exported for figures that come from elsewhere.
 */
export function withSweetSpots(rows: readonly EstimateRow[]): EstimateRow[] {
  return rows.map((row, index) => {
    const before = rows.slice(0, index);
    const next = rows[index + 1];
    const beatsSmaller = before.every((other) => row.boardsPerSign < other.boardsPerSign * (1 - SAME_SHARE));
    const lastsUntilHere = next === undefined || next.boardsPerSign > row.boardsPerSign * (1 - SAME_SHARE);
    return { ...row, isSweetSpot: rows.length > 1 && beatsSmaller && lastsUntilHere };
  });
}
