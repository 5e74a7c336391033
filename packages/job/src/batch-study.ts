import type { WorkContext } from '@underlap/geometry/context';
import { regionArea } from '@underlap/geometry/region';
import type { NestRunner } from './context.ts';
import type { Job } from './document.ts';
import { nestStage, stockAreaOf } from './nest-stage.ts';
import type { CutPiece, NestStageResult } from './stages.ts';
import { throwIfStopped } from './stop.ts';

/** Boards for one batch size. */
export interface BatchRow {
  readonly batch: number;
  readonly boards: number;
  readonly boardsLowerBound: number;
  readonly yield: number;
  readonly waste: number;
  readonly boardsPerSign: number;
  /** No smaller batch needs as few boards for one sign. */
  readonly isSweetSpot: boolean;
  readonly isProvedMinimal: boolean;
  /** Pieces that found no board, such as when boards run out. */
  readonly unplaced: number;
}

/**
 * How many boards every batch size needs.
 * @param batches - rising, each 1 or more.
 * @returns one row a batch. A larger batch that came out with fewer boards serves the smaller ones too: a sign less never
 * needs more boards.
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
  return withSweetSpots(withLargerLayouts(rows));
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

function withLargerLayouts(rows: readonly BatchRow[]): BatchRow[] {
  const out = [...rows];
  for (let i = out.length - 2; i >= 0; i--) {
    const row = out[i]!;
    const next = out[i + 1]!;
    if (next.boards >= row.boards || next.unplaced > 0 || row.unplaced > 0) continue;
    const share = (row.yield * row.boards) / next.boards;
    out[i] = {
      ...row,
      boards: next.boards,
      yield: share,
      waste: 1 - share,
      boardsPerSign: next.boards / row.batch,
      isProvedMinimal: next.boards === row.boardsLowerBound,
    };
  }
  return out;
}

function withSweetSpots(rows: readonly BatchRow[]): BatchRow[] {
  let least = Number.POSITIVE_INFINITY;
  return rows.map((row) => {
    const isSweetSpot = row.unplaced === 0 && row.boardsPerSign < least - 1e-9;
    least = Math.min(least, row.boardsPerSign);
    return { ...row, isSweetSpot };
  });
}
