import type { NodePool } from '@underlap/nest/node-pool';
import type { DesignMade, DesignThreads } from './design-task.ts';

/** What threads run that make designs and search: the entry of their pool. */
export const DESIGNS_AND_SEARCH = new URL('./node-worker', import.meta.url);

/** Threads of Node that make designs. @param pool - of threads that run `DESIGNS_AND_SEARCH`; they serve the search as well. */
export function designThreads(pool: NodePool): DesignThreads {
  return {
    size: pool.size,
    make: async (task, signal) => (await pool.runOther(task, signal)) as DesignMade | null,
  };
}
