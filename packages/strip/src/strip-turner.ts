import { disturb } from '@underlap/nest/search/disturb';
import { SEPARATION_SETTINGS, type SeparationSettings } from '@underlap/nest/search/separator';
import { emptySnapshot, restore, type Snapshot, save } from '@underlap/nest/search/snapshot';
import { Compaction } from '@underlap/nest/turn/turn-compaction';
import { TurnForms } from '@underlap/nest/turn/turn-forms';
import { TurnSeparator } from '@underlap/nest/turn/turn-separator';
import { type TurnSnapshot, TurnState } from '@underlap/nest/turn/turn-state';
import type { ShrinkTask } from './strip-task.ts';
import { disturbTurned } from './turn-disturb.ts';
import { Ways } from './ways.ts';

/** An attempt over listed turns before all pieces are turned. */
const LISTED: SeparationSettings = { ...SEPARATION_SETTINGS, stalledPasses: 60, strikes: 1 };
/** Listed layouts are separated at the best listed length less up to this share, turned ones at the best length less that. */
const LISTED_SQUEEZE = 0.012;
const TURNED_SQUEEZE = 0.02;
const LEAST_SQUEEZE = 0.1;
const STALLED_PASSES = 15;
/** Total overlap, as a share of the strip's height, that is left to the compaction. */
const ENOUGH = 1e-3;
/** Near misses kept to start again from. */
const POOL = 10;
/** Lengths up to the best and this share more are compacted to the end. */
const NEAR = 0.002;

/** Ways to make a layout that is then compacted: separated over listed turns, over all turns, over all turns after a disturbance. */
const OVER_LISTED = 0;
const DISTURBED = 2;
const CREDITS = [1, 1, 1];

const STRIP = [0];
const onlyStrip = () => STRIP;

/**
 * Shortens a strip with pieces that may turn freely. Layouts with little overlap (from the listed turns, or by guided local search
 * over turns) are compacted: all pieces move and turn at once. What comes out counts when no-fit polygons at its turns agree.
 */
export class StripTurner {
  readonly #task: ShrinkTask;
  readonly #state: TurnState;
  readonly #separator: TurnSeparator;
  readonly #compaction: Compaction;
  readonly #ways: Ways;
  readonly #listed: ShrinkTask;
  #listedPool: Snapshot[] = [];
  /** Listed length that was compacted last. */
  #compactedLength = Infinity;
  readonly #turnedPool: TurnSnapshot[] = [];
  readonly #best: TurnSnapshot;

  /** @param listed - the same strip over listed turns alone, whose layouts are turned on. */
  constructor(task: ShrinkTask, listed: ShrinkTask) {
    const { layout, random, meter, separator } = task;
    this.#listed = listed;
    this.#task = task;
    this.#state = new TurnState(layout, new TurnForms(layout.model));
    this.#separator = new TurnSeparator(this.#state, random, meter.isOver);
    this.#compaction = new Compaction(this.#state, separator.tolerance, meter.isOver);
    this.#ways = new Ways(CREDITS, random);
    restore(layout, task.best);
    this.#state.load();
    this.#best = this.#state.snapshot();
    this.#state.save(this.#best, 0);
  }

  /** Compact the best listed layout, if it is a new one. */
  turnListed(): void {
    const { layout, meter } = this.#task;
    const length = this.#listed.bestLength();
    if (meter.isOver() || length >= this.#compactedLength) return;
    this.#compactedLength = length;
    this.#listedPool = [];
    this.#setLength(length);
    restore(layout, this.#listed.best);
    this.#state.load();
    this.#compact(length);
  }

  /** Turn until that share of the budget is spent. */
  run(until: number): void {
    const { layout, meter, random } = this.#task;
    const isOver = () => meter.isOver() || meter.share >= until || this.#task.bestLength() <= this.#task.bound;
    while (!isOver()) {
      const before = layout.evaluations;
      const way = this.#ways.next();
      const share = LEAST_SQUEEZE + (1 - LEAST_SQUEEZE) * random();
      const isBetter = way === OVER_LISTED ? this.#overListed(share) : this.#overTurned(share, way === DISTURBED);
      this.#ways.tell(way, layout.evaluations - before, isBetter);
    }
  }

  /** Separate listed poses at a length that is too short for them, then turn. */
  #overListed(share: number): boolean {
    const { layout, separator, random } = this.#task;
    const pool = this.#listedPool;
    const length = this.#listed.bestLength() * (1 - LISTED_SQUEEZE * share);
    this.#setLength(length);
    if (pool.length === 0 || random() < 0.3) restore(layout, this.#listed.best);
    else restore(layout, pool[Math.floor(pool.length * random() ** 2)]!);
    if (pool.length > 0) disturb(layout, random);
    separator.separate(onlyStrip, LISTED);
    const miss = emptySnapshot(layout);
    save(layout, miss, separator.best.total);
    remember(pool, miss);
    this.#state.load();
    return this.#compact(length);
  }

  /** Separate over places and turns, from the best layout or a near miss. */
  #overTurned(share: number, isDisturbed: boolean): boolean {
    const { random, height, separator } = this.#task;
    const state = this.#state;
    const pool = this.#turnedPool;
    const length = this.#task.bestLength() * (1 - TURNED_SQUEEZE * share);
    this.#setLength(length);
    if (pool.length === 0 || !isDisturbed || random() < 0.5) state.restore(this.#best);
    else state.restore(pool[Math.floor(pool.length * random() ** 2)]!);
    if (isDisturbed) disturbTurned(state, random);
    state.clampAll();
    const total = this.#separator.separate(ENOUGH * height, separator.tolerance, STALLED_PASSES);
    const miss = state.snapshot();
    state.save(miss, total);
    remember(pool, miss);
    return this.#compact(length);
  }

  /** Compact what the state holds. @returns whether a shorter valid layout came out, which is then kept. */
  #compact(length: number): boolean {
    const { layout, separator } = this.#task;
    const best = this.#task.bestLength();
    const found = this.#compaction.strip(length, (to) => this.#setLength(to), best * (1 + NEAR));
    if (!(found.length < best) || found.deepest > separator.tolerance) return false;
    this.#setLength(found.length);
    this.#state.store();
    if (layout.total(separator.tolerance) > 0 || !layout.allFit()) return false;
    this.#task.keep();
    if (!(this.#task.bestLength() < best)) return false;
    this.#state.save(this.#best, 0);
    layout.model.trim();
    return true;
  }

  #setLength(length: number): void {
    const { layout } = this.#task;
    layout.boards[0] = { ...layout.boards[0]!, maxX: length };
  }
}

function remember(pool: { total: number }[], miss: { total: number }): void {
  pool.push(miss);
  pool.sort((a, b) => a.total - b.total);
  if (pool.length > POOL) pool.pop();
}
