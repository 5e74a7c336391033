import { disturbPlaces } from '../search/disturb.ts';
import type { Layout } from '../search/layout.ts';
import type { SeparationSettings } from '../search/separator.ts';
import { emptySnapshot, restorePlaces, type Snapshot, save } from '../search/snapshot.ts';
import { putSpots, spotsOf } from '../search/spots.ts';
import type { BoardsInput, SearchBudget, SearchHooks, Spot } from '../search/task.ts';
import { boardsTask } from './boards-task.ts';

/** The side of the board that is drawn in: its right end, or its lower one. */
export type DrawnSide = 'maxX' | 'maxY';

/** Share of the extent by which the side is drawn in first; halved after each failure. */
const FIRST_STEP = 0.04;
const TRYING: SeparationSettings = { stalledPasses: 50, strikes: 2 };
/** Near misses kept to start again from. */
const POOL = 6;
/** Failures by the least step, one after another, after which nothing is expected any more. */
const QUIET_TRIES = 24;
const ONLY = [0];
const onlyBoard = () => ONLY;

/**
 * Push the items of one board together: draw in one of its sides, separate what then overlaps, and again. After a failure by the least
 * step a near miss is disturbed and tried anew, until the budget ends or nothing was gained for a while.
 * @param input - with one board; its obstacles stay where they are.
 * @param incumbent - a valid layout of all items.
 * @param leastStep - what a step must gain to be worth it, in the input's unit of length, > 0.
 * @param hooks - `onBetter` is told each layout with the extent it takes.
 * @returns evaluations spent; nothing is told when the incumbent cannot be pushed together.
 */
export function pushTogether(
  input: BoardsInput,
  incumbent: readonly Spot[],
  side: DrawnSide,
  leastStep: number,
  budget: SearchBudget,
  hooks: SearchHooks,
): number {
  const task = boardsTask(input, budget, hooks);
  const { layout, meter, random, turner } = task;
  const whole = input.boards[0]!;
  const from = side === 'maxX' ? whole.minX : whole.minY;
  const least = leastExtent(layout, side);
  putSpots(layout, incumbent);
  if (!task.isApart()) return layout.evaluations;
  const best = emptySnapshot(layout);
  save(layout, best, 0);
  let extent = reached(layout, side) - from;
  let step = FIRST_STEP;
  let pool: Snapshot[] = [];
  let quiet = 0;
  while (!meter.isOver() && extent - leastStep > least && quiet < QUIET_TRIES) {
    const by = Math.max(leastStep, step * extent);
    layout.boards[0] = { ...whole, [side]: from + Math.max(least, extent - by) };
    restorePlaces(layout, pool.length === 0 ? best : pool[Math.floor(pool.length * random() ** 2)]!);
    if (pool.length > 0) disturbPlaces(layout, random);
    task.refresh();
    const { isApart, left } = task.separate(onlyBoard, TRYING);
    const miss = emptySnapshot(layout);
    if (!isApart) save(layout, miss, left);
    if (isApart || turner?.separate() === true) {
      extent = reached(layout, side) - from;
      save(layout, best, 0);
      pool = [];
      quiet = 0;
      hooks.onBetter?.(spotsOf(layout), extent, layout.evaluations);
    } else if (by > leastStep) step /= 2;
    else {
      remember(pool, miss);
      quiet++;
    }
  }
  return layout.evaluations;
}

function remember(pool: Snapshot[], miss: Snapshot): void {
  pool.push(miss);
  pool.sort((a, b) => a.total - b.total);
  if (pool.length > POOL) pool.pop();
}

/** How far the items reach. */
function reached(layout: Layout, side: DrawnSide): number {
  let most = -Infinity;
  for (let i = 0; i < layout.items; i++) {
    const pose = layout.model.poses[layout.pose[i]!]!;
    most = Math.max(most, side === 'maxX' ? layout.x[i]! + pose.maxX : layout.y[i]! + pose.maxY);
  }
  return most;
}

/** No layout takes less: the items' area over the other side, and of the widest item the narrowest listed pose that fits across. */
function leastExtent(layout: Layout, side: DrawnSide): number {
  const { model, items, boards } = layout;
  const { minX, minY, maxX, maxY } = boards[0]!;
  let area = 0;
  let widest = 0;
  for (let i = 0; i < items; i++) {
    const fitting = [...model.itemPoses[i]!].filter((pose) => layout.fits(pose, 0));
    const poses = Array.from(fitting.length > 0 ? fitting : model.itemPoses[i]!, (pose) => model.poses[pose]!);
    area += model.forms[poses[0]!.form]!.area;
    if (model.isFreeToTurn[i] === 1) continue;
    const extents = poses.map((pose) => (side === 'maxX' ? pose.maxX - pose.minX : pose.maxY - pose.minY));
    widest = Math.max(widest, Math.min(...extents));
  }
  return Math.max(widest, area / (side === 'maxX' ? maxY - minY : maxX - minX));
}
