import { RasterSearch } from './raster-search.ts';
import { rasterFor } from './raster-space.ts';
import { SEPARATION_SETTINGS, type SeparationSettings } from './separator.ts';
import { emptySnapshot, restore, type Snapshot, save } from './snapshot.ts';
import { disturb } from './strip-disturb.ts';
import type { ShrinkTask } from './strip-task.ts';
import { Ways } from './strip-ways.ts';

/** Relative shrink after a success. */
const SHRINK = 0.005;
/** Shrink of the first attempts; halved after each failure down to the usual one. */
const FIRST_SHRINK = 0.04;
/** Near misses kept to start again from. */
const POOL = 10;

/** Passes without gain on the raster: for an attempt of its own, and to make a start for the separation. */
const LONG_RASTER = 100;
const SHORT_RASTER = 20;
/** The separation off the raster: of a promising miss, and of a start from the raster. */
const FINISH: SeparationSettings = { stalledPasses: 30, strikes: 1 };
const FROM_RASTER: SeparationSettings = { stalledPasses: 60, strikes: 1 };
/** A miss on the raster is promising when no more than this many of the pool are better. */
const PROMISING = 2;

/**
 * Ways to attempt a length: the separation alone; from a start made on the raster; the raster at length, with the separation for
 * promising misses only. The last pays where the pieces have a lattice of their own, the second where they have none.
 */
const ALONE = 0;
const CREDITS_NO_RASTER = [1];
const CREDITS_RASTER = [1, 1];
const CREDITS_LATTICE = [0.3, 1];

const STRIP = [0];
const onlyStrip = () => STRIP;

/**
 * Look for shorter layouts: shrink after each success; after a failure disturb a near miss from a pool and try again.
 * What it has learnt (tables, ways that paid) is kept between two calls of `run`.
 */
export class Explorer {
  readonly #task: ShrinkTask;
  readonly #raster: RasterSearch | null;
  readonly #ways: Ways;
  #shrink = FIRST_SHRINK;

  constructor(task: ShrinkTask) {
    const { layout, random, separator } = task;
    const space = rasterFor(layout, task.height, task.bestLength(), separator.tolerance);
    this.#task = task;
    this.#raster = space === null ? null : new RasterSearch(layout, space, random);
    this.#ways = new Ways(
      space === null ? CREDITS_NO_RASTER : space.isLattice ? CREDITS_LATTICE : CREDITS_RASTER,
      random,
    );
  }

  /** Explore until that share of the budget is spent; the layout is left anywhere, the best is in the task. */
  run(until: number): void {
    const { layout, meter, random, bound, best } = this.#task;
    const isOver = () => meter.isOver() || meter.share >= until;
    while (!isOver()) {
      const pool: Snapshot[] = [];
      restore(layout, best);
      this.#task.setLength(Math.max(bound, this.#task.bestLength() * (1 - this.#shrink)));
      while (!isOver()) {
        const before = layout.evaluations;
        const way = this.#ways.next();
        const total = this.#attempt(way, pool);
        this.#ways.tell(way, layout.evaluations - before, total === 0);
        if (total === 0) {
          this.#task.keep();
          break;
        }
        if (this.#shrink > SHRINK) {
          this.#shrink = Math.max(SHRINK, this.#shrink / 2);
          break;
        }
        const miss = emptySnapshot(layout);
        save(layout, miss, total);
        pool.push(miss);
        pool.sort((a, b) => a.total - b.total);
        if (pool.length > POOL) pool.pop();
        restore(layout, pool[Math.floor(pool.length * random() ** 2)]!);
        disturb(layout, random);
      }
    }
  }

  /** One attempt at the present length; the layout is then the best seen, and its total overlap is returned. */
  #attempt(way: number, pool: readonly Snapshot[]): number {
    const { layout, separator, meter } = this.#task;
    const raster = this.#raster;
    if (way === ALONE || raster === null) {
      return separator.separate(onlyStrip, SEPARATION_SETTINGS) ? 0 : separator.best.total;
    }
    const { isLattice } = raster.space;
    raster.separate(isLattice ? LONG_RASTER : SHORT_RASTER, meter.isOver);
    layout.refreshAll();
    const total = layout.total(separator.tolerance);
    const isPromising = pool.length <= PROMISING || total < pool[PROMISING]!.total;
    if ((total === 0 && layout.allFit()) || (isLattice && !isPromising)) return total;
    return separator.separate(onlyStrip, isLattice ? FINISH : FROM_RASTER) ? 0 : separator.best.total;
  }
}
