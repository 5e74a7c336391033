import type { NoFitCache } from '../nfp/no-fit-cache.ts';
import type { Layout } from '../problem.ts';
import type { SearchBudget, SearchHooks } from '../search/task.ts';

/** Part-position evaluations in one work unit: somewhat under a second on one core. */
export const EVALUATIONS_PER_UNIT = 1_000_000;

/** How a run is watched and stopped. */
export interface SearchTaskHooks {
  readonly signal?: AbortSignal;
  /** Each better layout of this run, as it is found. */
  readonly onBetter?: (layout: Layout, score: readonly number[]) => void;
  /** Share of the run's budget that is spent, 0..1, never going back. */
  readonly onProgress?: (done: number) => void;
  /** A second, optional stop: share of the time allowed that has passed. */
  readonly timeSpent?: () => number;
  /** Kept by the thread from task to task; saves time and changes no outcome. */
  readonly noFits?: NoFitCache;
}

/** The search's budget for some work units, under the run's clock. */
export function budgetOf(units: number, { timeSpent }: SearchTaskHooks): SearchBudget {
  return { evaluations: units * EVALUATIONS_PER_UNIT, ...(timeSpent ? { timeSpent } : {}) };
}

/** The search's hooks for one step of a run. */
export function stepHooks(seed: string, { signal, noFits }: SearchTaskHooks): SearchHooks {
  return { seed, ...(signal ? { signal } : {}), ...(noFits ? { noFits } : {}) };
}
