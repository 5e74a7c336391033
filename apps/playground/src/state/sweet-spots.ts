import type { BatchRow } from '../work/api.ts';

/** Batch sizes worth making: no smaller batch needs as few boards for one sign. Growing. */
export function sweetSpots(rows: readonly BatchRow[]): number[] {
  let least = Number.POSITIVE_INFINITY;
  return rows.flatMap(({ batch, boards }) => {
    if (boards / batch > least - 1e-9) return [];
    least = boards / batch;
    return [batch];
  });
}
