import type { Layout } from './layout.ts';
import type { SearchBudget, SearchEnd, SearchHooks } from './task.ts';

/** Evaluations between two looks at the clock, the abort signal and the progress callback. */
const POLL_EVERY = 8000;

/**
 * Evaluations that a field stands for, by edge of its no-fit polygon: making it takes some 15 microseconds an edge, measured. Half of that,
 * since runs that share a thread share the polygons; counted whether it was at hand or not, so that the budget ends at the same place.
 */
const EVALUATIONS_PER_FIELD_EDGE = 5;

/** Watches a search's budget, clock and abort signal; remembers what ended it. */
export class Meter {
  readonly #layout: Layout;
  readonly #budget: SearchBudget;
  readonly #hooks: SearchHooks;
  #ended: SearchEnd | null = null;
  #nextPoll = 0;
  #share = 0;

  constructor(layout: Layout, budget: SearchBudget, hooks: SearchHooks) {
    this.#layout = layout;
    this.#budget = budget;
    this.#hooks = hooks;
  }

  /** Share of the budget spent, 0..1, never going back. */
  get share(): number {
    this.isOver();
    return this.#share;
  }

  get ended(): SearchEnd | null {
    return this.#ended;
  }

  /** End the search for a reason of its own (a bound reached, nothing left to try). */
  end(reason: SearchEnd): void {
    this.#ended ??= reason;
  }

  isOver = (): boolean => {
    if (this.#ended !== null) return true;
    const { evaluations: asked, model } = this.#layout;
    // jobs with many different parts spend their time on making fields: these count as well, or a small budget takes minutes
    const evaluations = asked + EVALUATIONS_PER_FIELD_EDGE * model.fieldEdgesMade;
    if (evaluations >= this.#budget.evaluations) this.#ended = 'budget';
    if (evaluations >= this.#nextPoll) {
      this.#nextPoll = evaluations + POLL_EVERY;
      const time = this.#budget.timeSpent?.() ?? 0;
      if (this.#hooks.signal?.aborted) this.#ended = 'cancelled';
      else if (time >= 1) this.#ended = 'time';
      this.#share = Math.min(1, Math.max(this.#share, time, evaluations / this.#budget.evaluations));
      this.#hooks.onProgress?.(this.#share);
    }
    return this.#ended !== null;
  };
}
