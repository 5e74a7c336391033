import type { SeparationSettings } from '@underlap/nest/search/separator';
import { restore } from '@underlap/nest/search/snapshot';
import { Explorer } from './explore.ts';
import type { ShrinkTask } from './strip-task.ts';
import { turnStrip } from './turn-strip.ts';

/** Shares of the budget after which the search compresses its best layout instead of exploring. */
const COMPRESS_FROM = [0.8, 0.95];
const COMPRESS_FIRST = 5e-4;
const COMPRESS_LAST = 1e-5;
const SETTLING: SeparationSettings = { stalledPasses: 60, strikes: 2 };
const STRIP = [0];
const onlyStrip = () => STRIP;

/**
 * Explore for most of the budget, then compress: small steps from the best layout. What compressing leaves goes to exploring again.
 * With pieces that may turn freely, exploring and turning take turns.
 */
export function shrinkStrip(task: ShrinkTask): void {
  const { meter } = task;
  if (task.layout.model.isFreeToTurn.includes(1)) {
    turnStrip(task);
    return;
  }
  const explorer = new Explorer(task);
  for (const share of COMPRESS_FROM) {
    explorer.run(share);
    compress(task);
  }
  if (!meter.isOver()) explorer.run(1);
}

/** Shorten the best layout in small steps, halving them on failure. */
function compress(task: ShrinkTask): void {
  const { layout, separator, meter } = task;
  let step = COMPRESS_FIRST;
  while (!meter.isOver() && step >= COMPRESS_LAST) {
    restore(layout, task.best);
    task.setLength(Math.max(task.bound, task.bestLength() * (1 - step)));
    if (separator.separate(onlyStrip, SETTLING)) {
      task.keep();
      step = Math.min(COMPRESS_FIRST, step * 1.3);
    } else step *= 0.7;
  }
}
