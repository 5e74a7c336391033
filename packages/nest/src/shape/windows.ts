import type { Bounds } from '@underlap/geometry/ring';
import type { ReachableWindow } from '../problem.ts';

/**
 * Where a bed that is smaller than the board reaches it: the board is loaded in steps of the bed's size from its lower left
 * corner, and the last step of each row and column is pulled back to end with the board. Each piece lies wholly in one
 * window; one window is one loading and one cut file. Windows overlap where the last is pulled back, and pieces in the
 * overlap belong to one of the two.
 * @returns at least one window; the whole board when the bed is as large or not given.
 */
export function windowsOf(width: number, height: number, bed: ReachableWindow | null): Bounds[] {
  const columns = steps(width, bed?.width ?? width);
  const rows = steps(height, bed?.height ?? height);
  return columns.flatMap((x) =>
    rows.map((y) => ({
      minX: x.from,
      minY: y.from,
      maxX: x.to,
      maxY: y.to,
    })),
  );
}

function steps(length: number, reach: number): { from: number; to: number }[] {
  if (reach >= length) return [{ from: 0, to: length }];
  const count = Math.ceil(length / reach - 1e-9);
  return Array.from({ length: count }, (_, k) => {
    const from = k === count - 1 ? length - reach : k * reach;
    return { from, to: from + reach };
  });
}
