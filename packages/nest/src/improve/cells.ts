import { type Draft, fillBoards } from '../blf/bottom-left.ts';
import { orderedUnits, ordersFor } from '../blf/orders.ts';
import { isWithin } from '../draft-layout.ts';
import { compareScores, scoreOf } from '../score.ts';
import type { Prepared, PreparedStock } from '../shape/prepare.ts';
import { type WindowCells, windowCells } from '../shape/windows.ts';

/** For each kind of board that is larger than the bed, its windows cut apart. */
export type StockCells = ReadonlyMap<PreparedStock, WindowCells>;

/** Every board within reach of the bed. */
export const NO_CELLS: StockCells = new Map();

/** Where runs put the lines in the overlap of two windows: pieces of other sizes find room on either side. */
const SHARES = [0, 1, 0.5, 0.25, 0.75];

/** The windows of all kinds of board, cut apart in this run's way. */
export function cellsForRun(prepared: Prepared, run: number): StockCells {
  const cells = new Map<PreparedStock, WindowCells>();
  for (const stock of prepared.stocks) {
    const cut = windowCells(stock.stock.reach, SHARES[run % SHARES.length]!);
    if (cut !== null) cells.set(stock, cut);
  }
  return cells;
}

/** Does every loose piece lie within one cell? */
export function keepsToCells(draft: Draft, pins: Draft['boards'], cells: StockCells): boolean {
  const pinned = new Set(pins.flatMap((board) => board.placed.map((p) => p.copy)));
  return draft.boards.every((board) => {
    const list = cells.get(board.stock)?.cells;
    return (
      list === undefined ||
      board.placed.every((standing) => pinned.has(standing.copy) || list.some((cell) => isWithin(standing, cell)))
    );
  });
}

/** The best of several fills that keep to the cells. */
export function fillCells(prepared: Prepared, pins: Draft['boards'], cells: StockCells, isOver: () => boolean): Draft {
  const walled = prepared.stocks.map((stock) => ({ ...stock, windows: cells.get(stock)?.cells ?? stock.windows }));
  const within = { ...prepared, stocks: walled };
  let best: Draft | null = null;
  for (const by of ordersFor(prepared.copies.length)) {
    if (best !== null && isOver()) break;
    const filled = fillBoards(within, {
      units: orderedUnits(within, by, pins),
      preference: walled.map((stock) => stock.index),
      begun: pins.map((board) => ({ ...board, stock: walled[board.stock.index]! })),
      shouldStop: isOver,
    });
    const draft: Draft = {
      boards: filled.boards.map((board) => ({ ...board, stock: prepared.stocks[board.stock.index]! })),
      left: filled.left,
    };
    if (best === null || compareScores(scoreOf(prepared, draft), scoreOf(prepared, best)) < 0) best = draft;
  }
  return best!;
}
