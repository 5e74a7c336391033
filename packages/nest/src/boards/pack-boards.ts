import { SEPARATION_SETTINGS } from '../search/separator.ts';
import { emptySnapshot, restorePlaces, type Snapshot, save } from '../search/snapshot.ts';
import { putSpots, spotsOf } from '../search/spots.ts';
import type { BoardsInput, SearchBudget, SearchEnd, SearchHooks, Spot } from '../search/task.ts';
import { emptyBoard, exchangeAcross, moveAll, scatterOver, totalPrice, usedArea } from './board-moves.ts';
import { type BoardsTask, boardsTask } from './boards-task.ts';
import { fillWithoutWaste } from './whole-boards.ts';

export interface BoardsResult {
  /** A valid layout with every item on a board, or null when none was found. */
  readonly spots: readonly Spot[] | null;
  readonly price: number;
  readonly boardsUsed: number;
  readonly evaluations: number;
  readonly endedBy: SearchEnd;
}

/** Boards opened for a first layout: area of the pieces times this. */
const FIRST_ROOM = 1.35;
/** Near misses kept to start again from. */
const POOL = 8;
/** Failures on one choice of boards before another board is tried for emptying. */
const FAILURES = 6;

/**
 * Fewest or cheapest boards. First whole boards are filled without waste where the pieces match exactly; then the search
 * starts from the incumbent (or from scattering over as many boards as the area asks for), closes one board after another,
 * scatters its pieces over the rest and separates them; after a failure unlike pieces are exchanged across boards.
 * @param incumbent - a valid layout of all items, or null. The result is never dearer.
 */
export function packBoards(
  input: BoardsInput,
  incumbent: readonly Spot[] | null,
  budget: SearchBudget,
  hooks: SearchHooks,
): BoardsResult {
  const task = boardsTask(input, budget, hooks);
  const { layout, meter } = task;
  const best = emptySnapshot(layout);
  let bestPrice = Infinity;
  const keep = (): boolean => {
    const price = totalPrice(layout);
    if (!(price < bestPrice)) return false;
    bestPrice = price;
    save(layout, best, 0);
    hooks.onBetter?.(spotsOf(layout), price, layout.evaluations);
    if (price <= (input.priceBound ?? 0)) meter.end('bound');
    return true;
  };
  if (incumbent !== null) {
    putSpots(layout, incumbent);
    if (isComplete(layout.board) && task.isApart()) keep();
  }
  const frozen = new Uint8Array(layout.boards.length);
  const isFixed = new Uint8Array(layout.items);
  if (!meter.isOver()) {
    for (const [board, places] of fillWithoutWaste(task, input, isFixed, frozen)) {
      frozen[board] = 1;
      for (const { item, pose, x, y } of places) {
        layout.put(item, board, pose, x, y);
        isFixed[item] = 1;
      }
    }
  }
  if (!meter.isOver() && (bestPrice === Infinity || frozen.includes(1))) firstLayout(task, isFixed, frozen, keep);
  if (bestPrice < Infinity) closeBoards(task, isFixed, best, keep);
  if (bestPrice === Infinity) {
    return {
      spots: null,
      price: Infinity,
      boardsUsed: 0,
      evaluations: layout.evaluations,
      endedBy: meter.ended ?? 'settled',
    };
  }
  restorePlaces(layout, best);
  return {
    spots: spotsOf(layout),
    price: bestPrice,
    boardsUsed: new Set(layout.board.subarray(0, layout.items)).size,
    evaluations: layout.evaluations,
    endedBy: meter.ended ?? 'settled',
  };
}

function isComplete(board: Int32Array): boolean {
  return !board.includes(-1);
}

