import { runSearchTask, type SearchTask } from './improve/search-task.ts';
import { NoFitCache } from './nfp/no-fit-cache.ts';
import type { WorkerMessage } from './node-pool.ts';

/** Share of a task's budget between two reports of progress. */
const PROGRESS_STEP = 0.02;

/** What a thread does with search tasks, telling all that comes of them; polygons are kept from one task to the next. */
export function searchThread(tell: (message: WorkerMessage) => void): (task: SearchTask) => void {
  const noFits = new NoFitCache();
  return (task) => {
    let told = -1;
    try {
      const outcome = runSearchTask(task, {
        noFits,
        onBetter: (layout, score) => tell({ kind: 'better', layout, score }),
        onProgress: (done) => {
          if (done < told + PROGRESS_STEP) return;
          told = done;
          tell({ kind: 'progress', done });
        },
      });
      tell({ kind: 'outcome', outcome });
    } catch (error) {
      tell({ kind: 'failed', message: error instanceof Error ? error.message : String(error) });
    }
  };
}
