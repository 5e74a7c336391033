/** What a batch came to. */
export interface BatchBoards {
  readonly batch: number;
  readonly boards: number;
  /** Pieces that found no board; such a batch is no sweet spot. Absent = 0. */
  readonly unplaced?: number;
}

/**
 * Batch sizes worth making: fewer boards for one sign than in any smaller batch, and no fewer in the next larger one.
 * @param rows - by growing batch.
 * @returns growing batch sizes; at least one when some batch found boards for all its pieces.
 */
export function sweetSpots(rows: readonly BatchBoards[]): number[] {
  let least = Number.POSITIVE_INFINITY;
  const whole = rows.filter((row) => (row.unplaced ?? 0) === 0);
  return whole.flatMap(({ batch, boards }, index) => {
    const each = boards / batch;
    const isRecord = each < least - 1e-9;
    least = Math.min(least, each);
    const next = whole[index + 1];
    const isBettered = next !== undefined && next.boards / next.batch < each - 1e-9;
    return isRecord && !isBettered ? [batch] : [];
  });
}
