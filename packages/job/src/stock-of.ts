import type { Part } from '@underlap/stack/sign';
import type { Job, JobStock } from './document.ts';

const known = new WeakMap<Job, Map<string, Job>>();

/** Ids of the job's stocks, the one for everything else first; a job without a list has one without name. */
export function stockIdsOf(job: Job): string[] {
  return job.stocks.length === 0 ? [''] : job.stocks.map(({ id }) => id);
}

/** From which stock a part is cut: as told for the part, its paint, its layer; else a board of its own colour; else the first. */
export function stockIdOf(job: Job, part: Pick<Part, 'id' | 'paint' | 'layer'>): string {
  if (job.stocks.length === 0) return '';
  const { rest, layers, paints, parts } = job.stockOf;
  const { paint, layer } = part;
  return (
    parts[part.id] ??
    (paint === null ? undefined : paints[paint.toLowerCase()]) ??
    (layer === null ? undefined : layers[layer]) ??
    (paint === null ? undefined : job.stocks.find(({ colour }) => colour === paint.toLowerCase())?.id) ??
    rest ??
    job.stocks[0]!.id
  );
}

/** Has the board that a part is cut from the colour of the part? Then it is not painted. */
export function isOfOwnColour(job: Job, part: Pick<Part, 'id' | 'paint' | 'layer'>): boolean {
  const id = stockIdOf(job, part);
  const colour = job.stocks.find((stock) => stock.id === id)?.colour ?? null;
  return colour !== null && colour === part.paint?.toLowerCase();
}

/** The job as if this stock were its only one. */
export function jobOfStock(job: Job, id: string): Job {
  const stock = job.stocks.find((candidate) => candidate.id === id);
  if (stock === undefined) return job;
  const made = known.get(job) ?? new Map<string, Job>();
  known.set(job, made);
  const before = made.get(id);
  if (before !== undefined) return before;
  const own = withStock(job, stock);
  made.set(id, own);
  return own;
}

/** The job as one of its parts sees it: bed, boards, thickness, kerf and fit of the stock that it is cut from. */
export function jobForPart(job: Job, part: Pick<Part, 'id' | 'paint' | 'layer'>): Job {
  return jobOfStock(job, stockIdOf(job, part));
}

function withStock(job: Job, stock: JobStock): Job {
  const boards = stock.boards ?? job.boards;
  return {
    ...job,
    material: stock.material ?? job.material,
    thickness: stock.measured ?? stock.thickness ?? job.thickness,
    kerf: stock.kerf ?? job.kerf,
    fit: stock.fit ?? job.fit,
    boards: stock.grain === null ? boards : boards.map((board) => ({ ...board, grain: stock.grain ?? board.grain })),
    offcuts: stock.offcuts ?? (stock.boards === null ? job.offcuts : []),
    costs: { ...job.costs, speeds: stock.speeds ?? job.costs.speeds },
    shop: { ...job.shop, densityKgM3: stock.density ?? job.shop.densityKgM3 },
    stocks: [],
    pinned: job.pinned,
    done: job.done.filter((sheet) => sheet.stock === stock.id),
  };
}
