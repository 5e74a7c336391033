import type { Bounds } from '@underlap/geometry/ring';
import type { ReachableWindow } from '../problem.ts';

/**
 * Where a bed that is smaller than the board reaches it: the board is loaded in steps of the bed's size, the first beginning
 * and the last ending at the margin, so that no reach is wasted on the edge that is not used. Each piece lies wholly in one
 * window; one window is one loading and one cut file. Windows overlap where the last is pulled back, and pieces in the
 * overlap belong to one of the two.
 * @param margin - edge of the board that is not used, mm, >= 0.
 * @returns at least one window; the whole board when the bed is as large or not given.
 */
export function windowsOf(width: number, height: number, bed: ReachableWindow | null, margin: number): Bounds[] {
  const columns = steps(width, bed?.width ?? width, margin);
  const rows = steps(height, bed?.height ?? height, margin);
  return columns.flatMap((x) =>
    rows.map((y) => ({
      minX: x.from,
      minY: y.from,
      maxX: x.to,
      maxY: y.to,
    })),
  );
}

/** Windows told apart by lines across the board, so that a piece which crosses none of them lies in one window. */
export interface WindowCells {
  /** Lines at these x and y; each is a strip `WALL_MM` wide where no piece may lie. */
  readonly atX: readonly number[];
  readonly atY: readonly number[];
  /** What the lines leave, each within one window. */
  readonly cells: readonly Bounds[];
}

/** Width of the line between two cells, mm: far above the depth that a search calls touching. */
export const WALL_MM = 0.02;

/**
 * Cut overlapping windows apart.
 * @param share - where the line runs in the overlap of two windows: 0 = at the end of the first, 1 = at the begin of the second.
 * @returns null when the bed reaches the whole board at once.
 */
export function windowCells(
  width: number,
  height: number,
  bed: ReachableWindow | null,
  margin: number,
  share: number,
): WindowCells | null {
  const columns = steps(width, bed?.width ?? width, margin);
  const rows = steps(height, bed?.height ?? height, margin);
  if (columns.length * rows.length === 1) return null;
  const atX = wallsBetween(columns, share);
  const atY = wallsBetween(rows, share);
  const across = rangesBetween(columns, atX);
  const along = rangesBetween(rows, atY);
  const cells = across.flatMap((x) => along.map((y) => ({ minX: x.from, minY: y.from, maxX: x.to, maxY: y.to })));
  return { atX, atY, cells };
}

interface Step {
  readonly from: number;
  readonly to: number;
}

function wallsBetween(list: readonly Step[], share: number): number[] {
  return list.slice(1).map((next, k) => list[k]!.to + share * (next.from - list[k]!.to));
}

function rangesBetween(list: readonly Step[], walls: readonly number[]): Step[] {
  return list.map((step, k) => ({
    from: k === 0 ? step.from : walls[k - 1]! + WALL_MM / 2,
    to: k === walls.length ? step.to : walls[k]! - WALL_MM / 2,
  }));
}

function steps(length: number, reach: number, margin: number): Step[] {
  if (reach >= length) return [{ from: 0, to: length }];
  const used = length - 2 * margin;
  if (reach >= used) return [{ from: (length - reach) / 2, to: (length + reach) / 2 }];
  const count = Math.ceil(used / reach - 1e-9);
  return Array.from({ length: count }, (_, k) => {
    const from = k === count - 1 ? length - margin - reach : margin + k * reach;
    return { from, to: from + reach };
  });
}
