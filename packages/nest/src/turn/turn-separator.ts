import { type Random, shuffle } from '../search/random.ts';
import type { BoardsOf } from '../search/separator.ts';
import { TURN_MOVES, TurnMover, type TurnMoveSettings } from './turn-mover.ts';
import type { TurnSnapshot, TurnState } from './turn-state.ts';

/** Growth of an overlapping pair's weight: LEAST + SPREAD * depth / deepest; decay of the others. */
const GROWTH_LEAST = 1.3;
const GROWTH_SPREAD = 0.7;
const DECAY = 0.95;

/** Guided local search over places and turns, as `Separator` does over listed poses. */
export class TurnSeparator {
  readonly #state: TurnState;
  readonly #random: Random;
  readonly #mover: TurnMover;
  readonly #order: Int32Array;
  readonly #shouldStop: () => boolean;
  /** The layout of least overlap seen by the last `separate`. */
  readonly best: TurnSnapshot;

  constructor(state: TurnState, random: Random, shouldStop: () => boolean, settings: TurnMoveSettings = TURN_MOVES) {
    this.#state = state;
    this.#random = random;
    this.#mover = new TurnMover(state, random, settings);
    this.#order = new Int32Array(state.items);
    this.#shouldStop = shouldStop;
    this.best = state.snapshot();
  }

  /**
   * Lessen the overlap of everything until it is no more than `enough`, or nothing was gained for some passes.
   * @param boardsOf - boards that an item may go to; left out = each stays on its own.
   * @returns the least total; the state holds the best layout seen.
   */
  separate(enough: number, tolerance: number, stalledPasses: number, boardsOf?: BoardsOf): number {
    const state = this.#state;
    state.weight.fill(1);
    state.refreshAll();
    let total = state.total(tolerance);
    state.save(this.best, total);
    let stalled = 0;
    while (total > enough && stalled < stalledPasses && !this.#shouldStop()) {
      this.#pass(tolerance, boardsOf);
      total = state.total(tolerance);
      if (total < this.best.total) {
        if (total < 0.98 * this.best.total) stalled = 0;
        state.save(this.best, total);
      } else stalled++;
      this.#reweigh(tolerance);
    }
    if (total > this.best.total) state.restore(this.best);
    return this.best.total;
  }

  /** Each overlapping piece, in random order, looks for a better place. */
  #pass(tolerance: number, boardsOf: BoardsOf | undefined): void {
    const state = this.#state;
    let count = 0;
    for (let i = 0; i < state.items; i++) if (state.worst(i) > tolerance) this.#order[count++] = i;
    shuffle(this.#order, count, this.#random);
    for (let k = 0; k < count; k++) {
      if (this.#shouldStop()) return;
      const item = this.#order[k]!;
      if (state.worst(item) > tolerance) this.#mover.improve(item, boardsOf?.(item));
      state.account();
    }
  }

  #reweigh(tolerance: number): void {
    const state = this.#state;
    const n = state.bodies;
    const { depth, weight } = state;
    let deepest = 0;
    for (let i = 0; i < state.items; i++) {
      for (let j = i + 1; j < n; j++) if (depth[i * n + j]! > deepest) deepest = depth[i * n + j]!;
    }
    if (deepest === 0) return;
    for (let i = 0; i < state.items; i++) {
      for (let j = i + 1; j < n; j++) {
        const d = depth[i * n + j]!;
        let w = weight[i * n + j]!;
        if (d > tolerance) w *= GROWTH_LEAST + (GROWTH_SPREAD * d) / deepest;
        else if (w > 1) w = Math.max(1, w * DECAY);
        else continue;
        weight[i * n + j] = w;
        weight[j * n + i] = w;
      }
    }
  }
}
