import { regionArea } from '@underlap/geometry/region';
import type { Job } from './document.ts';
import { JobError } from './error.ts';
import type { NestHooks, Pipeline } from './pipeline.ts';
import { type KeptOffcut, type LeftOnShelf, offcutsFor, type Shelf, type ShelfOrder } from './shelf.ts';
import type { StockLayout } from './stages.ts';
import { jobOfStock, stockIdsOf } from './stock-of.ts';

/** A job that takes from the shelf what saves it a board. */
export interface ShelfUse {
  /** The job to plan: with the offcuts, or as it was. */
  readonly job: Job;
  readonly used: readonly string[];
  /** Every other offcut of the shelf, and why it stays there. */
  readonly left: readonly LeftOnShelf[];
  /** Boards to buy without the shelf, and with it. */
  readonly boardsWithout: number;
  readonly boardsWith: number;
}

/**
 * Lay a job out without the shelf and with it; the shelf is used only when fewer boards have to be bought then.
 * @param order - which offcuts are taken first where several would do.
 * @throws JobError `job-invalid` when an offcut of the job is called like one of the shelf; as the pipeline does.
 * @remarks Two searches; both stay in the pipeline, so that planning the job returned searches no more.
 */
export async function withShelf(
  job: Job,
  shelf: Shelf,
  order: ShelfOrder,
  pipeline: Pipeline,
  hooks: NestHooks = {},
): Promise<ShelfUse> {
  const offered = await offer(job, shelf, order, pipeline, hooks);
  const before = await pipeline.nest(job, hooks);
  const all = new Set(shelf.offcuts.map(({ id }) => id));
  const unused = (why: string): LeftOnShelf[] => offered.fit.map(({ id }) => ({ id, why }));
  const boardsWithout = boughtOf(before, job);
  const asItWas = (why: string): ShelfUse => ({
    job,
    used: [],
    left: [...offered.left, ...unused(why)],
    boardsWithout,
    boardsWith: boardsWithout,
  });
  if (before === null) return asItWas('the job does not fit as it is');
  if (offered.fit.length === 0) return asItWas('');
  const after = await pipeline.nest(offered.job, hooks);
  const boardsWith = boughtOf(after, offered.job);
  const isWorse =
    unplaced(after) > unplaced(before) || (unplaced(after) === unplaced(before) && boardsWith >= boardsWithout);
  if (after === null || isWorse) return asItWas('it would not save a board');
  const used = [...new Set(after.flatMap(({ layout }) => layout.sheets.map(({ stockId }) => stockId)))].filter((id) =>
    all.has(id),
  );
  return {
    job: offered.job,
    used,
    left: [
      ...offered.left,
      ...offered.fit
        .filter(({ id }) => !used.includes(id))
        .map(({ id }) => ({ id, why: 'it would not save another board' })),
    ],
    boardsWithout,
    boardsWith,
  };
}

/** The job with every offcut that could serve, each at its stock. */
async function offer(
  job: Job,
  shelf: Shelf,
  order: ShelfOrder,
  pipeline: Pipeline,
  hooks: NestHooks,
): Promise<{ readonly job: Job; readonly fit: readonly KeptOffcut[]; readonly left: readonly LeftOnShelf[] }> {
  const pieces = (await pipeline.designs(job, { signal: hooks.signal })).flatMap((design) => design.pieces);
  const fit: KeptOffcut[] = [];
  let left: readonly LeftOnShelf[] = [];
  const byStock = new Map<string, Job['offcuts']>();
  for (const stockId of stockIdsOf(job)) {
    const own = jobOfStock(job, stockId);
    const twice = own.offcuts.find(({ id }) => shelf.offcuts.some((kept) => kept.id === id));
    if (twice !== undefined)
      throw new JobError(
        'job-invalid',
        `The job and the shelf both have an offcut "${twice.id}": take it out of the job.`,
        {
          field: 'offcuts',
        },
      );
    const areas = pieces.filter((piece) => piece.stockId === stockId).map(({ cutRegion }) => regionArea(cutRegion));
    const rest = { ...shelf, offcuts: shelf.offcuts.filter(({ id }) => !fit.some((one) => one.id === id)) };
    const { material, thickness } = own;
    const found = offcutsFor(rest, { material, thickness, leastPieceMm2: Math.min(...areas) }, order);
    fit.push(...found.fit);
    left = found.left;
    byStock.set(stockId, [
      ...own.offcuts,
      ...found.fit.map(({ id, outline, grain }) => ({ id, outline, count: 1, grain })),
    ]);
  }
  const aim = 'fewest-bought' as const;
  const withOffcuts: Job =
    job.stocks.length === 0
      ? { ...job, aim, offcuts: byStock.get('') ?? job.offcuts }
      : {
          ...job,
          aim,
          stocks: job.stocks.map((stock) => ({ ...stock, offcuts: byStock.get(stock.id) ?? stock.offcuts })),
        };
  return { job: withOffcuts, fit, left };
}

/** Boards that have to be bought: what is no offcut. */
function boughtOf(stocks: readonly StockLayout[] | null, job: Job): number {
  return (stocks ?? []).reduce((sum, { stockId, layout }) => {
    const offcuts = new Set(jobOfStock(job, stockId).offcuts.map(({ id }) => id));
    return sum + layout.sheets.filter((sheet) => !offcuts.has(sheet.stockId)).length;
  }, 0);
}

function unplaced(stocks: readonly StockLayout[] | null): number {
  return (stocks ?? []).reduce((sum, { layout }) => sum + layout.unplaced.length, 0);
}
