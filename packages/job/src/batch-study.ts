import type { WorkContext } from '@underlap/geometry/context';
import { regionArea } from '@underlap/geometry/region';
import type { NestRunner } from './context.ts';
import type { Job } from './document.ts';
import { nestStage, stockAreaOf } from './nest-stage.ts';
import type { CutPiece, NestStageResult } from './stages.ts';
import { throwIfStopped } from './stop.ts';
import { sweetSpots } from './sweet-spots.ts';

/** Boards for one batch size. */
export interface BatchRow {
  readonly batch: number;
  readonly boards: number;
  readonly boardsLowerBound: number;
  readonly yield: number;
  readonly waste: number;
  readonly boardsPerSign: number;
  /** Fewer boards for one sign than any smaller batch, and the next larger one needs no fewer. */
  readonly isSweetSpot: boolean;
  readonly isProvedMinimal: boolean;
  /** Pieces that found no board, such as when boards run out. */
  readonly unplaced: number;
}

/**
 * How many boards every batch size needs.
 * @param batches - rising, each 1 or more.
 * @returns one row a batch. Two smaller batches cut one after the other serve a larger one, and a larger batch that came out
 * with fewer boards serves the smaller ones: a sign less never needs more boards.
 * @remarks One nest run a batch, at the job's effort.
 */
export async function studyBatches(
  pieces: readonly CutPiece[],
  job: Job,
  batches: readonly number[],
  context: WorkContext,
  run?: NestRunner,
): Promise<BatchRow[]> {
  const rows: BatchRow[] = [];
  for (const [index, batch] of batches.entries()) {
    throwIfStopped(context.signal);
    const nested = await nestStage(
      pieces,
      { ...job, batch, pinned: [] },
      stepContext(context, index, batches.length),
      run,
    );
    throwIfStopped(context.signal);
    rows.push(rowOf(nested, pieces, batch));
  }
  return concludedBatches(rows);
}

/** What batches say about one another: smaller ones serve larger ones and the other way round, and which are sweet spots. */
export function concludedBatches(rows: readonly BatchRow[]): BatchRow[] {
  return withSweetSpots(withLargerLayouts(withTwoBatches(rows)));
}

/** Area of one sign's pieces as drawn, mm2. */
export function signArea(pieces: readonly CutPiece[]): number {
  return pieces.reduce((sum, piece) => sum + regionArea(piece.region), 0);
}

/** Progress of one run out of several, as part of the whole. */
export function stepContext(context: WorkContext, index: number, count: number): WorkContext {
  return {
    ...context,
    onProgress: (progress) => context.onProgress?.({ ...progress, done: (index + progress.done) / count }),
  };
}

function rowOf(nested: NestStageResult, pieces: readonly CutPiece[], batch: number): BatchRow {
  const { layout, result } = nested;
  const area = stockAreaOf(nested);
  const share = area > 0 ? (signArea(pieces) * batch) / area : 0;
  const boards = layout.sheets.length;
  return {
    batch,
    boards,
    boardsLowerBound: result.lowerBound.boards,
    yield: share,
    waste: 1 - share,
    boardsPerSign: boards / batch,
    isSweetSpot: false,
    isProvedMinimal: result.isProvedMinimal,
    unplaced: layout.unplaced.length,
  };
}

/** A batch never needs more boards than two smaller ones that add up to it. */
function withTwoBatches(rows: readonly BatchRow[]): BatchRow[] {
  const out: BatchRow[] = [];
  for (const row of rows) {
    let boards = row.unplaced === 0 ? row.boards : Number.POSITIVE_INFINITY;
    for (const first of out) {
      const second = out.find((other) => other.batch === row.batch - first.batch);
      if (second === undefined || first.unplaced + second.unplaced > 0) continue;
      boards = Math.min(boards, first.boards + second.boards);
    }
    out.push(row.unplaced === 0 && boards < row.boards ? withBoards(row, boards) : row);
  }
  return out;
}

function withLargerLayouts(rows: readonly BatchRow[]): BatchRow[] {
  const out = [...rows];
  for (let i = out.length - 2; i >= 0; i--) {
    const row = out[i]!;
    const next = out[i + 1]!;
    if (next.boards < row.boards && next.unplaced === 0 && row.unplaced === 0) out[i] = withBoards(row, next.boards);
  }
  return out;
}

/** The same batch on another number of boards. Boards of one kind are taken for granted: the yield follows the number. */
function withBoards(row: BatchRow, boards: number): BatchRow {
  const share = (row.yield * row.boards) / boards;
  return {
    ...row,
    boards,
    yield: share,
    waste: 1 - share,
    boardsPerSign: boards / row.batch,
    isProvedMinimal: boards === row.boardsLowerBound,
  };
}

function withSweetSpots(rows: readonly BatchRow[]): BatchRow[] {
  const sweet = new Set(sweetSpots(rows));
  return rows.map((row) => ({ ...row, isSweetSpot: sweet.has(row.batch) }));
}
