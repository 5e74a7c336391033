import type { Layout } from '../search/layout.ts';
import type { Random } from '../search/random.ts';
import type { BoardsOf } from '../search/separator.ts';
import { TurnForms } from './turn-forms.ts';
import type { TurnMoveSettings } from './turn-mover.ts';
import { TurnSeparator } from './turn-separator.ts';
import { TurnState } from './turn-state.ts';

/** What depths read from grids may be wrong by, as a share of the mean diameter; twice that is kept beyond the clearance asked. */
const ROUGHNESS = 0.002;
/** Total overlap, in mean diameters, from which the exact search can be expected to finish. */
const ENOUGH = 0.03;
const STALLED_PASSES = 30;
/** More places and shorter descents than free turns need: here pieces look for gaps, and the exact search does the rest. */
const ROUGH_MOVES: TurnMoveSettings = {
  farSamples: 48,
  nearSamples: 12,
  spunSamples: 8,
  kept: 1,
  firstStep: 0.06,
  lastStep: 0.008,
};

interface Tools {
  readonly state: TurnState;
  readonly separator: TurnSeparator;
  readonly size: number;
}

/**
 * Separates jobs of many kinds over their listed turns without a no-fit polygon: depths come from a grid of distances of each form and
 * samples of the other's outline (`TurnForms`), made once for each form and not for each pair. What it leaves to do is for the exact
 * search, which then makes polygons for neighbours alone.
 */
export class RoughSeparator {
  readonly #layout: Layout;
  readonly #random: Random;
  readonly #shouldStop: () => boolean;
  #tools: Tools | null = null;

  constructor(layout: Layout, random: Random, shouldStop: () => boolean) {
    this.#layout = layout;
    this.#random = random;
    this.#shouldStop = shouldStop;
  }

  /**
   * Separate from where everything lies; the layout's places are then the best seen, its depths are not brought up to date.
   * @returns total overlap left, in mean diameters, 0 = next to none.
   */
  separate(boardsOf: BoardsOf): number {
    this.#tools ??= this.#make();
    const { state, separator, size } = this.#tools;
    state.load();
    const total = separator.separate(ENOUGH * size, ROUGHNESS * size, STALLED_PASSES, boardsOf);

    state.storePlaces();
    return total <= ENOUGH * size ? 0 : total / size;
  }

  #make(): Tools {
    const forms = new TurnForms(this.#layout.model);
    const { itemPoses, poses } = this.#layout.model;
    const size = itemPoses.reduce((sum, list) => sum + 2 * forms.radius[poses[list[0]!]!.form]!, 0) / itemPoses.length;
    const state = new TurnState(this.#layout, forms, 2 * ROUGHNESS * size);
    return { state, size, separator: new TurnSeparator(state, this.#random, this.#shouldStop, ROUGH_MOVES) };
  }
}
