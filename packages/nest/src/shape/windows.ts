import type { Bounds } from '@underlap/geometry/ring';
import type { Span, StockReach } from '../problem.ts';

/**
 * The loadings of a stock, column by column. Each piece lies wholly in one window. Windows may overlap, and pieces in the
 * overlap belong to one of the two.
 * @returns at least one window; the whole stock when it has no reach of its own.
 */
export function windowsOf(width: number, height: number, reach: StockReach | undefined): Bounds[] {
  const columns = reach?.columns ?? [{ from: 0, to: width }];
  const rows = reach?.rows ?? [{ from: 0, to: height }];
  return columns.flatMap((x) => rows.map((y) => ({ minX: x.from, minY: y.from, maxX: x.to, maxY: y.to })));
}

/** Windows told apart by walls across the board, so that a piece which crosses none of them lies in one window. */
export interface WindowCells {
  /** Strips where no piece may lie: at least `WALL_MM` wide, and as wide as the gap where windows leave one. */
  readonly atX: readonly Span[];
  readonly atY: readonly Span[];
  /** What the walls leave, each within one window. */
  readonly cells: readonly Bounds[];
}

/** Least width of the wall between two cells, mm: far above the depth that a search calls touching. */
const WALL_MM = 0.02;

/**
 * Cut overlapping windows apart.
 * @param share - where the wall runs in the overlap of two windows: 0 = at the end of the first, 1 = at the begin of the second.
 * @returns null when one loading reaches everything that may be used.
 */
export function windowCells(reach: StockReach | undefined, share: number): WindowCells | null {
  if (reach === undefined || reach.columns.length * reach.rows.length === 1) return null;
  const atX = wallsBetween(reach.columns, share);
  const atY = wallsBetween(reach.rows, share);
  const across = rangesBetween(reach.columns, atX);
  const along = rangesBetween(reach.rows, atY);
  const cells = across.flatMap((x) => along.map((y) => ({ minX: x.from, minY: y.from, maxX: x.to, maxY: y.to })));
  return { atX, atY, cells };
}

function wallsBetween(list: readonly Span[], share: number): Span[] {
  return list.slice(1).map((next, k) => {
    const end = list[k]!.to;
    if (next.from - end >= WALL_MM) return { from: end, to: next.from };
    const middle = end + share * (next.from - end);
    return { from: middle - WALL_MM / 2, to: middle + WALL_MM / 2 };
  });
}

function rangesBetween(list: readonly Span[], walls: readonly Span[]): Span[] {
  return list.map((step, k) => ({
    from: k === 0 ? step.from : walls[k - 1]!.to,
    to: k === walls.length ? step.to : walls[k]!.from,
  }));
}
