import type { Layout } from '@underlap/nest/search/layout';
import { emptySnapshot, restore, save } from '@underlap/nest/search/snapshot';
import { Explorer } from './explore.ts';
import type { ShrinkTask } from './strip-task.ts';
import { StripTurner } from './strip-turner.ts';

/** Share of the budget that goes to listed turns at first, and to one round of turning and exploring after that. */
const FIRST = 0.65;
const ROUND = 0.1;
/** Least and largest part of a round that goes to exploring listed turns. */
const LEAST_EXPLORING = 0.1;
const MOST_EXPLORING = 0.75;
/**
 * Gains of length, as shares, that exploring and turning are credited with; how much older gains count. Where turning gains nothing
 * a better layout over listed turns is what helps.
 */
const EXPLORING_CREDIT = 5e-4;
const TURNING_CREDIT = 2e-4;
const FADE = 0.5;

/**
 * Shorten a strip whose pieces may turn freely: rounds of exploring listed turns and of turning, the work shared out by what each
 * has gained. A new best of the listed turns is compacted at once, and what that gains counts for exploring.
 */
export function turnStrip(task: ShrinkTask): void {
  const { meter } = task;
  const listed = listedTask(task);
  const explorer = new Explorer(listed);
  explorer.run(FIRST);
  if (meter.isOver()) return;
  const turner = new StripTurner(task, listed);
  turner.turnListed();
  let byExploring = 0;
  let byTurning = 0;
  let until = Math.max(FIRST, meter.share);
  while (!meter.isOver() && task.bestLength() > task.bound) {
    const exploring = (byExploring + EXPLORING_CREDIT) / (byExploring + byTurning + EXPLORING_CREDIT + TURNING_CREDIT);
    const part = Math.min(MOST_EXPLORING, Math.max(LEAST_EXPLORING, exploring));
    const start = task.bestLength();
    until = Math.max(until, meter.share) + ROUND * (1 - part);
    turner.run(Math.min(1, until));
    const turned = task.bestLength();
    until = Math.max(until, meter.share) + ROUND * part;
    explorer.run(Math.min(1, until));
    turner.turnListed();
    byTurning = FADE * byTurning + (start - turned) / start;
    byExploring = FADE * byExploring + (turned - task.bestLength()) / start;
  }
}

/** The strip as the listed turns alone know it: with a best layout of its own, which is offered to the whole as well. */
function listedTask(task: ShrinkTask): ShrinkTask {
  const { layout } = task;
  const best = emptySnapshot(layout);
  restore(layout, task.best);
  // a layout that was turned before begins with the listed turns nearest to it; that these overlap does no harm to a start
  for (let i = 0; i < layout.items; i++) layout.pose[i] = nearestListed(layout, i);
  save(layout, best, 0);
  let length = task.bestLength();
  return {
    ...task,
    best,
    bestLength: () => length,
    keep() {
      const { low, high } = extentOf(layout);
      if (!(high - low < length)) return;
      length = high - low;
      save(layout, best, 0);
      for (let i = 0; i < layout.items; i++) best.x[i]! -= low;
      if (length < task.bestLength()) task.keep();
    },
  };
}

/** Where the pieces begin and end; with obstacles they cannot be moved to the start, so they begin there. */
function extentOf(layout: Layout): { low: number; high: number } {
  let low = layout.bodies > layout.items ? 0 : Infinity;
  let high = -Infinity;
  for (let i = 0; i < layout.items; i++) {
    const pose = layout.model.poses[layout.pose[i]!]!;
    if (layout.bodies === layout.items) low = Math.min(low, layout.x[i]! + pose.minX);
    high = Math.max(high, layout.x[i]! + pose.maxX);
  }
  return { low, high };
}

/** The listed pose of an item that is nearest to how it lies. */
function nearestListed(layout: Layout, item: number): number {
  const { poses, itemPoses } = layout.model;
  const present = poses[layout.pose[item]!]!;
  if (!present.isFree) return layout.pose[item]!;
  const off = (pose: number): number => {
    const other = poses[pose]!;
    const turn = Math.abs(other.turnDeg - present.turnDeg) % 360;
    return other.form === present.form ? Math.min(turn, 360 - turn) : Infinity;
  };
  return itemPoses[item]!.reduce((best, pose) => (off(pose) < off(best) ? pose : best));
}
