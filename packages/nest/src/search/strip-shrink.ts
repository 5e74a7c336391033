import type { Layout } from './layout.ts';
import type { Meter } from './meter.ts';
import type { Random } from './random.ts';
import { SEPARATION_SETTINGS, type SeparationSettings, type Separator } from './separator.ts';
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
/** With pieces that may turn freely: shares of the budget up to which listed turns are explored and compressed. */
const EXPLORE_LISTED = 0.5;
const TURN_FROM = 0.6;
const TURN_FIRST = 3e-3;
const STRIP = [0];
const onlyStrip = () => STRIP;

/**
 * Explore: shrink after each success; after a failure disturb a near miss from the pool by exchanging two large pieces.
 * Compress, for the last fifth of the budget: small steps from the best layout.
 */
export function shrinkStrip(task: ShrinkTask): void {
  const { layout, separator, meter, random, bound } = task;
  const exploreUntil = layout.model.isFreeToTurn.includes(1) ? EXPLORE_LISTED : COMPRESS_FROM;
  const pool: Snapshot[] = [];
  while (!meter.isOver() && meter.share < exploreUntil) {
    pool.length = 0;
    task.setLength(Math.max(bound, task.bestLength() * (1 - SHRINK)));
    for (;;) {
      if (separator.separate(onlyStrip, SEPARATION_SETTINGS)) {
        task.keep();
        break;
      }
      if (meter.isOver() || meter.share >= exploreUntil) break;
      const miss = emptySnapshot(layout);
      save(layout, miss, separator.best.total);
      pool.push(miss);
      pool.sort((a, b) => a.total - b.total);
      if (pool.length > POOL) pool.pop();
      restore(layout, pool[Math.floor(pool.length * random() ** 2)]!);
      disturb(task);
    }
  }
  const turning = layout.model.isFreeToTurn.includes(1);
  compress(task, { stalledPasses: 60, strikes: 2 }, COMPRESS_FIRST, turning ? TURN_FROM : 1);
  if (turning) compress(task, { stalledPasses: 40, strikes: 1, isTurning: true }, TURN_FIRST, 1);
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

/** Shares of the kinds of disturbance: one exchange, a few exchanges, everything anew. */
const ONE_EXCHANGE = 0.6;
const FEW_EXCHANGES = 0.85;
/** Scattering all pays for few pieces only; above this many it is done a fifth as often. */
const FEW_PIECES = 40;

/** Leave a near miss: exchange large pieces once or a few times, or scatter all pieces. */
function disturb(task: ShrinkTask): void {
  const { layout, random } = task;
  const kind = random();
  const scatterFrom = layout.items <= FEW_PIECES ? FEW_EXCHANGES : 1 - (1 - FEW_EXCHANGES) / 5;
  if (kind < scatterFrom) {
    const times = kind < ONE_EXCHANGE ? 1 : 2 + ((random() * 3) | 0);
    for (let k = 0; k < times; k++) exchangeLarge(layout, random);
  } else scatterAll(layout, random);
  clampAll(layout);
  layout.refreshAll();
}

/** Put every piece at a random place in a random pose. */
export function scatterAll(layout: Layout, random: Random): void {
  const place = layout.boards[0]!;
  for (let i = 0; i < layout.items; i++) {
    const poses = layout.model.itemPoses[i]!;
    const pose = poses[(random() * poses.length) | 0]!;
    layout.put(i, 0, pose, random() * place.maxX, random() * place.maxY);
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
}
