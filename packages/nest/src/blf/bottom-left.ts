import type { Prepared, PreparedPiece, PreparedStock } from '../shape/prepare.ts';
import type { TurnedForm } from '../shape/turned-form.ts';
import { isSquare } from '../turns.ts';
import { type FreePlace, type LaidCopy, OpenBoard } from './open-board.ts';

/** A layout in the search's own terms. */
export interface Draft {
  readonly boards: readonly { readonly stock: PreparedStock; readonly placed: readonly LaidCopy[] }[];
  /** Copies that found no place, by copy index. */
  readonly left: readonly number[];
}

/** Copies that go on one board together, or a single one. */
export interface Unit {
  readonly copies: readonly number[];
  readonly area: number;
  /** The begun board they must go to, because a piece of their group is pinned there; null = any. */
  readonly board: number | null;
}

/** All attitudes of a piece, those at right angles to its base turn, or the first one. */
export type Attitudes = 'all' | 'square' | 'one';

export interface FillOptions {
  /** Units in the order they are placed. */
  readonly units: readonly Unit[];
  /** Kinds of board in the order they are opened, by stock index; a kind that is used up is passed over. */
  readonly preference: readonly number[];
  /** Boards to begin with (pinned pieces, or a layout that is built on). */
  readonly begun?: readonly { readonly stock: PreparedStock; readonly placed: readonly LaidCopy[] }[];
  /** Attitudes of a piece that are looked at; all where these fit no empty board. Default: all. */
  readonly attitudes?: Attitudes;
  /** Asked between units; true stops and leaves the rest unplaced. */
  readonly shouldStop?: () => boolean;
}

/** Share of the area that failed last on a board below which a piece is tried there again. */
const RETRY_SHARE = 0.9;

/**
 * Place unit after unit on the first board that takes it, leftmost and lowest, over all allowed attitudes; open a board when
 * none does.
 * @returns always a valid layout: what found no place, or came after the stop, is in `left`.
 * @remarks About 1 ms for a unit and board that is scanned; a board that failed a like piece is passed over.
 */
export function fillBoards(prepared: Prepared, options: FillOptions): Draft {
  const { spacing, margin } = prepared.problem.rules;
  const boards: OpenBoard[] = [];
  const opened = new Array<number>(prepared.stocks.length).fill(0);
  const open = (stock: PreparedStock) => new OpenBoard(stock, spacing, margin);
  for (const begun of options.begun ?? []) {
    const board = open(begun.stock);
    for (const standing of begun.placed) {
      board.add(standing, standing.copy, pieceOf(prepared, standing.copy).areaMm2);
    }
    boards.push(board);
    opened[begun.stock.index]!++;
  }
  const which = options.attitudes ?? 'all';
  const left: number[] = [];
  const refused = new Set<string>();
  // first those that have no choice
  const units = [...options.units].sort((a, b) => Number(a.board === null) - Number(b.board === null));
  for (const unit of units) {
    if (options.shouldStop?.()) {
      left.push(...unit.copies);
      continue;
    }
    if (unit.board !== null) {
      if (!placeUnit(prepared, boards[unit.board]!, unit, 'all')) left.push(...unit.copies);
      continue;
    }
    if (boards.some((board) => placeUnit(prepared, board, unit, which))) continue;
    const sign = signOf(prepared, unit);
    const fresh = options.preference.some((index) => {
      const stock = prepared.stocks[index]!;
      const refusal = `${index}:${sign}`;
      if (refused.has(refusal) || (stock.stock.count !== null && opened[index]! >= stock.stock.count)) return false;
      const board = open(stock);
      if (!placeUnit(prepared, board, unit, which) && !placeUnit(prepared, board, unit, 'all')) {
        refused.add(refusal);
        return false;
      }
      boards.push(board);
      opened[index]!++;
      return true;
    });
    if (!fresh) left.push(...unit.copies);
  }
  return { boards: boards.map((board) => ({ stock: board.stock, placed: board.placed.slice() })), left };
}

/** All pieces of the unit on the board, or none. */
function placeUnit(prepared: Prepared, board: OpenBoard, unit: Unit, which: Attitudes): boolean {
  const room = board.stock.areaMm2 - board.usedArea;
  if (unit.area > room || unit.area > board.failedArea * RETRY_SHARE) return false;
  const before = { count: board.placed.length, area: board.usedArea };
  for (const copy of unit.copies) {
    const piece = pieceOf(prepared, copy);
    const spot = bestSpot(board, piece, which);
    if (spot === null) {
      if (board.placed.length > before.count) board.truncate(before.count, before.area);
      if (before.count > 0) board.failedArea = Math.min(board.failedArea, unit.area);
      return false;
    }
    board.add(board.settle(spot), copy, piece.areaMm2);
  }
  return true;
}

/** Over the attitudes the place whose right side lies farthest left; then the lower one. */
function bestSpot(board: OpenBoard, piece: PreparedPiece, which: Attitudes): FreePlace | null {
  let best: FreePlace | null = null;
  let bestRight = Number.POSITIVE_INFINITY;
  let bestTop = Number.POSITIVE_INFINITY;
  for (const turned of chosen(piece, attitudesOn(piece, board.stock), which)) {
    const spot = board.findSpot(turned, bestRight - turned.bounds.maxX + 1e-6);
    if (spot === null) continue;
    const right = spot.x + turned.bounds.maxX;
    const top = spot.y + turned.bounds.maxY;
    if (right < bestRight - 1e-6 || (right < bestRight + 1e-6 && top < bestTop - 1e-6)) {
      best = spot;
      bestRight = right;
      bestTop = top;
    }
  }
  return best;
}

function chosen({ piece }: PreparedPiece, list: readonly TurnedForm[], which: Attitudes): readonly TurnedForm[] {
  if (which === 'all') return list;
  return which === 'one'
    ? list.slice(0, 1)
    : list.filter(({ turnDeg, mirrored }) => isSquare(piece, turnDeg, mirrored));
}

export function attitudesOn(piece: PreparedPiece, stock: PreparedStock): readonly TurnedForm[] {
  return stock.stock.hasGrain ? piece.onGrain : piece.offGrain;
}

export function pieceOf(prepared: Prepared, copy: number): PreparedPiece {
  return prepared.pieces[prepared.copies[copy]!.pieceIndex]!;
}

/** Units of like pieces share what an empty board says to them. */
function signOf(prepared: Prepared, unit: Unit): string {
  return unit.copies.map((copy) => prepared.copies[copy]!.pieceIndex).join(',');
}
