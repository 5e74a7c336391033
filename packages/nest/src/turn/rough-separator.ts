import type { Layout } from '../search/layout.ts';
import type { Random } from '../search/random.ts';
import type { BoardsOf } from '../search/separator.ts';
import { Compaction } from './turn-compaction.ts';
import { TurnForms } from './turn-forms.ts';
import type { TurnMoveSettings } from './turn-mover.ts';
import { TurnSeparator } from './turn-separator.ts';
import { TurnState } from './turn-state.ts';

/** What depths read from grids may be wrong by, as a share of the mean diameter: overlap up to here is left to the linear programs. */
const ROUGHNESS = 0.002;
/** Total overlap, in mean diameters, that the linear programs can be expected to open. */
const ENOUGH = 0.05;
const STALLED_PASSES = 40;
/** More places and shorter descents than free turns need: here pieces look for gaps, and linear programs do the rest. */
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
  readonly compaction: Compaction;
  readonly size: number;
}

/**
 * Separates jobs of many kinds without a no-fit polygon. Depths come from a grid of distances of each form and samples of the other's
 * outline (`TurnForms`), made once for each form and not for each pair; what little is left then is opened by linear programs over the
 * exact gaps between outlines (`Compaction`), which also say whether everything keeps its distance.
 */
export class RoughSeparator {
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

  /**
   * Separate from where everything lies; the layout's places are then the best seen, its depths are not brought up to date.
   * @returns overlap left, in mean diameters; 0 = every pair keeps its distance, by edges of the outlines, within the tolerance.
   */
  separate(boardsOf: BoardsOf): number {
    this.#tools ??= this.#make();
    const { state, separator, size } = this.#tools;
    state.load();
    const total = separator.separate(ENOUGH * size, ROUGHNESS * size, STALLED_PASSES, boardsOf) / size;
    const left = total > ENOUGH ? total : this.#open() / size;
    state.storePlaces();
    return left;
  }

  /** Does every pair keep its distance as it lies, by edges of the outlines? */
  isApart(): boolean {
    this.#tools ??= this.#make();
    const { state, compaction } = this.#tools;
    state.load();
    return this.#layout.boards.every((_, board) => compaction.deepest(board) <= this.#tolerance);
  }

  /** Deepest overlap of an item after the last separation. */
  worst(item: number): number {
    return this.#tools?.state.worst(item) ?? 0;
  }

  /** Open what overlaps, board by board. @returns deepest overlap left, 0 = none beyond the tolerance. */
  #open(): number {
    const { compaction } = this.#tools!;
    for (let board = 0; board < this.#layout.boards.length; board++) {
      if (this.#layout.members[board]!.length === 0) continue;
      const deepest = compaction.open(board);
      if (deepest > this.#tolerance) return deepest;
      if (this.#shouldStop()) return Infinity;
    }
    return 0;
  }

  #make(): Tools {
    const layout = this.#layout;
    const forms = new TurnForms(layout.model);
    const state = new TurnState(layout, forms);
    const { itemPoses, poses } = layout.model;
    const size = itemPoses.reduce((sum, list) => sum + 2 * forms.radius[poses[list[0]!]!.form]!, 0) / itemPoses.length;
    return {
      state,
      size,
      separator: new TurnSeparator(state, this.#random, this.#shouldStop, ROUGH_MOVES),
      compaction: new Compaction(state, this.#tolerance, this.#shouldStop),
    };
  }
}
