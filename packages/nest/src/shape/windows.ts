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

function steps(length: number, reach: number, margin: number): { from: number; to: number }[] {
  if (reach >= length) return [{ from: 0, to: length }];
  const used = length - 2 * margin;
  if (reach >= used) return [{ from: (length - reach) / 2, to: (length + reach) / 2 }];
  const count = Math.ceil(used / reach - 1e-9);
  return Array.from({ length: count }, (_, k) => {
    const from = k === count - 1 ? length - margin - reach : margin + k * reach;
    return { from, to: from + reach };
  });
}
