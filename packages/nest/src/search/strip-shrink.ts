import type { Layout } from './layout.ts';
import type { Meter } from './meter.ts';
import type { Random } from './random.ts';
import { SEPARATION_SETTINGS, type Separator } from './separator.ts';
import { clampAll, emptySnapshot, restore, type Snapshot, save } from './snapshot.ts';

export interface ShrinkTask {
  readonly layout: Layout;
  readonly separator: Separator;
  readonly meter: Meter;
  readonly random: Random;
  /** The best valid layout so far; `keep` updates it. */
  readonly best: Snapshot;
  readonly bound: number;
  readonly setLength: (length: number) => void;
  readonly keep: () => void;
  readonly bestLength: () => number;
}

/** First shrink after a success, relative; later ones are smaller. */
const SHRINK = 0.005;
const POOL = 10;
/** Share of the budget after which the search compresses its best layout instead of exploring. */
const COMPRESS_FROM = 0.8;
const COMPRESS_FIRST = 5e-4;
const COMPRESS_LAST = 1e-5;
const STRIP = [0];
const onlyStrip = () => STRIP;

/**
 * Explore: shrink after each success; after a failure disturb a near miss from the pool by exchanging two large pieces.
 * Compress, for the last fifth of the budget: small steps from the best layout.
 */
export function shrinkStrip(task: ShrinkTask): void {
  const { layout, separator, meter, random, best, bound } = task;
  const pool: Snapshot[] = [];
  while (!meter.isOver() && meter.share < COMPRESS_FROM) {
    pool.length = 0;
    task.setLength(Math.max(bound, task.bestLength() * (1 - SHRINK)));
    for (;;) {
      if (separator.separate(onlyStrip, SEPARATION_SETTINGS)) {
        task.keep();
        break;
      }
      if (meter.isOver() || meter.share >= COMPRESS_FROM) break;
      const miss = emptySnapshot(layout);
      save(layout, miss, separator.best.total);
      pool.push(miss);
      pool.sort((a, b) => a.total - b.total);
      if (pool.length > POOL) pool.pop();
      restore(layout, pool[Math.floor(pool.length * random() ** 2)]!);
      exchangeLarge(layout, random);
    }
  }
  let step = COMPRESS_FIRST;
  while (!meter.isOver() && step >= COMPRESS_LAST) {
    restore(layout, best);
    task.setLength(Math.max(bound, task.bestLength() * (1 - step)));
    if (separator.separate(onlyStrip, { stalledPasses: 60, strikes: 2 })) task.keep();
    else step *= 0.7;
  }
}

/** Exchange the places of two unlike pieces among the larger half. */
function exchangeLarge(layout: Layout, random: Random): void {
  const { model } = layout;
  const areaOf = (i: number) => model.forms[model.poses[layout.pose[i]!]!.form]!.area;
  const order = Array.from({ length: layout.items }, (_, i) => i).sort((a, b) => areaOf(b) - areaOf(a) || a - b);
  const large = order.slice(0, Math.max(2, Math.ceil(order.length / 2)));
  for (let tries = 0; tries < 20; tries++) {
    const a = large[(random() * large.length) | 0]!;
    const b = large[(random() * large.length) | 0]!;
    if (a === b || model.itemPoses[a] === model.itemPoses[b]) continue;
    const [ax, ay] = [layout.x[a]!, layout.y[a]!];
    layout.put(a, 0, layout.pose[a]!, layout.x[b]!, layout.y[b]!);
    layout.put(b, 0, layout.pose[b]!, ax, ay);
    break;
  }
  clampAll(layout);
  layout.refreshAll();
}
