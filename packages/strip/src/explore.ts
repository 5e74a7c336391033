import { disturb } from '@underlap/nest/search/disturb';
import { SEPARATION_SETTINGS, type SeparationSettings } from '@underlap/nest/search/separator';
import { emptySnapshot, restore, type Snapshot, save } from '@underlap/nest/search/snapshot';
import { RasterSearch } from './raster-search.ts';
import { rasterFor } from './raster-space.ts';
import type { ShrinkTask } from './strip-task.ts';
import { Ways } from './ways.ts';

/** Relative shrink after a success. */
const SHRINK = 0.005;
/** Shrink of the first attempts; halved after each failure down to the usual one. */
const FIRST_SHRINK = 0.04;
/** Near misses kept to start again from. */
const POOL = 10;

/** Passes without gain on the raster: for an attempt of its own, and to make a start for the separation. */
const LONG_RASTER = 150;
const SHORT_RASTER = 60;
/** The separation off the raster: of a promising miss, and of a start from the raster. */
const FINISH: SeparationSettings = { stalledPasses: 30, strikes: 1 };
const FROM_RASTER: SeparationSettings = { stalledPasses: 60, strikes: 1 };
/** A miss on the raster is promising when no more than this many of the pool are as good. */
const PROMISING = 0;

/**
 * Ways to attempt a length: the separation alone; from a start made on the raster; the raster at length, with the separation for
 * promising misses only. The last pays where the pieces have a lattice of their own, the second where they have none.
 */
const ALONE = 0;
const CREDITS_NO_RASTER = [1];
const CREDITS_RASTER = [1, 1];
const CREDITS_LATTICE = [0.4, 1];

const STRIP = [0];
const onlyStrip = () => STRIP;

/**
 * Look for shorter layouts: shrink after each success; after a failure disturb a near miss from a pool and try again.
 * What it has learnt (tables, ways that paid) is kept between two calls of `run`.
 */
export class Explorer {
  readonly #task: ShrinkTask;
  readonly #raster: RasterSearch | null;
  readonly #credits: readonly number[];
  readonly #choice: Ways;
  #shrink = FIRST_SHRINK;

  constructor(task: ShrinkTask) {
    const { layout, random, separator } = task;
    const space = rasterFor(layout, task.height, task.bestLength(), separator.tolerance);
    this.#task = task;
    this.#raster = space === null ? null : new RasterSearch(layout, space, random);
    this.#credits = space === null ? CREDITS_NO_RASTER : space.isLattice ? CREDITS_LATTICE : CREDITS_RASTER;
    this.#choice = new Ways(this.#credits, random);
  }

  /** Explore until that share of the budget is spent; the layout is left anywhere, the best is in the task. */
  run(until: number): void {
    const { layout, meter, random, bound, best } = this.#task;
    const isOver = () => meter.isOver() || meter.share >= until;
    while (!isOver()) {
      // Each way keeps its own near misses: what one finds off the raster is of no use on it.
      const pools = this.#credits.map((): Snapshot[] => []);
      restore(layout, best);
      this.#task.setLength(Math.max(bound, this.#task.bestLength() * (1 - this.#shrink)));
      while (!isOver()) {
        const before = layout.evaluations;
        const way = this.#choice.next();
        const pool = pools[way]!;
        if (pool.length > 0) {
          restore(layout, pool[Math.floor(pool.length * random() ** 2)]!);
          disturb(layout, random);
        }
        const isSolved = this.#attempt(way, pool);
        this.#choice.tell(way, layout.evaluations - before, isSolved);
        if (isSolved) {
          this.#task.keep();
          break;
        }
        if (this.#shrink > SHRINK) {
          this.#shrink = Math.max(SHRINK, this.#shrink / 2);
          break;
        }
      }
    }
  }

  /** One attempt at the present length: true = solved, as the layout now is; otherwise a near miss goes to the pool. */
  #attempt(way: number, pool: Snapshot[]): boolean {
    const { layout, separator, meter } = this.#task;
    const raster = this.#raster;
    if (way === ALONE || raster === null) return this.#separate(SEPARATION_SETTINGS, pool);
    const { isLattice } = raster.space;
    raster.separate(isLattice ? LONG_RASTER : SHORT_RASTER, meter.isOver);
    layout.refreshAll();
    const total = layout.total(separator.tolerance);
    if (total === 0 && layout.allFit()) return true;
    if (!isLattice) return this.#separate(FROM_RASTER, pool);
    const isPromising = pool.length <= PROMISING || total < pool[PROMISING]!.total;
    this.#remember(pool, total);
    return isPromising && separator.separate(onlyStrip, FINISH);
  }

  #separate(settings: SeparationSettings, pool: Snapshot[]): boolean {
    const { separator } = this.#task;
    if (separator.separate(onlyStrip, settings)) return true;
    this.#remember(pool, separator.best.total);
    return false;
  }

  #remember(pool: Snapshot[], total: number): void {
    const { layout } = this.#task;
    const miss = emptySnapshot(layout);
    save(layout, miss, total);
    pool.push(miss);
    pool.sort((a, b) => a.total - b.total);
    if (pool.length > POOL) pool.pop();
  }
}
