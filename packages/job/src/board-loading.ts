import type { Span, StockReach } from '@underlap/nest/problem';
import type { Job, JobBed } from './document.ts';
import type { Size } from './units.ts';

/** Equal lengths, mm: rounding only. */
const SAME_MM = 1e-9;

/** A panel narrower than this is not worth a loading, mm, beyond its margins. */
const LEAST_PANEL_MM = 20;

/** How one kind of board, or an offcut's box, gets under the beam. */
export interface BoardLoading {
  /** 'whole': one loading. 'moved': one loading a window, the board is moved between them. 'panels': sawn apart first. */
  readonly kind: 'whole' | 'moved' | 'panels';
  /** What each loading shows of the board, and what its file measures. */
  readonly pages: StockReach;
  /** Where pieces may lie: the pages, for panels less the margin that every edge of stock keeps. */
  readonly reach: StockReach;
}

/**
 * The loadings of a board of this size under the job's bed and the way that the maker chose.
 * @returns pages that all lie within the usable bed, as they are or turned by a quarter.
 */
export function boardLoading(job: Job, board: Size): BoardLoading {
  const bed = usableBed(job.bed);
  if (liesOn(bed, board)) {
    const whole = { columns: [{ from: 0, to: board.width }], rows: [{ from: 0, to: board.height }] };
    return { kind: 'whole', pages: whole, reach: whole };
  }
  if (job.loading.way === 'cut-down') {
    const pages = panelsOf(bed, board, job.margin, job.loading.sawKerf);
    const inner = ({ from, to }: Span): Span => ({ from: from + job.margin, to: to - job.margin });
    return { kind: 'panels', pages, reach: { columns: pages.columns.map(inner), rows: pages.rows.map(inner) } };
  }
  const usable = { width: board.width - 2 * job.margin, height: board.height - 2 * job.margin };
  const window = windowOn(bed, usable);
  const pages = {
    columns: steps(board.width, window.width, job.margin),
    rows: steps(board.height, window.height, job.margin),
  };
  return { kind: 'moved', pages, reach: pages };
}

/** The nester's field; nothing for a board that is cut in one loading. */
export function stockReach(loading: BoardLoading): { readonly reach?: StockReach } {
  return loading.kind === 'whole' ? {} : { reach: loading.reach };
}

/** Bed less its margin; the direction of pass-through is as long as the material may be. */
export function usableBed(bed: JobBed): Size {
  const long = bed.passLength ?? Number.POSITIVE_INFINITY;
  const width = bed.width - 2 * bed.margin;
  const height = bed.height - 2 * bed.margin;
  if (bed.passThrough === 'width') return { width: long, height };
  if (bed.passThrough === 'height') return { width, height: long };
  return { width, height };
}

/** Must a page of this size be turned by a quarter to lie within the usable bed? */
export function isTurnedOn(bed: Size, page: Size): boolean {
  return !goesIn(bed, page) && goesIn(bed, { width: page.height, height: page.width });
}

/** Does the rectangle lie within the usable bed, as it is? */
export function goesIn(bed: Size, page: Size): boolean {
  return page.width <= bed.width + SAME_MM && page.height <= bed.height + SAME_MM;
}

function liesOn(bed: Size, board: Size): boolean {
  return goesIn(bed, board) || isTurnedOn(bed, board);
}

/** The bed laid along the board or across it, whichever reaches more. */
function windowOn(bed: Size, board: Size): Size {
  const along = Math.min(bed.width, board.width) * Math.min(bed.height, board.height);
  const across = Math.min(bed.height, board.width) * Math.min(bed.width, board.height);
  return along >= across ? { width: bed.width, height: bed.height } : { width: bed.height, height: bed.width };
}

/**
 * The first window begins and the last ends at the margin, so that no reach is wasted on the edge that is not used; the last is
 * pulled back over the one before.
 */
function steps(length: number, reach: number, margin: number): Span[] {
  if (reach >= length) return [{ from: 0, to: length }];
  const used = length - 2 * margin;
  if (reach >= used) return [{ from: (length - reach) / 2, to: (length + reach) / 2 }];
  const count = Math.ceil(used / reach - SAME_MM);
  return Array.from({ length: count }, (_, k) => {
    const from = k === count - 1 ? length - margin - reach : margin + k * reach;
    return { from, to: from + reach };
  });
}

/**
 * Panels as large as the bed, cut from the upper left corner, the bed laid along the board or across it: whichever gives fewer,
 * larger panels (by the sum of their squared areas). What is left over is a narrower panel, or waste when too narrow.
 */
function panelsOf(bed: Size, board: Size, margin: number, sawKerf: number): StockReach {
  const grid = (width: number, height: number): StockReach => ({
    columns: strips(board.width, width, margin, sawKerf),
    rows: strips(board.height, height, margin, sawKerf),
  });
  const squares = (spans: readonly Span[]) => spans.reduce((sum, { from, to }) => sum + (to - from) ** 2, 0);
  const along = grid(bed.width, bed.height);
  const across = grid(bed.height, bed.width);
  return squares(across.columns) * squares(across.rows) > squares(along.columns) * squares(along.rows) ? across : along;
}

function strips(length: number, most: number, margin: number, sawKerf: number): Span[] {
  const spans: Span[] = [];
  for (let from = 0; from < length - SAME_MM; from += most + sawKerf) {
    const to = Math.min(from + most, length);
    if (spans.length === 0 || to - from >= 2 * margin + LEAST_PANEL_MM) spans.push({ from, to });
  }
  return spans;
}
