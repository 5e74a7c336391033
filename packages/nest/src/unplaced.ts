import { attitudesOn, type Draft, pieceOf } from './blf/bottom-left.ts';
import { OpenBoard } from './blf/open-board.ts';
import { type CopyRef, copyName } from './copy.ts';
import type { Layout } from './problem.ts';
import type { Prepared } from './shape/prepare.ts';

/** The piece would fit a board, but none is left. */
export const STOCK_USED_UP = 'the boards in stock are used up';

/**
 * Say for every left-over piece why it has no place, as a sentence a maker can act on.
 * @param wasStopped - the search was cancelled before it came to them.
 */
export function reasonsOf(prepared: Prepared, draft: Draft, wasStopped: boolean): Layout['unplaced'] {
  const known = new Map<number, string>();
  return draft.left.map((index) => {
    const { pieceId, copy, pieceIndex, group } = prepared.copies[index]!;
    let why = known.get(pieceIndex);
    if (why === undefined) {
      why = reasonOf(prepared, index, wasStopped);
      known.set(pieceIndex, why);
    }
    if (why === '' && group !== null) {
      const pin = prepared.problem.pinned.find((candidate) => groupOf(prepared, candidate) === group);
      why =
        pin === undefined
          ? `the pieces of group ${group} do not fit on one board together`
          : `it must share a sheet with ${copyName(pin)} (${group}) and finds no room beside it on sheet ${pin.sheet}: move the pinned piece or let it go`;
    }
    return { pieceId, copy, why: why === '' ? STOCK_USED_UP : why };
  });
}

function groupOf(prepared: Prepared, ref: CopyRef): string | null {
  const name = copyName(ref);
  return prepared.copies.find((copy) => copy.name === name)?.group ?? null;
}

/** Empty when the piece fits an empty board. */
function reasonOf(prepared: Prepared, index: number, wasStopped: boolean): string {
  const piece = pieceOf(prepared, index);
  const { rules } = prepared.problem;
  if (prepared.stocks.length === 0) return 'there is no board in stock';
  const fits = prepared.stocks.some((stock) => {
    const empty = new OpenBoard(stock, rules.spacing, rules.margin);
    return attitudesOn(piece, stock).some((turned) => empty.findSpot(turned, Number.POSITIVE_INFINITY) !== null);
  });
  if (fits) return wasStopped ? 'the search was stopped before this piece was placed' : '';
  const { bounds } = piece.offGrain[0] ?? piece.onGrain[0]!;
  const size = `${millimetres(bounds.maxX - bounds.minX)} x ${millimetres(bounds.maxY - bounds.minY)} mm`;
  const reach = prepared.stocks.some((stock) => stock.stock.reach !== undefined)
    ? ' within what one loading reaches'
    : '';
  return `it measures ${size} and fits no board in stock in any turn it may take, with a margin of ${rules.margin} mm${reach}`;
}

function millimetres(value: number): string {
  return String(Math.round(value * 10) / 10);
}
