import { runSearchTask, type SearchOutcome, type SearchTask } from './improve/search-task.ts';
import type { SearchTaskHooks } from './improve/task-hooks.ts';
import { NoFitCache } from './nfp/no-fit-cache.ts';

/** What a pool tells while a task runs; the stop is the signal alone, as neither clocks nor caches cross threads. */
export type PoolHooks = Omit<SearchTaskHooks, 'timeSpent' | 'noFits'>;

/**
 * Threads that run search tasks. The outcome of a task does not depend on which thread runs it or when.
 * A pool whose signal aborts settles `run` soon with null; better layouts found until then have been told by `onBetter`.
 */
export interface NestPool {
  /** Tasks that run at the same time. */
  readonly size: number;
  run(task: SearchTask, hooks: PoolHooks): Promise<SearchOutcome | null>;
}

/** No threads: tasks run one after another where they are asked for; the event loop gets its turn between tasks only. */
export function inThreadPool(): NestPool {
  const noFits = new NoFitCache();
  return {
    size: 1,
    async run(task, hooks) {
      await new Promise((resolve) => setTimeout(resolve, 0));
      return hooks.signal?.aborted === true ? null : runSearchTask(task, { ...hooks, noFits });
    },
  };
}

/** Run tasks with as many at once as the pool has threads; outcomes in the order of the tasks. */
export async function runAll(
  pool: NestPool,
  tasks: readonly SearchTask[],
  hooksOf: (index: number) => PoolHooks,
): Promise<(SearchOutcome | null)[]> {
  const outcomes = new Array<SearchOutcome | null>(tasks.length).fill(null);
  let next = 0;
  const lane = async () => {
    while (next < tasks.length) {
      const index = next++;
      outcomes[index] = await pool.run(tasks[index]!, hooksOf(index));
    }
  };
  await Promise.all(Array.from({ length: Math.max(1, Math.min(pool.size, tasks.length)) }, lane));
  return outcomes;
}
