import { CellCover } from '../gapless/cell-cover.ts';
import { type Filler, type FillPlace, Jigsaw } from '../gapless/jigsaw.ts';
import { latticeUnit } from '../gapless/lattice.ts';
import type { BoardsInput } from '../search/task.ts';
import type { BoardsTask } from './boards-task.ts';

/** Share of the budget for gapless filling when the pieces' area would fill whole boards. */
const SHARE_TIGHT = 0.5;
/** The same when it would not: a gapless board is then a lucky find. */
const SHARE_LOOSE = 0.03;
/** Share of one board's area that may stay free when pieces are made of whole cells. */
const MOST_SLACK = 0.08;
/** A lattice with more cells along a board's shorter side is too fine. */
const FINEST = 80;
/** Failures on one board before the boards are begun afresh. */
const FAILURES = 3;

/** How boards are filled. */
interface Way {
  readonly filler: () => Filler;
  /** Placements tried on one board at first. */
  readonly tries: number;
  /** Work units of a placement: its measured time over that of an evaluation. */
  readonly unitsPerTry: number;
  /** Boards that may be filled. */
  readonly most: number;
  readonly isTight: boolean;
}

/**
 * Fill whole boards without any waste: from pieces made of whole cells by exact cover, from others that match edge to edge as one
 * does a jigsaw.
 * @returns places by board, for as many boards as could be filled, checked for overlap with the search's own depths; often none.
 */
export function fillWithoutWaste(
  task: BoardsTask,
  input: BoardsInput,
  isFixed: Uint8Array,
  frozen: Uint8Array,
): ReadonlyMap<number, readonly FillPlace[]> {
  const { layout, meter } = task;
  if (input.spacing > 0 || task.groups.length > 0) return new Map();
  const boards = input.boards
    .map((_, index) => index)
    .filter((board) => {
      const place = input.boards[board]!;
      return frozen[board] === 0 && place.obstacles.length === 0 && place.price > 0;
    });
  if (boards.length === 0) return new Map();
  const loose: number[] = [];
  for (let i = 0; i < layout.items; i++) if (isFixed[i] === 0) loose.push(i);
  const way = coverWay(task, input, loose, boards) ?? jigsawWay(task, input, loose, boards);
  if (way === null) return new Map();
  const share = way.isTight ? SHARE_TIGHT : SHARE_LOOSE;
  let best = new Map<number, readonly FillPlace[]>();
  for (let start = 0; best.size < way.most; start++) {
    const filler = way.filler();
    const places = new Map<number, readonly FillPlace[]>();
    let failures = 0;
    const noise = start === 0 ? 0 : start % 2 === 0 ? 0.15 : 0.4;
    while (places.size < way.most && failures < FAILURES) {
      const before = filler.tries;
      const board = boards[places.size]!;
      const got = filler.fill(input.boards[board]!, way.tries * (1 + (start >> 2)), failures === 0 ? noise : 0.3);
      layout.evaluations += (filler.tries - before) * way.unitsPerTry;
      if (got !== null && isFree(task, got, board)) {
        places.set(board, got);
        filler.take(got);
        failures = 0;
      } else failures++;
      if (filler.isExhausted || meter.isOver() || meter.share > share) break;
    }
    if (places.size > best.size) best = places;
    if ((filler.isExhausted && places.size === 0) || meter.isOver() || meter.share > share) break;
  }
  return best;
}

/** Exact cover, where all pieces are made of cells that are not too many. */
function coverWay(task: BoardsTask, input: BoardsInput, loose: number[], boards: number[]): Way | null {
  const { layout, random } = task;
  const { model } = layout;
  const place = input.boards[boards[0]!]!;
  const shorter = Math.min(place.maxX - place.minX, place.maxY - place.minY);
  const poses = new Set(loose.flatMap((item) => [...model.itemPoses[item]!]));
  const unit = latticeUnit(layout, poses, shorter, (fine) => shorter / fine <= FINEST);
  if (unit === 0) return null;
  const room = (place.maxX - place.minX) * (place.maxY - place.minY);
  const area = areaOfAll(task, loose);
  const enough = Math.ceil(area / room - 1e-6);
  // nearly full boards take all pieces and leave cells free; otherwise the last board is left to the search
  const isTight = enough <= boards.length && enough * room - area <= MOST_SLACK * room;
  const most = Math.min(boards.length, isTight ? enough : enough - 1);
  const slack = isTight ? enough * room - area : 0;
  const filler = () => CellCover.of(model, loose, unit, slack, input.tolerance, random);
  const first = most === 0 ? null : filler();
  if (first === null) return null;
  // places that only an exact fit reaches are free from here on
  model.seeSlots(input.tolerance);
  return { filler: () => filler() ?? first, tries: 4000, unitsPerTry: 10, most, isTight };
}

/** Exact matching, where many edges have a partner of equal length. */
function jigsawWay(task: BoardsTask, input: BoardsInput, loose: number[], boards: number[]): Way | null {
  const area = areaOfAll(task, loose);
  const room = task.roomOn(boards[0]!);
  const most = Math.min(boards.length, Math.floor(area / room + 1e-6));
  if (most === 0 || !hasMatches(task, loose)) return null;
  return {
    filler: () => new Jigsaw(task.layout.model, loose, 2 * input.tolerance, task.random),
    tries: 400,
    unitsPerTry: 60,
    most,
    isTight: area / room - most < 1e-3,
  };
}

function areaOfAll(task: BoardsTask, items: readonly number[]): number {
  return items.reduce((sum, item) => sum + task.areaOf(item), 0);
}

/** Do the places keep clear of each other and of the board's edge within the tolerance? */
function isFree(task: BoardsTask, places: readonly FillPlace[], board: number): boolean {
  const { layout, separator } = task;
  const held = places.map(({ item }) => ({
    item,
    board: layout.board[item]!,
    pose: layout.pose[item]!,
    x: layout.x[item]!,
    y: layout.y[item]!,
  }));
  for (const { item, pose, x, y } of places) layout.put(item, board, pose, x, y);
  let ok = true;
  for (let a = 0; a < places.length && ok; a++) {
    for (let b = a + 1; b < places.length && ok; b++) {
      if (layout.pairDepth(places[a]!.item, places[b]!.item) > separator.tolerance) ok = false;
    }
  }
  for (const { item, board: old, pose, x, y } of held) layout.put(item, old, pose, x, y);
  return ok;
}

/** Do many edges have a partner of the same length on another piece? Otherwise matching is hopeless and not tried. */
function hasMatches(task: BoardsTask, items: readonly number[]): boolean {
  const { layout } = task;
  const { model } = layout;
  const owners = new Map<number, { count: number; first: number }>();
  const lengths: { key: number; form: number }[] = [];
  for (const item of items) {
    const { form } = model.poses[model.itemPoses[item]![0]!]!;
    for (const ring of [model.forms[form]!.region.outer]) {
      for (let i = 0; i < ring.length; i += 2) {
        const j = (i + 2) % ring.length;
        const length = Math.hypot(ring[j]! - ring[i]!, ring[j + 1]! - ring[i + 1]!);
        const key = Math.round((length / (4 * task.separator.tolerance)) * 1);
        const known = owners.get(key);
        if (known === undefined) owners.set(key, { count: 1, first: item });
        else if (known.first !== item) known.count++;
        lengths.push({ key, form });
      }
    }
  }
  const matched = lengths.filter(({ key }) => owners.get(key)!.count > 1).length;
  return matched >= 0.25 * lengths.length;
}
