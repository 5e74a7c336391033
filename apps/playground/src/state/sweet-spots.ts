import type { BatchRow } from '../work/api.ts';

/**
 * Batch sizes worth making: no smaller batch needs as few boards a sign, and one more sign would need more a sign.
 * @returns the batch sizes, growing.
 */
export function sweetSpots(rows: readonly BatchRow[]): number[] {
  const perSign = (row: BatchRow): number => row.boards / row.batch;
  let least = Number.POSITIVE_INFINITY;
  const spots: number[] = [];
  for (const [index, row] of rows.entries()) {
    const next = rows[index + 1];
    const isBestSoFar = perSign(row) < least - 1e-9;
    if (isBestSoFar) least = perSign(row);
    if (isBestSoFar && (next === undefined || perSign(next) > perSign(row) - 1e-9)) spots.push(row.batch);
  }
  return spots;
}
