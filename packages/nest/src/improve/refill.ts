import { type Draft, fillBoards, pieceOf } from '../blf/bottom-left.ts';
import { placedArea } from '../draft-layout.ts';
import type { Prepared } from '../shape/prepare.ts';

/**
 * Move pieces of the emptiest board into gaps of the others, largest first, and lay what remains out afresh.
 * @returns a valid draft with the same pieces; the caller keeps the better of both.
 */
export function refill(prepared: Prepared, draft: Draft, pins: Draft['boards']): Draft {
  const last = emptiestBoard(prepared, draft, pins);
  if (last < 0) return draft;
  const others = draft.boards.filter((_, index) => index !== last);
  const moved = draft.boards[last]!;
  const groups = new Map<string, number[]>();
  for (const { copy } of moved.placed) {
    const key = prepared.copies[copy]!.group ?? `#${copy}`;
    groups.set(key, [...(groups.get(key) ?? []), copy]);
  }
  const area = (copy: number) => pieceOf(prepared, copy).areaMm2;
  const units = [...groups.values()]
    .map((copies) => ({
      copies: copies.sort((a, b) => area(b) - area(a) || a - b),
      area: copies.reduce((sum, p) => sum + area(p), 0),
      board: null,
    }))
    .sort((a, b) => b.area - a.area || a.copies[0]! - b.copies[0]!);
  const filled = fillBoards(prepared, { units, preference: [moved.stock.index], begun: others });
  return { boards: filled.boards, left: [...draft.left, ...filled.left].sort((a, b) => a - b) };
}

/** The pieces of one board laid out anew on an empty one, largest first; null where they do not go in. */
export function laidOutAfresh(prepared: Prepared, board: Draft['boards'][number]): Draft['boards'][number] | null {
  const area = (copy: number) => pieceOf(prepared, copy).areaMm2;
  const units = board.placed
    .map(({ copy }) => ({ copies: [copy], area: area(copy), board: null }))
    .sort((a, b) => b.area - a.area || a.copies[0]! - b.copies[0]!);
  const filled = fillBoards(prepared, { units, preference: [board.stock.index] });
  return filled.boards.length === 1 && filled.left.length === 0 ? filled.boards[0]! : null;
}

/** Index of the board with the least share used that nothing is pinned to; -1 when there is none beside another. */
export function emptiestBoard(prepared: Prepared, draft: Draft, pins: Draft['boards']): number {
  let best = -1;
  let least = Number.POSITIVE_INFINITY;
  draft.boards.forEach((board, index) => {
    if (index < pins.length) return;
    const share = placedArea(prepared, board.placed) / board.stock.areaMm2;
    if (board.placed.length > 0 && share < least) {
      least = share;
      best = index;
    }
  });
  return best;
}
