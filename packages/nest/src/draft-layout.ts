import { regionArea } from '@underlap/geometry/region';
import type { Bounds } from '@underlap/geometry/ring';
import { type Draft, pieceOf } from './blf/bottom-left.ts';
import type { LaidCopy } from './blf/open-board.ts';
import type { CopyRef } from './copy.ts';
import { largestOffcut } from './offcut.ts';
import type { Layout, Placement, Sheet } from './problem.ts';
import type { Prepared, PreparedStock } from './shape/prepare.ts';

/** How far a piece may reach over a window's edge before it counts as outside, mm: rounding only. */
const WINDOW_TOLERANCE_MM = 1e-5;

/**
 * Put a draft into the public form: fullest sheet first (unless pins fix the order), offcut computed on the emptiest sheet.
 * @param unplaced - why the draft's left-over pieces have no place.
 */
export function layoutOf(prepared: Prepared, draft: Draft, unplaced: Layout['unplaced'], keepOrder: boolean): Layout {
  const boards = keepOrder ? draft.boards.slice() : sortedBoards(prepared, draft);
  const sheets = boards.map((board, index) =>
    sheetOf(prepared, board.stock, board.placed, index === boards.length - 1),
  );
  const used = sheets.reduce((sum, _, i) => sum + boards[i]!.stock.areaMm2, 0);
  const area = boards.reduce((sum, board) => sum + placedArea(prepared, board.placed), 0);
  return { sheets, unplaced, yield: used === 0 ? 0 : area / used };
}

/** Boards by share used, fullest first; ties by stock, then by the first piece. */
function sortedBoards(prepared: Prepared, draft: Draft): Draft['boards'][number][] {
  const share = (board: Draft['boards'][number]) => placedArea(prepared, board.placed) / board.stock.areaMm2;
  return draft.boards
    .filter((board) => board.placed.length > 0)
    .sort(
      (a, b) =>
        share(b) - share(a) ||
        a.stock.index - b.stock.index ||
        Math.min(...a.placed.map((p) => p.copy)) - Math.min(...b.placed.map((p) => p.copy)),
    );
}

export function placedArea(prepared: Prepared, placed: readonly LaidCopy[]): number {
  return placed.reduce((sum, { copy: piece }) => sum + pieceOf(prepared, piece).areaMm2, 0);
}

function sheetOf(prepared: Prepared, stock: PreparedStock, placed: readonly LaidCopy[], isLast: boolean): Sheet {
  const sorted = placed.slice().sort((a, b) => a.copy - b.copy);
  return {
    stockId: stock.stock.id,
    width: stock.width,
    height: stock.height,
    placements: sorted.map((standing) => placementOf(prepared, standing)),
    windows: stock.stock.reach === undefined ? [] : windowsWithPieces(prepared, stock, sorted),
    yield: placedArea(prepared, placed) / regionArea(stock.stock.outline),
    offcut: isLast ? largestOffcut(stock, placed, prepared.problem.rules.spacing) : null,
  };
}

function placementOf(prepared: Prepared, standing: LaidCopy): Placement {
  const piece = prepared.copies[standing.copy]!;
  return {
    pieceId: prepared.pieces[piece.pieceIndex]!.piece.id,
    copy: piece.copy,
    x: standing.x,
    y: standing.y,
    turnDeg: standing.turned.turnDeg,
    mirrored: standing.turned.mirrored,
  };
}

/** Each piece in the first window that holds it; windows without pieces are left out. */
function windowsWithPieces(prepared: Prepared, stock: PreparedStock, placed: readonly LaidCopy[]): Sheet['windows'] {
  const lists = stock.windows.map((window) => ({ window, copies: [] as CopyRef[] }));
  for (const standing of placed) {
    const entry = lists.find(({ window }) => isWithin(standing, window));
    const { pieceId, copy } = prepared.copies[standing.copy]!;
    entry?.copies.push({ pieceId, copy });
  }
  return lists
    .filter(({ copies }) => copies.length > 0)
    .map(({ window, copies }) => ({
      x: window.minX,
      y: window.minY,
      width: window.maxX - window.minX,
      height: window.maxY - window.minY,
      copies,
    }));
}

/** Does a standing piece lie wholly in a window? */
export function isWithin({ turned, x, y }: LaidCopy, window: Bounds): boolean {
  const b = turned.bounds;
  const t = WINDOW_TOLERANCE_MM;
  return (
    b.minX + x >= window.minX - t &&
    b.maxX + x <= window.maxX + t &&
    b.minY + y >= window.minY - t &&
    b.maxY + y <= window.maxY + t
  );
}