/** Scatter what is not fixed over as many further boards as its area asks for, one more after each failure. */
function firstLayout(task: BoardsTask, isFixed: Uint8Array, frozen: Uint8Array, keep: () => boolean): void {
  const { layout, separator, meter } = task;
  const loose: number[] = [];
  for (let i = 0; i < layout.items; i++) if (isFixed[i] === 0) loose.push(i);
  if (loose.length === 0) {
    layout.refreshAll();
    keep();
    return;
  }
  let area = 0;
  for (const item of loose) area += task.roomOf(item);
  const open: number[] = [];
  const closed = layout.boards.map((_, board) => board).filter((board) => frozen[board] === 0);
  let room = 0;
  while (closed.length > 0 && room < area * (frozen.includes(1) ? 1 - 1e-9 : FIRST_ROOM)) {
    const board = closed.shift()!;
    open.push(board);
    room += task.roomOn(board);
  }
  scatterOver(task, loose, open);
  task.refresh();
  for (;;) {
    if (task.separate(task.boardsOf(open, isFixed), { stalledPasses: 40, strikes: 1 }).isApart) {
      keep();
      return;
    }
    if (meter.isOver() || closed.length === 0) return;
    const board = closed.shift()!;
    open.push(board);
    // The pieces in the way move to the new board.
    const worst = loose.filter((item) => task.worst(item) > separator.tolerance);
    scatterOver(
      task,
      worst.filter((_, k) => k % 2 === 0),
      [board],
    );
    task.refresh();
  }
}

/** Close boards one after another until the budget ends. */
function closeBoards(task: BoardsTask, isFixed: Uint8Array, best: Snapshot, keep: () => boolean): void {
  const { layout, meter } = task;
  let skip = 0;
  while (!meter.isOver()) {
    task.restore(best);
    const open = [...new Set(layout.board.subarray(0, layout.items))].sort((a, b) => a - b);
    const victims = open
      .filter((board) => layout.boards[board]!.price > 0 && !task.isHeld(board, isFixed))
      .sort(
        (a, b) => usedArea(task, a) / layout.boards[a]!.price - usedArea(task, b) / layout.boards[b]!.price || a - b,
      );
    if (victims.length === 0) break;
    const victim = victims[skip % Math.min(victims.length, 4)]!;
    const rest = open.filter((board) => board !== victim);
    const cheaper = cheaperBoard(task, victim, open);
    if (cheaper >= 0) {
      moveAll(task, victim, cheaper);
      if (task.isApart() && keep()) continue;
      task.restore(best);
      rest.push(cheaper);
    }
    const movable = rest.filter((board) => !task.isHeld(board, isFixed));
    if (movable.length === 0) break;
    emptyBoard(task, victim, movable);
    task.refresh();
    skip = attempt(task, movable, isFixed, keep) ? 0 : skip + 1;
  }
}

/** Separate on the given boards; after a failure exchange pieces across boards in one of the best near misses. */
function attempt(task: BoardsTask, boards: readonly number[], isFixed: Uint8Array, keep: () => boolean): boolean {
  const { layout, random, meter } = task;
  const pool: Snapshot[] = [];
  const boardsOf = task.boardsOf(boards, isFixed);
  for (let failures = 0; failures < FAILURES; failures++) {
    const { isApart, left } = task.separate(boardsOf, SEPARATION_SETTINGS);
    if (isApart) return keep();
    const miss = emptySnapshot(layout);
    save(layout, miss, left);
    if (task.turner?.separate()) return keep();
    if (meter.isOver()) return false;
    pool.push(miss);
    pool.sort((a, b) => a.total - b.total);
    if (pool.length > POOL) pool.pop();
    restorePlaces(layout, pool[Math.floor(pool.length * random() ** 2)]!);
    exchangeAcross(task, boards, isFixed);
    task.refresh();
  }
  return false;
}

/** A closed board that is cheaper than the one to be closed and has room for what lies there, or -1. */
function cheaperBoard(task: BoardsTask, victim: number, open: readonly number[]): number {
  const { layout } = task;
  const need = usedArea(task, victim);
  let found = -1;
  layout.boards.forEach((board, index) => {
    if (open.includes(index) || board.price >= layout.boards[victim]!.price || task.roomOn(index) < need) return;
    if (found < 0 || board.price < layout.boards[found]!.price) found = index;
  });
  return found;
}
