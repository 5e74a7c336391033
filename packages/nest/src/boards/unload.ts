import type { SeparationSettings } from '../search/separator.ts';
import { emptySnapshot, restorePlaces, save } from '../search/snapshot.ts';
import { putSpots, spotsOf } from '../search/spots.ts';
import type { BoardsInput, SearchBudget, SearchHooks, Spot } from '../search/task.ts';
import { scatterOver, usedArea } from './board-moves.ts';
import { type BoardsTask, boardsTask } from './boards-task.ts';

/** Short tries: most pieces either find room soon or never. */
const TRYING: SeparationSettings = { stalledPasses: 25, strikes: 1 };
/** Share of a board's room that pieces hardly ever exceed. */
const FULLEST = 0.95;
/** After a piece found no room, only pieces of less than this share of it are tried until the end of the round. */
const NEXT_SHARE = 0.85;
/** Rounds over the pieces of the board without one that moves, in other orders and other places, after which it is given up. */
const QUIET_ROUNDS = 4;

export interface Unloaded {
  readonly spots: readonly Spot[];
  /** Pieces that left the board. */
  readonly moved: number;
  readonly evaluations: number;
}

/**
 * Move pieces of one board onto the others in use, one by one or group by group, large ones first: each is put somewhere on another
 * board and everything there is separated. So the last board keeps as little as possible, and now and then nothing.
 * @param incumbent - a valid layout of all items.
 * @returns a valid layout on the same boards or fewer; the incumbent when nothing could be moved.
 */
export function unloadBoard(
  input: BoardsInput,
  incumbent: readonly Spot[],
  board: number,
  budget: SearchBudget,
  hooks: SearchHooks,
): Unloaded {
  const task = boardsTask(input, budget, hooks);
  const { layout, meter, random } = task;
  putSpots(layout, incumbent);
  const isValid = task.isApart();
  const best = emptySnapshot(layout);
  save(layout, best, 0);
  const others = [...new Set(layout.board.subarray(0, layout.items))].filter((b) => b !== board).sort((a, b) => a - b);
  let moved = 0;
  if (others.length > 0 && isValid) {
    const boardsOf = task.boardsOf(others, new Uint8Array(layout.items));
    for (let quiet = 0; quiet < QUIET_ROUNDS && !meter.isOver(); quiet++) {
      let largest = Infinity;
      const order = unitsOn(task, board)
        .map((items) => ({ items, area: roomOf(task, items), rank: roomOf(task, items) * (1 - 0.5 * random()) }))
        .sort((a, b) => b.rank - a.rank);
      for (const { items, area } of order) {
        if (meter.isOver()) break;
        const roomy = others.filter((other) => mayTake(task, other, items, area));
        if (area >= largest || roomy.length === 0) continue;
        scatterOver(task, items, roomy);
        task.refresh(items);
        if (task.separate(boardsOf, TRYING).isApart) {
          save(layout, best, 0);
          moved += items.length;
          quiet = -1;
        } else {
          task.restore(best);
          largest = NEXT_SHARE * area;
        }
      }
      if (unitsOn(task, board).length === 0) break;
    }
    restorePlaces(layout, best);
  }
  return { spots: moved === 0 ? incumbent : spotsOf(layout), moved, evaluations: layout.evaluations };
}

/** Items of a board that move together: groups, and every other item on its own. */
function unitsOn(task: BoardsTask, board: number): number[][] {
  const { layout, groupOf, groups } = task;
  const items = layout.members[board]!.filter((body) => body < layout.items);
  const seen = new Set<number>();
  return items.flatMap((item) => {
    const group = groupOf[item]!;
    if (group < 0) return [[item]];
    if (seen.has(group)) return [];
    seen.add(group);
    return [[...groups[group]!]];
  });
}

function roomOf(task: BoardsTask, items: readonly number[]): number {
  return items.reduce((sum, item) => sum + task.areaOf(item), 0);
}

/** Is there area enough on a board, and do all items fit it in some pose? */
function mayTake(task: BoardsTask, board: number, items: readonly number[], area: number): boolean {
  const { layout } = task;
  return (
    usedArea(task, board) + area <= FULLEST * task.roomOn(board) &&
    items.every((item) => layout.model.itemPoses[item]!.some((pose) => layout.fits(pose, board)))
  );
}
