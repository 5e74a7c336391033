import type { Layout, Sheet } from '@underlap/nest/problem';

/** A layout made for a table, to begin others with; in the frames of the pieces. */
export interface KnownLayout {
  readonly batch: number;
  readonly layout: Layout;
}

/**
 * The best layout for a batch that follows from layouts already made: one of the batch itself, or two of smaller batches one after
 * the other.
 * @param costOf - what a layout's boards count for; the least wins, then one of the batch itself, then the latest.
 * @param inOne - copies of a piece in a batch of one.
 * @returns null when nothing adds up to the batch. Where boards are limited it may need more than there are: the nester checks it.
 */
export function layoutFrom(
  known: readonly KnownLayout[],
  batch: number,
  costOf: (layout: Layout) => number,
  inOne: (pieceId: string) => number = () => 1,
): Layout | null {
  const whole = known.filter(({ layout }) => layout.unplaced.length === 0);
  let best: Layout | null = null;
  const offer = (layout: Layout) => {
    if (best === null || costOf(layout) <= costOf(best)) best = layout;
  };
  for (const one of whole) {
    for (const other of whole) {
      if (one.batch + other.batch === batch && one.batch >= other.batch) offer(bothLayouts(one, other, inOne));
    }
  }
  for (const one of whole) if (one.batch === batch) offer(one.layout);
  return best;
}

/** All sheets of two batches; the copies of the second are counted on from the first. */
function bothLayouts(first: KnownLayout, second: KnownLayout, inOne: (pieceId: string) => number): Layout {
  const sheets = [
    ...first.layout.sheets,
    ...second.layout.sheets.map((sheet) => shiftedSheet(sheet, (pieceId) => first.batch * inOne(pieceId))),
  ];
  return { sheets, unplaced: [], yield: 0 };
}

function shiftedSheet(sheet: Sheet, by: (pieceId: string) => number): Sheet {
  const placements = sheet.placements.map((placement) => ({
    ...placement,
    copy: placement.copy + by(placement.pieceId),
  }));
  const windows = sheet.windows.map((window) => ({
    ...window,
    copies: window.copies.map((copy) => ({ ...copy, copy: copy.copy + by(copy.pieceId) })),
  }));
  return { ...sheet, placements, windows };
}
