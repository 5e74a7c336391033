import type { Layout } from './layout.ts';
import { MOVE_SETTINGS, Mover, type MoveSettings } from './mover.ts';
import { type Random, shuffle } from './random.ts';
import { emptySnapshot, restore, type Snapshot, save } from './snapshot.ts';

/** Boards that an item may go to. */
export type BoardsOf = (item: number) => ArrayLike<number>;

/** How long a separation keeps trying. */
export interface SeparationSettings {
  /** Passes without a lower total that end a strike. */
  readonly stalledPasses: number;
  /** Strikes that end an attempt. */
  readonly strikes: number;
}

export const SEPARATION_SETTINGS: SeparationSettings = { stalledPasses: 100, strikes: 3 };

/** Growth of an overlapping pair's weight: LEAST + SPREAD * depth / deepest; decay of the others. */
const GROWTH_LEAST = 1.3;
const GROWTH_SPREAD = 0.7;
const DECAY = 0.95;
/** Evaluations that a separation counts as which cannot succeed because a piece is larger than its board. */
export const UNFIT_UNITS = 1000;
/** Weights are scaled back to 1 at this size; beyond it sums lose digits. */
const WEIGHT_LIMIT = 1e9;

/**
 * Moves overlapping pieces apart by guided local search: pass after pass over the overlapping pieces, with pair weights that
 * grow where overlap stays (Voudouris and Tsang; Egeblad, Nielsen and Odgaard 2007 for nesting; Umetani et al. 2009).
 */
export class Separator {
  readonly layout: Layout;
  readonly tolerance: number;
  readonly #random: Random;
  readonly #mover: Mover;
  readonly #order: Int32Array;
  readonly #best: Snapshot;
  readonly #shouldStop: () => boolean;

  constructor(
    layout: Layout,
    tolerance: number,
    random: Random,
    shouldStop: () => boolean,
    settings: MoveSettings = MOVE_SETTINGS,
  ) {
    this.layout = layout;
    this.tolerance = tolerance;
    this.#random = random;
    this.#mover = new Mover(layout, random, settings);
    this.#order = new Int32Array(layout.items);
    this.#best = emptySnapshot(layout);
    this.#shouldStop = shouldStop;
  }

  /** The layout of least total overlap seen by the last `separate`. */
  get best(): Snapshot {
    return this.#best;
  }

  /**
   * Try to separate everything; on success the layout is free of overlap beyond the tolerance, otherwise it is the best seen.
   * @param boardsOf - boards that an item may go to.
   */
  separate(boardsOf: BoardsOf, settings: SeparationSettings = SEPARATION_SETTINGS): boolean {
    const { layout, tolerance } = this;
    layout.weight.fill(1);
    let total = layout.total(tolerance);
    save(layout, this.#best, total);
    if (!layout.allFit()) {
      // Counted as work, so that a caller which keeps trying comes to the end of its budget.
      layout.evaluations += UNFIT_UNITS;
      return false;
    }
    if (total === 0) return true;
    for (let strike = 0; strike < settings.strikes; strike++) {
      const atStart = this.#best.total;
      let stalled = 0;
      while (stalled < settings.stalledPasses) {
        this.#pass(boardsOf);
        total = layout.total(tolerance);
        if (total === 0) {
          save(layout, this.#best, 0);
          return true;
        }
        if (total < this.#best.total) {
          if (total < 0.98 * this.#best.total) stalled = 0;
          save(layout, this.#best, total);
        } else stalled++;
        if (this.#shouldStop()) {
          restore(layout, this.#best);
          return false;
        }
        this.#reweigh();
      }
      if (this.#best.total < 0.98 * atStart) strike = -1;
      restore(layout, this.#best);
    }
    return false;
  }

  /** One pass: each overlapping piece, in random order, looks for a better place. */
  #pass(boardsOf: BoardsOf): void {
    const { layout, tolerance } = this;
    let count = 0;
    for (let i = 0; i < layout.items; i++) if (layout.worst(i) > tolerance) this.#order[count++] = i;
    shuffle(this.#order, count, this.#random);
    for (let k = 0; k < count; k++) {
      const item = this.#order[k]!;
      // asked for every piece: with many different parts the fields of one move alone may take a second to make
      if (this.#shouldStop()) break;
      if (layout.worst(item) <= tolerance) continue;
      this.#mover.improve(item, boardsOf(item));
    }
    layout.model.trim();
  }

  #reweigh(): void {
    const { layout, tolerance } = this;
    if (layout.boards.length > 1) {
      this.#reweighByBoard();
      return;
    }
    const n = layout.bodies;
    const { depth, weight } = layout;
    let deepest = 0;
    for (let i = 0; i < layout.items; i++) {
      const row = i * n;
      for (let j = i + 1; j < n; j++) if (depth[row + j]! > deepest) deepest = depth[row + j]!;
    }
    if (deepest === 0) return;
    let largest = 0;
    for (let i = 0; i < layout.items; i++) {
      const row = i * n;
      for (let j = i + 1; j < n; j++) {
        const d = depth[row + j]!;
        let w = weight[row + j]!;
        if (d > tolerance) w *= GROWTH_LEAST + (GROWTH_SPREAD * d) / deepest;
        else if (w > 1) w = Math.max(1, w * DECAY);
        else continue;
        if (w > largest) largest = w;
        weight[row + j] = w;
        weight[j * n + i] = w;
      }
    }
    this.#limitWeights(largest);
  }

  /** The same for pairs that share a board: with many boards they are few among all pairs. */
  #reweighByBoard(): void {
    const { layout, tolerance } = this;
    const n = layout.bodies;
    const { depth, weight } = layout;
    let deepest = 0;
    for (const list of layout.members) {
      for (const i of list) for (const j of list) if (depth[i * n + j]! > deepest) deepest = depth[i * n + j]!;
    }
    if (deepest === 0) return;
    let largest = 0;
    for (const list of layout.members) {
      for (let a = 0; a < list.length; a++) {
        const i = list[a]!;
        for (let b = a + 1; b < list.length; b++) {
          const j = list[b]!;
          const d = depth[i * n + j]!;
          let w = weight[i * n + j]!;
          if (d > tolerance) w *= GROWTH_LEAST + (GROWTH_SPREAD * d) / deepest;
          else if (w > 1) w = Math.max(1, w * DECAY);
          else continue;
          if (w > largest) largest = w;
          weight[i * n + j] = w;
          weight[j * n + i] = w;
        }
      }
    }
    this.#limitWeights(largest);
  }

  #limitWeights(largest: number): void {
    if (largest <= WEIGHT_LIMIT) return;
    const { weight } = this.layout;
    for (let k = 0; k < weight.length; k++) weight[k] = Math.max(1, weight[k]! / WEIGHT_LIMIT);
  }
}
