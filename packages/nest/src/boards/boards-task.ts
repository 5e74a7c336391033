import { Layout } from '../search/layout.ts';
import { Meter } from '../search/meter.ts';
import { Model } from '../search/model.ts';
import { type Random, seededRandom } from '../search/random.ts';
import { type BoardsOf, type SeparationSettings, Separator, UNFIT_UNITS } from '../search/separator.ts';
import { restorePlaces, type Snapshot } from '../search/snapshot.ts';
import type { BoardsInput, Obstacle, SearchBudget, SearchHooks } from '../search/task.ts';
import { BoardTurner } from '../turn/board-turns.ts';
import { RoughSeparator } from '../turn/rough-separator.ts';

/** What came of a separation: the layout is free of overlap, or has that much left (in units that only ranks failures). */
export interface Separated {
  readonly isApart: boolean;
  readonly left: number;
}

/** What the steps of a board search share. */
export interface BoardsTask {
  readonly layout: Layout;
  readonly meter: Meter;
  readonly random: Random;
  readonly separator: Separator;
  /** Separate everything; with many kinds without no-fit polygons, and depths need not be up to date. */
  readonly separate: (boardsOf: BoardsOf, settings: SeparationSettings) => Separated;
  /** Bring depths up to date for what reads them; with many kinds nothing does. */
  readonly refresh: (items?: readonly number[]) => void;
  /** Is the layout free of overlap? Depths are brought up to date, but with many kinds. */
  readonly isApart: () => boolean;
  /** Deepest overlap of an item after the last separation. */
  readonly worst: (item: number) => number;
  /** Put every item back, and depths as `refresh` does. */
  readonly restore: (from: Snapshot) => void;
  /** Where pieces may turn freely. */
  readonly turner: BoardTurner | null;
  /** Group number of each item, -1 = none. */
  readonly groupOf: Int32Array;
  /** Items of each group. */
  readonly groups: readonly (readonly number[])[];
  readonly areaOf: (item: number) => number;
  /** Area of an item with half the spacing all round. */
  readonly roomOf: (item: number) => number;
  /** Area of a board that is not taken by obstacles. */
  readonly roomOn: (board: number) => number;
  /** Does a fixed item lie on the board? Such boards are left alone. */
  readonly isHeld: (board: number, isFixed: Uint8Array) => boolean;
  /** Boards an item may move to among those given: its own where it is fixed or in a group. */
  readonly boardsOf: (boards: readonly number[], isFixed: Uint8Array) => BoardsOf;
}

/** Build the model, an empty layout and the helpers of a board search. */
export function boardsTask(input: BoardsInput, budget: SearchBudget, hooks: SearchHooks): BoardsTask {
  const obstacles: Obstacle[] = [];
  const obstacleBoards: number[] = [];
  // Boards of one kind share their obstacle objects, and the model shares one form among them.
  input.boards.forEach((board, index) => {
    for (const obstacle of board.obstacles) {
      obstacles.push(obstacle);
      obstacleBoards.push(index);
    }
  });
  const model = new Model(input, obstacles, hooks.noFits);
  const layout = new Layout(model, input.boards, obstacleBoards);
  const meter = new Meter(layout, budget, hooks);
  const random = seededRandom(hooks.seed);
  const separator = new Separator(layout, input.tolerance, random, meter.isOver);
  const rough = model.hasManyPairs ? new RoughSeparator(layout, input.tolerance, random, meter.isOver) : null;
  // the rough separation turns what may turn by itself
  const isTurned = rough === null && model.isFreeToTurn.includes(1);
  const turner = isTurned ? new BoardTurner(layout, input.tolerance, random, meter.isOver) : null;
  const groupOf = new Int32Array(layout.items).fill(-1);
  const groups: number[][] = [];
  const names = new Map<string, number>();
  input.items.forEach((item, index) => {
    if (item.group === undefined || item.group === null) return;
    let group = names.get(item.group);
    if (group === undefined) {
      group = groups.length;
      names.set(item.group, group);
      groups.push([]);
    }
    groups[group]!.push(index);
    groupOf[index] = group;
  });
  const areaOf = (item: number) => model.forms[model.poses[model.itemPoses[item]![0]!]!.form]!.area;
  const roomOf = (item: number) => model.forms[model.poses[model.itemPoses[item]![0]!]!.form]!.room;
  const isHeld = (board: number, isFixed: Uint8Array) =>
    layout.members[board]!.some((body) => body < layout.items && isFixed[body] === 1);
  const refresh = (which?: readonly number[]) => {
    if (rough !== null) return;
    if (which === undefined) layout.refreshAll();
    else for (const item of which) layout.refresh(item);
  };
  return {
    layout,
    meter,
    random,
    separator,
    separate(boardsOf, settings) {
      if (rough !== null) {
        // a piece larger than its board as it lies: nothing to look at, and what is not counted never ends a budget
        if (!layout.allFit()) {
          layout.evaluations += UNFIT_UNITS;
          return { isApart: false, left: Infinity };
        }
        const left = rough.separate(boardsOf);
        return { isApart: left === 0, left };
      }
      const isApart = separator.separate(boardsOf, settings);
      return { isApart, left: isApart ? 0 : separator.best.total };
    },
    refresh,
    isApart() {
      if (rough !== null) return layout.allFit() && rough.isApart();
      layout.refreshAll();
      return layout.allFit() && layout.total(input.tolerance) === 0;
    },
    worst: (item) => rough?.worst(item) ?? layout.worst(item),
    restore(from) {
      restorePlaces(layout, from);
      refresh();
    },
    turner,
    groupOf,
    groups,
    areaOf,
    roomOf,
    roomOn(board) {
      const place = input.boards[board]!;
      let room = (place.maxX - place.minX) * (place.maxY - place.minY);
      obstacleBoards.forEach((of, index) => {
        if (of === board) room -= model.forms[model.poses[model.obstaclePoses[index]!.pose]!.form]!.area;
      });
      // Obstacles may reach beyond the board or over each other; some room is left in any case.
      return Math.max(room, 0.05 * (place.maxX - place.minX) * (place.maxY - place.minY));
    },
    isHeld,
    boardsOf(boards, isFixed) {
      return (item) => (isFixed[item] === 1 || groupOf[item]! >= 0 ? [layout.board[item]!] : boards);
    },
  };
}
