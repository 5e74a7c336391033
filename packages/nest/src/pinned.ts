import type { Draft } from './blf/bottom-left.ts';
import { copyName } from './copy.ts';
import { NestError } from './error.ts';
import type { Layout, Pinned } from './problem.ts';
import type { Prepared, PreparedStock } from './shape/prepare.ts';
import type { TurnedForm } from './shape/turned-form.ts';
import { turnForm } from './shape/turned-form.ts';

/** Keys of attitudes made for pins and given layouts start here, far above those of the prepared attitudes. */
const OWN_KEYS_FROM = 1e9;

/**
 * Boards with the pinned pieces on them, by sheet number.
 * @throws NestError `bad-pin` when a pin names no piece, no stock, or two kinds of board for one sheet.
 */
export function boardsOfPins(prepared: Prepared, pins: readonly Pinned[]): Draft['boards'] {
  const sheets = pins.reduce((most, pin) => Math.max(most, pin.sheet + 1), 0);
  const boards = Array.from({ length: sheets }, () => ({
    stock: null as PreparedStock | null,
    placed: [] as Draft['boards'][number]['placed'][number][],
  }));
  pins.forEach((pin, index) => {
    const name = copyName(pin);
    if (!Number.isInteger(pin.sheet) || pin.sheet < 0) {
      throw new NestError(
        'bad-pin',
        `pinned piece ${name} is on sheet ${pin.sheet}, which is not a sheet number`,
        name,
      );
    }
    const known = prepared.copies.find((copy) => copy.name === name);
    if (known === undefined) throw new NestError('bad-pin', `there is no piece ${name} to pin`, name);
    const stock = prepared.stocks.find((s) => s.stock.id === pin.stockId);
    if (stock === undefined) throw new NestError('bad-pin', `there is no board ${pin.stockId} to pin ${name} on`, name);
    const board = boards[pin.sheet]!;
    if (board.stock !== null && board.stock !== stock) {
      throw new NestError(
        'bad-pin',
        `sheet ${pin.sheet} is pinned to both ${board.stock.stock.id} and ${stock.stock.id}`,
        name,
      );
    }
    if (boards.some((b) => b.placed.some((p) => p.copy === known.index))) {
      throw new NestError('bad-pin', `piece ${name} is pinned twice`, name);
    }
    board.stock = stock;
    board.placed.push({
      copy: known.index,
      turned: attitudeAt(prepared, known.index, pin.turnDeg, pin.mirrored, index),
      x: pin.x,
      y: pin.y,
    });
  });
  refuseSplitGroups(prepared, boards);
  const fallback = prepared.stocks[0];
  return boards.map((board) => {
    const stock = board.stock ?? fallback;
    if (stock === undefined) throw new NestError('bad-pin', 'there is no board to pin pieces on');
    return { stock, placed: board.placed };
  });
}

/** Pieces that must share a board cannot be pinned to two. */
function refuseSplitGroups(
  prepared: Prepared,
  boards: readonly { readonly placed: Draft['boards'][number]['placed'] }[],
): void {
  const first = new Map<string, { readonly name: string; readonly sheet: number }>();
  boards.forEach(({ placed }, sheet) => {
    for (const standing of placed) {
      const { group, name } = prepared.copies[standing.copy]!;
      if (group === null) continue;
      const other = first.get(group);
      if (other === undefined) first.set(group, { name, sheet });
      else if (other.sheet !== sheet) {
        throw new NestError(
          'bad-pin',
          `${other.name} and ${name} must share a sheet (${group}), but are pinned to sheets ${other.sheet} and ${sheet}`,
          name,
        );
      }
    }
  });
}

/**
 * A given layout as a draft, to go on from; pieces it does not place are left over.
 * @returns null when it names pieces or boards that the problem does not have.
 */
export function draftOfLayout(prepared: Prepared, layout: Layout): Draft | null {
  const byName = new Map(prepared.copies.map((copy) => [copy.name, copy.index]));
  const rest = new Set(prepared.copies.map((copy) => copy.index));
  const boards: Draft['boards'][number][] = [];
  let serial = prepared.problem.pinned.length;
  for (const sheet of layout.sheets) {
    const stock = prepared.stocks.find((s) => s.stock.id === sheet.stockId);
    if (stock === undefined) return null;
    const placed: Draft['boards'][number]['placed'][number][] = [];
    for (const placement of sheet.placements) {
      const copy = byName.get(copyName(placement));
      if (copy === undefined || !rest.delete(copy)) return null;
      placed.push({
        copy,
        turned: attitudeAt(prepared, copy, placement.turnDeg, placement.mirrored, serial++),
        x: placement.x,
        y: placement.y,
      });
    }
    boards.push({ stock, placed });
  }
  return { boards, left: [...rest].sort((a, b) => a - b) };
}

/** The prepared attitude with this turn, or one made for it. */
function attitudeAt(prepared: Prepared, copy: number, turnDeg: number, mirrored: boolean, serial: number): TurnedForm {
  const piece = prepared.pieces[prepared.copies[copy]!.pieceIndex]!;
  const known = piece.offGrain.find((o) => o.mirrored === mirrored && Math.abs(o.turnDeg - turnDeg) < 1e-9);
  return known ?? turnForm(OWN_KEYS_FROM + serial, piece.index, piece.rings, turnDeg, mirrored);
}
