import { type Draft, fillBoards, pieceOf } from '../blf/bottom-left.ts';
import type { Prepared, PreparedStock } from '../shape/prepare.ts';

/**
 * Lay the pieces of each board out on the cheapest kind of board that takes them all: what fills a corner of a dear board may fit
 * an offcut on the shelf.
 * @returns a valid draft with as many boards, none dearer than before, and of those at one price none larger.
 * @remarks One fill for each board and cheaper kind that has room by area.
 */
export function onCheaperStock(prepared: Prepared, draft: Draft, pins: Draft['boards']): Draft {
  if (prepared.stocks.length < 2) return draft;
  const boards = [...draft.boards];
  const isLeft = (stock: PreparedStock) =>
    stock.stock.count === null || boards.filter((board) => board.stock === stock).length < stock.stock.count;
  for (let index = pins.length; index < boards.length; index++) {
    const { stock, placed } = boards[index]!;
    const area = (piece: number) => pieceOf(prepared, piece).areaMm2;
    const need = placed.reduce((sum, { copy: piece }) => sum + area(piece), 0);
    const kinds = prepared.stocks
      .filter((kind) => isCheaper(kind, stock) && kind.areaMm2 >= need && isLeft(kind))
      .sort((a, b) => a.stock.price - b.stock.price || a.areaMm2 - b.areaMm2 || a.index - b.index);
    const units = placed
      .map(({ copy: piece }) => ({ copies: [piece], area: area(piece), board: null }))
      .sort((a, b) => b.area - a.area || a.copies[0]! - b.copies[0]!);
    for (const kind of kinds) {
      const filled = fillBoards(prepared, { units, preference: [kind.index], attitudes: 'square' });
      if (filled.boards.length !== 1 || filled.left.length > 0) continue;
      boards[index] = filled.boards[0]!;
      break;
    }
  }
  return { boards, left: draft.left };
}

function isCheaper(a: PreparedStock, b: PreparedStock): boolean {
  return a.stock.price < b.stock.price || (a.stock.price === b.stock.price && a.areaMm2 < b.areaMm2);
}
