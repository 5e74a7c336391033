import type { BoardsTask } from './boards-task.ts';
import { Jigsaw, type JigsawPlace } from './jigsaw.ts';
import type { BoardsInput } from './task.ts';

/** Share of the budget for gapless filling when the pieces' area would fill whole boards. */
const SHARE_TIGHT = 0.5;
/** The same when it would not: a gapless board is then a lucky find. */
const SHARE_LOOSE = 0.03;
/** Placements tried on one board before starting afresh. */
const TRIES = 400;
/** Work units that one placement of a jigsaw counts for: measured time of a try over that of an evaluation. */
const UNITS_PER_TRY = 60;

export interface GaplessPlace extends JigsawPlace {
  readonly board: number;
}

/**
 * Fill whole boards without any waste from pieces that match edge to edge.
 * @returns places on as many boards as could be filled, checked for overlap with the search's own depths; often none.
 */
export function fillWithoutWaste(
  task: BoardsTask,
  input: BoardsInput,
  isFixed: Uint8Array,
  frozen: Uint8Array,
): GaplessPlace[] {
  const { layout, meter, random } = task;
  if (input.spacing > 0 || task.groups.length > 0) return [];
  const boards = input.boards
    .map((_, index) => index)
    .filter((board) => {
      const place = input.boards[board]!;
      return frozen[board] === 0 && place.obstacles.length === 0 && place.price > 0;
    });
  if (boards.length === 0) return [];
  const loose: number[] = [];
  let area = 0;
  for (let i = 0; i < layout.items; i++) {
    if (isFixed[i] === 1) continue;
    loose.push(i);
    area += task.areaOf(i);
  }
  const room = task.roomOn(boards[0]!);
  const most = Math.min(boards.length, Math.floor(area / room + 1e-6));
  if (most === 0 || !hasMatches(task, loose)) return [];
  const isTight = area / room - most < 1e-3;
  const share = isTight ? SHARE_TIGHT : SHARE_LOOSE;
  let best: GaplessPlace[] = [];
  let bestBoards = 0;
  for (let start = 0; bestBoards < most; start++) {
    const jigsaw = new Jigsaw(layout.model, loose, 2 * input.tolerance, random);
    const places: GaplessPlace[] = [];
    let filled = 0;
    let failures = 0;
    const noise = start === 0 ? 0 : start % 2 === 0 ? 0.15 : 0.4;
    while (filled < most && failures < 3) {
      const place = input.boards[boards[filled]!]!;
      const before = jigsaw.tries;
      const got = jigsaw.fill(
        place.minX,
        place.minY,
        place.maxX,
        place.maxY,
        TRIES * (1 + (start >> 2)),
        failures === 0 ? noise : 0.3,
      );
      layout.evaluations += (jigsaw.tries - before) * UNITS_PER_TRY;
      if (got !== null && isFree(task, got, boards[filled]!)) {
        for (const one of got) places.push({ ...one, board: boards[filled]! });
        jigsaw.take(got);
        filled++;
        failures = 0;
      } else failures++;
      if (meter.isOver() || meter.share > share) break;
    }
    if (filled > bestBoards) {
      best = places;
      bestBoards = filled;
    }
    if (meter.isOver() || meter.share > share) break;
  }
  return best;
}

/** Do the places keep clear of each other and of the board's edge within the tolerance? */
function isFree(task: BoardsTask, places: readonly JigsawPlace[], board: number): boolean {
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
