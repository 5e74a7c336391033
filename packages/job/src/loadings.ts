import type { Matrix } from '@underlap/geometry/matrix';
import type { Bounds } from '@underlap/geometry/ring';
import { type CopyRef, copyName } from '@underlap/nest/copy';
import type { Placement, Sheet } from '@underlap/nest/problem';
import { type BoardLoading, boardLoading, isTurnedOn, usableBed } from './board-loading.ts';
import type { Job } from './document.ts';

/** Places that differ by less are one place when sheets are compared, mm and degrees. */
const SAME_PLACE = 1e-6;

/** One set-up of material on the bed: what one file holds. */
export interface Loading {
  /** From 1, in the order they are cut. */
  readonly number: number;
  /** Loadings of this board. */
  readonly count: number;
  readonly kind: BoardLoading['kind'];
  /** What the file shows of the board, mm in the board's frame. */
  readonly page: Bounds;
  /** Is the file turned by a quarter (clockwise as seen) so that it lies within the bed? */
  readonly isTurned: boolean;
  readonly widthMm: number;
  readonly heightMm: number;
  /** What is cut in it. */
  readonly copies: readonly CopyRef[];
  /** Where the board's edges lie in the file's frame, mm; negative = beyond the file's left or upper edge. */
  readonly board: Bounds;
  /** How the board moves from the loading before, mm in the file's frame (x to the right, y down); null for the first, and for panels. */
  readonly move: { readonly dx: number; readonly dy: number } | null;
}

/** Boards that hold the same pieces in the same places: one set of files, cut several times. */
export interface SheetGroup {
  /** Indexes of the layout's sheets, ascending; the first stands for all. */
  readonly sheets: readonly number[];
  readonly loadings: readonly Loading[];
}

/**
 * What is cut, in order: equal sheets once, and of each the loadings it takes.
 * @remarks O(placements).
 */
export function cutPlan(sheets: readonly Sheet[], job: Job): SheetGroup[] {
  const groups = new Map<string, number[]>();
  sheets.forEach((sheet, index) => {
    const key = contentOf(sheet);
    groups.set(key, [...(groups.get(key) ?? []), index]);
  });
  return [...groups.values()].map((members) => ({
    sheets: members,
    loadings: loadingsOf(sheets[members[0]!]!, job),
  }));
}

/** The loadings of one sheet, in serpentine order, so that the board moves along one edge at a time where it can. */
export function loadingsOf(sheet: Sheet, job: Job): Loading[] {
  const bed = usableBed(job.bed);
  const { kind, pages, reach } = boardLoading(job, sheet);
  const used = reach.columns.flatMap((column, i) => {
    const rows = reach.rows.map((row, j) => {
      const copies =
        kind === 'whole'
          ? sheet.placements.map(({ pieceId, copy }) => ({ pieceId, copy }))
          : sheet.windows
              .filter((window) => isSame(window.x, column.from) && isSame(window.y, row.from))
              .flatMap((window) => window.copies);
      const x = pages.columns[i]!;
      const y = pages.rows[j]!;
      return { page: { minX: x.from, minY: y.from, maxX: x.to, maxY: y.to }, copies };
    });
    return i % 2 === 0 ? rows : rows.reverse();
  });
  const filled = used.filter(({ copies }) => copies.length > 0);
  const loadings: Loading[] = [];
  for (const [index, { page, copies }] of filled.entries()) {
    const width = page.maxX - page.minX;
    const height = page.maxY - page.minY;
    const isTurned = isTurnedOn(bed, { width, height });
    const board = boardIn({ page, isTurned }, sheet);
    const before = loadings.at(-1);
    loadings.push({
      number: index + 1,
      count: filled.length,
      kind,
      page,
      isTurned,
      widthMm: isTurned ? height : width,
      heightMm: isTurned ? width : height,
      copies,
      board,
      move:
        kind !== 'moved' || before === undefined
          ? null
          : { dx: board.minX - before.board.minX, dy: board.minY - before.board.minY },
    });
  }
  return loadings;
}

/** From the board's frame into the file's: the page's corner becomes 0, 0, after a quarter turn when it is turned. */
export function intoFile({ page, isTurned }: Pick<Loading, 'page' | 'isTurned'>): Matrix {
  return isTurned
    ? { a: 0, b: 1, c: -1, d: 0, e: page.maxY, f: -page.minX }
    : { a: 1, b: 0, c: 0, d: 1, e: -page.minX, f: -page.minY };
}

function boardIn(loading: Pick<Loading, 'page' | 'isTurned'>, { width, height }: Sheet): Bounds {
  const { page, isTurned } = loading;
  return isTurned
    ? { minX: page.maxY - height, minY: -page.minX, maxX: page.maxY, maxY: width - page.minX }
    : { minX: -page.minX, minY: -page.minY, maxX: width - page.minX, maxY: height - page.minY };
}

/** Pieces and places of a sheet, whatever signs they belong to. */
function contentOf({ stockId, placements, windows }: Sheet): string {
  const windowOf = new Map(windows.flatMap((window) => window.copies.map((copy) => [copyName(copy), window] as const)));
  const rounded = (value: number) => Math.round(value / SAME_PLACE);
  const place = (placement: Placement): string => {
    const { pieceId, x, y, turnDeg, mirrored } = placement;
    const window = windowOf.get(copyName(placement));
    const at = window === undefined ? [] : [rounded(window.x), rounded(window.y)];
    return [pieceId, rounded(x), rounded(y), rounded(turnDeg), mirrored, ...at].join(' ');
  };
  return JSON.stringify([stockId, placements.map(place).sort()]);
}

function isSame(a: number, b: number): boolean {
  return Math.abs(a - b) <= SAME_PLACE;
}

/** How a maker sets the material for a loading: a sentence each. */
export function loadingWords(loading: Loading): string[] {
  const { kind, number, count, page, isTurned, board, move } = loading;
  const turned = isTurned ? ['the file is turned by a quarter, clockwise, so that it lies within the bed'] : [];
  if (kind === 'whole') return turned;
  const size = `${mm(page.maxX - page.minX)} x ${mm(page.maxY - page.minY)} mm`;
  const at = `${mm(page.minX)}, ${mm(page.minY)} mm from the board's upper left corner`;
  if (kind === 'panels') return [`panel ${number} of ${count}: ${size}, sawn out at ${at}`, ...turned];
  return [
    `loading ${number} of ${count}: ${size} of the board, at ${at}`,
    ...turned,
    `edge stops: the board's left edge lies ${beyond(board.minX, 'left', 'right')}, its upper edge ${beyond(board.minY, 'above', 'below')} the file's upper left corner`,
    ...(move === null ? [] : [`from the loading before: move the board ${moveWords(move)}`]),
  ];
}

/** "203 mm to the left and 105 mm up" */
export function moveWords({ dx, dy }: NonNullable<Loading['move']>): string {
  const along = isSame(dx, 0) ? [] : [`${mm(Math.abs(dx))} mm to the ${dx < 0 ? 'left' : 'right'}`];
  const across = isSame(dy, 0)
    ? []
    : [`${mm(Math.abs(dy))} mm ${dy < 0 ? 'up (away from you)' : 'down (towards you)'}`];
  return [...along, ...across].join(' and ') || 'not at all';
}

function beyond(at: number, before: string, after: string): string {
  const side = at <= 0 ? before : after;
  return `${mm(Math.abs(at))} mm ${side === 'left' || side === 'right' ? `${side} of` : side}`;
}

function mm(value: number): string {
  return String(Number(value.toFixed(3)));
}
