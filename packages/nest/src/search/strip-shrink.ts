import { StripTurner } from '../turn/strip-turns.ts';
import type { SeparationSettings } from './separator.ts';
import { restore } from './snapshot.ts';
import { Explorer } from './strip-explore.ts';
import type { ShrinkTask } from './strip-task.ts';

/** Shares of the budget after which the search compresses its best layout instead of exploring. */
const COMPRESS_FROM = [0.8, 0.95];
const COMPRESS_FIRST = 5e-4;
const COMPRESS_LAST = 1e-5;
/** With pieces that may turn freely: share of the budget up to which listed turns are explored. */
const EXPLORE_LISTED = 0.4;
const SETTLING: SeparationSettings = { stalledPasses: 60, strikes: 2 };
const STRIP = [0];
const onlyStrip = () => STRIP;

/**
 * Explore for most of the budget, then compress: small steps from the best layout. What compressing leaves goes to exploring again.
 * Pieces that may turn freely do so for the last part, after the listed turns were explored.
 */
export function shrinkStrip(task: ShrinkTask): void {
  const { meter } = task;
  const explorer = new Explorer(task);
  if (task.layout.model.isFreeToTurn.includes(1)) {
    explorer.run(EXPLORE_LISTED);
    new StripTurner(task).run(1);
    return;
  }
  for (const share of COMPRESS_FROM) {
    explorer.run(share);
    compress(task, SETTLING, COMPRESS_FIRST, 1);
  }
  if (!meter.isOver()) explorer.run(1);
}

/** Shorten the best layout in small steps, halving them on failure, up to a share of the budget. */
function compress(task: ShrinkTask, settings: SeparationSettings, first: number, until: number): void {
  const { layout, separator, meter } = task;
  let step = first;
  while (!meter.isOver() && meter.share < until && step >= COMPRESS_LAST) {
    restore(layout, task.best);
    task.setLength(Math.max(task.bound, task.bestLength() * (1 - step)));
    if (separator.separate(onlyStrip, settings)) {
      task.keep();
      step = Math.min(first, step * 1.3);
    } else step *= 0.7;
  }
}
