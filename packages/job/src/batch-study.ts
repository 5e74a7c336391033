import type { WorkContext } from '@underlap/geometry/context';
import { regionArea } from '@underlap/geometry/region';
import type { Layout } from '@underlap/nest/problem';
import { type BatchNeeds, type PriceRow, priceRow, type SignNeeds } from '@underlap/shop/price';
import { designsOf } from './designs.ts';
import type { Job } from './document.ts';
import { JobError } from './error.ts';
import { layoutFrom } from './known-layouts.ts';
import { priceOf, stockAreaOf } from './nest-stage.ts';
import { Pipeline, type StageHooks } from './pipeline.ts';
import { batchNeedsOf, timesOf } from './shop-needs.ts';
import type { JobPiece, StockLayout } from './stages.ts';
import { jobOfStock, stockIdsOf } from './stock-of.ts';
import { throwIfStopped } from './stop.ts';
import { effortOfRow } from './study-effort.ts';
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
  /** What the batch takes of boards and machine, for its price. */
  readonly needs: BatchNeeds;
}

/** How a study of batches is run and watched. */
export interface BatchStudyOptions {
  /** Where the sign and its pieces come from, and who runs the search; default: a fresh one. */
  readonly pipeline?: Pipeline;
  /** Each row as it is made, and all until then as they stand now. */
  readonly onRow?: (row: BatchRow, index: number, soFar: readonly BatchRow[]) => void;
}

/**
 * How many boards every batch size needs.
 * @param batches - rising, each 1 or more.
 * @returns one row a batch. The layouts of two smaller batches serve the larger one to begin with, and a larger batch that came out
 * with fewer boards serves the smaller ones: a sign less never needs more boards. After a stop the rows made until then.
 * @throws JobError `cancelled` when it is stopped before the first row.
 * @remarks One nest run a batch, with a share of the job's effort (`effortOfRow`).
 */
export async function studyBatches(
  job: Job,
  batches: readonly number[],
  context: Omit<WorkContext, 'seed'>,
  options: BatchStudyOptions = {},
): Promise<BatchRow[]> {
  const pipeline = options.pipeline ?? new Pipeline();
  const rows: BatchRow[] = [];
  const known: KnownDay[] = [];
  const effort = effortOfRow(job.effort, batches.length);
  for (const [index, batch] of batches.entries()) {
    if (context.signal?.aborted) break;
    const nested = await untilStopped(context.signal, () =>
      pipeline.nestFrom(
        { ...job, batch, effort, pinned: [], done: [] },
        startFrom(known, batch, job),
        stepHooks(context, index, batches.length),
      ),
    );
    if (nested === null) break;
    known.push({ batch, stocks: nested });
    const row = rowOf(nested, batch, signsIn(job));
    rows.push(row);
    options.onRow?.(row, index, concludedBatches(rows, job));
  }
  if (rows.length === 0) throwIfStopped(context.signal);
  return concludedBatches(rows, job);
}

/** What batches say about one another: smaller ones serve larger ones and the other way round, and which are sweet spots. */
function concludedBatches(rows: readonly BatchRow[], job: Job): BatchRow[] {
  const isLimited = stockIdsOf(job).some((id) => {
    const { offcuts, boards } = jobOfStock(job, id);
    return offcuts.length > 0 || boards.some((board) => board.count !== null);
  });
  return withSweetSpots(withLargerLayouts(isLimited ? rows : withTwoBatches(rows)));
}

/** What a sign costs and sells at in every batch; batches with pieces that found no board are left out. */
export function pricesOf(rows: readonly BatchRow[], sign: SignNeeds, job: Job): PriceRow[] {
  return rows
    .filter((row) => row.unplaced === 0)
    .map((row) => ({ ...priceRow(row.needs, sign, job.costs), batch: row.batch }));
}

/** Signs in one batch: one, or all of a list of designs. */
function signsIn(job: Job): number {
  return designsOf({ ...job, batch: 1 }).reduce((sum, { count }) => sum + count, 0);
}

/** The layouts of all stocks, made for a table. */
export interface KnownDay {
  readonly batch: number;
  readonly stocks: readonly StockLayout[];
}

