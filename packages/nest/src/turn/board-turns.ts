import type { Layout } from '../search/layout.ts';
import type { Random } from '../search/random.ts';
import { Compaction } from './turn-compaction.ts';
import { TurnForms } from './turn-forms.ts';
import { TurnSeparator } from './turn-separator.ts';
import { TurnState } from './turn-state.ts';

/** Passes without gain, and total overlap by mean diameter that is left to the compaction. */
const STALLED_PASSES = 30;
const ENOUGH = 2e-3;

interface Tools {
  readonly state: TurnState;
  readonly separator: TurnSeparator;
  readonly compaction: Compaction;
}

/** Opens what overlaps on boards by turning pieces freely; pieces keep to their boards. */
export class BoardTurner {
  readonly #layout: Layout;
  readonly #tolerance: number;
  readonly #random: Random;
  readonly #shouldStop: () => boolean;
  #tools: Tools | null = null;

  constructor(layout: Layout, tolerance: number, random: Random, shouldStop: () => boolean) {
    this.#layout = layout;
    this.#tolerance = tolerance;
    this.#random = random;
    this.#shouldStop = shouldStop;
  }

  /** @returns whether nothing overlaps any more, by no-fit polygons at the turns found; the layout then holds it. */
  separate(): boolean {
    const layout = this.#layout;
    this.#tools ??= this.#make();
    const { state, separator, compaction } = this.#tools;
    state.load();
    separator.separate(ENOUGH * state.meanDiameter(), this.#tolerance, STALLED_PASSES);
    for (let board = 0; board < layout.boards.length; board++) {
      if (this.#shouldStop()) return false;
      const isClear = layout.members[board]!.every((i) => i >= state.items || state.worst(i) <= this.#tolerance / 4);
      if (!isClear && compaction.open(board) > this.#tolerance) return false;
    }
    state.store();
    return layout.total(this.#tolerance) === 0 && layout.allFit();
  }

  /** Made when first needed: most searches that may turn end before. */
  #make(): Tools {
    const state = new TurnState(this.#layout, new TurnForms(this.#layout.model));
    return {
      state,
      separator: new TurnSeparator(state, this.#random, this.#shouldStop),
      compaction: new Compaction(state, this.#tolerance, this.#shouldStop),
    };
  }
}
