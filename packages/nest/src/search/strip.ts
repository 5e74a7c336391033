import { Layout } from './layout.ts';
import { Meter } from './meter.ts';
import { Model } from './model.ts';
import { type Random, seededRandom } from './random.ts';
import { SEPARATION_SETTINGS, Separator } from './separator.ts';
import { clampAll, emptySnapshot, restore, save, type Snapshot } from './snapshot.ts';
import { spotsOf } from './spots.ts';
import type { SearchBudget, SearchEnd, SearchHooks, SearchInput, Spot } from './task.ts';

/** Pieces on a strip of given height, as short as possible. */
export interface StripInput extends SearchInput {
  readonly height: number;
}

export interface StripResult {
  /** Shortest length reached; Infinity when nothing valid was found. */
  readonly length: number;
  readonly spots: readonly Spot[];
  readonly evaluations: number;
  readonly endedBy: SearchEnd;
}

const FIRST_DENSITY = 0.7;
const SHRINK = 0.005;
const POOL = 10;
const STRIP = [0];
const onlyStrip = () => STRIP;
/** Share of the budget after which the search compresses its best layout instead of exploring. */
const COMPRESS_FROM = 0.8;

/**
 * Shortest strip by separation at ever shorter lengths: after a success the strip shrinks; after a failure a layout from
 * the pool of near misses is disturbed by exchanging two large pieces and tried again; the end of the budget compresses the
 * best layout in small steps.
 */
export function packStrip(input: StripInput, budget: SearchBudget, hooks: SearchHooks): StripResult {
  const model = new Model(input, []);
  const strip = (length: number) => ({ minX: 0, minY: 0, maxX: length, maxY: input.height, obstacles: [], price: 1 });
  const layout = new Layout(model, [strip(1)], []);
  const random = seededRandom(hooks.seed);
  let area = 0;
  let least = 0;
  for (let i = 0; i < layout.items; i++) {
    const poses = [...model.itemPoses[i]!].map((pose) => model.poses[pose]!);
    area += model.forms[poses[0]!.form]!.area;
    const widths = poses.filter((p) => p.maxY - p.minY <= input.height * (1 + 1e-9)).map((p) => p.maxX - p.minX);
    if (widths.length === 0) throw new Error(`item ${i} is higher than the strip in every pose`);
    least = Math.max(least, Math.min(...widths));
  }
  const bound = Math.max(least, area / input.height);

  const meter = new Meter(layout, budget, hooks);
  const shouldStop = meter.isOver;
  const separator = new Separator(layout, input.tolerance, random, shouldStop);

  const best = emptySnapshot(layout);
  let bestLength = Infinity;
  const keep = (): void => {
    const used = usedLength(layout);
    if (used < bestLength) {
      bestLength = used;
      save(layout, best, 0);
      hooks.onBetter?.(spotsOf(layout), used, layout.evaluations);
    }
  };

  let length = Math.max(bound, area / input.height / FIRST_DENSITY);
  const setLength = (next: number): void => {
    length = next;
    layout.boards[0] = strip(next);
    clampAll(layout);
    layout.refreshAll();
  };
  layout.boards[0] = strip(length);
  scatter(layout, random);
  setLength(length);

  // A first valid layout.
  while (!separator.separate(onlyStrip)) {
    if (shouldStop()) return { length: bestLength, spots: [], evaluations: layout.evaluations, endedBy: meter.ended ?? 'settled' };
    setLength(length * 1.05);
  }
  keep();

  const pool: Snapshot[] = [];
  while (!shouldStop() && meter.share < COMPRESS_FROM) {
    if (bestLength <= bound * (1 + 1e-9)) break;
    pool.length = 0;
    setLength(Math.max(bound, bestLength * (1 - SHRINK)));
    for (;;) {
      if (separator.separate(onlyStrip, SEPARATION_SETTINGS)) {
        keep();
        break;
      }
      if (shouldStop() || meter.share >= COMPRESS_FROM) break;
      const miss = emptySnapshot(layout);
      save(layout, miss, separator.best.total);
      pool.push(miss);
      pool.sort((a, b) => a.total - b.total);
      if (pool.length > POOL) pool.pop();
      const pick = pool[Math.floor(pool.length * random() ** 2)]!;
      restore(layout, pick);
      exchangeLarge(layout, random);
    }
  }

  // Compress the best.
  let step = 5e-4;
  while (!shouldStop() && step >= 1e-5) {
    restore(layout, best);
    setLength(Math.max(bound, bestLength * (1 - step)));
    if (separator.separate(onlyStrip, { stalledPasses: 60, strikes: 2 })) keep();
    else step *= 0.7;
    if (bestLength <= bound * (1 + 1e-9)) break;
  }
  restoreWith(layout, best, strip(bestLength));
  return { length: bestLength, spots: spotsOf(layout), evaluations: layout.evaluations, endedBy: meter.ended ?? 'settled' };
}

function restoreWith(layout: Layout, from: Snapshot, board: Layout['boards'][number]): void {
  layout.boards[0] = board;
  restore(layout, from);
}

/** Extent in x of the layout; it is also moved to start at 0. */
function usedLength(layout: Layout): number {
  let low = Infinity;
  let high = -Infinity;
  for (let i = 0; i < layout.items; i++) {
    const pose = layout.model.poses[layout.pose[i]!]!;
    low = Math.min(low, layout.x[i]! + pose.minX);
    high = Math.max(high, layout.x[i]! + pose.maxX);
  }
  for (let i = 0; i < layout.items; i++) layout.x[i]! -= low;
  return high - low;
}

function scatter(layout: Layout, random: Random): void {
  const place = layout.boards[0]!;
  for (let i = 0; i < layout.items; i++) {
    const poses = layout.model.itemPoses[i]!;
    const pose = poses[(random() * poses.length) | 0]!;
    layout.put(i, 0, pose, place.minX + random() * (place.maxX - place.minX), place.minY + random() * (place.maxY - place.minY));
  }
}

/** Exchange the places of two unlike pieces among the larger ones. */
function exchangeLarge(layout: Layout, random: Random): void {
  const model = layout.model;
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