/** For every stock, a layout to begin a batch with that follows from those known; see `layoutFrom`. */
export function startFrom(known: readonly KnownDay[], batch: number, job: Job) {
  const counts = new Map(designsOf({ ...job, batch: 1 }).map(({ id, count }) => [id, count]));
  return (stockId: string, pieces: readonly JobPiece[]): Layout | null => {
    const own = known.flatMap(({ batch: size, stocks }) =>
      stocks.filter((stock) => stock.stockId === stockId).map(({ layout }) => ({ batch: size, layout })),
    );
    const designOf = new Map(pieces.map((piece) => [piece.id, piece.design.id]));
    return layoutFrom(
      own,
      batch,
      (layout) => costOfBoards(jobOfStock(job, stockId), layout),
      (pieceId) => counts.get(designOf.get(pieceId) ?? '') ?? 1,
    );
  };
}

/** What a layout's boards count for: their number or their price, the other one where these are equal. */
function costOfBoards(job: Job, layout: Layout): number {
  const boards = layout.sheets.length;
  const price = layout.sheets.reduce((sum, sheet) => sum + priceOf(job, sheet.stockId), 0);
  return job.aim === 'cheapest' ? price + 1e-6 * boards : boards + 1e-6 * price;
}

/** Area of all pieces as drawn, by the area of the boards and offcuts they lie on; 0 when there is none. */
export function yieldOf(stocks: readonly StockLayout[]): number {
  const area = stocks.reduce((sum, { nested }) => sum + stockAreaOf(nested), 0);
  const used = stocks.reduce(
    (sum, { pieces }) => sum + pieces.reduce((own, { region, signs }) => own + signs.length * regionArea(region), 0),
    0,
  );
  return area > 0 ? used / area : 0;
}

/** Progress of one run out of several, as part of the whole. */
export function stepHooks(context: Omit<WorkContext, 'seed'>, index: number, count: number): StageHooks {
  return {
    signal: context.signal,
    onProgress: (done, message) =>
      context.onProgress?.({
        stage: 'nest',
        done: (index + done) / count,
        ...(message === undefined ? {} : { message }),
      }),
  };
}

/** What the work gives, null when it was stopped. */
export async function untilStopped<T>(signal: AbortSignal | undefined, work: () => Promise<T>): Promise<T | null> {
  try {
    return await work();
  } catch (error) {
    if (signal?.aborted && error instanceof JobError && error.code === 'cancelled') return null;
    throw error;
  }
}

function rowOf(stocks: readonly StockLayout[], batch: number, signs: number): BatchRow {
  const share = yieldOf(stocks);
  const boards = stocks.reduce((sum, { layout }) => sum + layout.sheets.length, 0);
  const timed = stocks.map((stock) => ({ ...stock, times: timesOf(stock) }));
  return {
    batch,
    boards,
    boardsLowerBound: stocks.reduce((sum, { nested }) => sum + nested.result.lowerBound.boards, 0),
    yield: share,
    waste: 1 - share,
    boardsPerSign: boards / (batch * signs),
    isSweetSpot: false,
    isProvedMinimal: stocks.every(({ nested }) => nested.result.isProvedMinimal),
    unplaced: stocks.reduce((sum, { layout }) => sum + layout.unplaced.length, 0),
    needs: batchNeedsOf(timed, batch * signs),
  };
}

/** A batch never needs more boards than two smaller ones that add up to it, where boards come in any number. */
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
    boardsPerSign: (row.boardsPerSign * boards) / row.boards,
    isProvedMinimal: boards === row.boardsLowerBound,
    needs: {
      ...row.needs,
      boards,
      loadings: Math.max(boards, Math.round((row.needs.loadings * boards) / row.boards)),
      boardsPrice: (row.needs.boardsPrice * boards) / row.boards,
      restPrice: 0,
    },
  };
}

function withSweetSpots(rows: readonly BatchRow[]): BatchRow[] {
  const sweet = new Set(sweetSpots(rows));
  return rows.map((row) => ({ ...row, isSweetSpot: sweet.has(row.batch) }));
}
