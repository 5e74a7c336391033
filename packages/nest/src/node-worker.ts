import { parentPort } from 'node:worker_threads';
import { runSearchTask, type SearchTask } from './improve/search-task.ts';
import { NoFitCache } from './nfp/no-fit-cache.ts';
import type { WorkerMessage } from './node-pool.ts';

/** Share of a task's budget between two reports of progress. */
const PROGRESS_STEP = 0.02;

const port = parentPort;
const noFits = new NoFitCache();
const tell = (message: WorkerMessage) => port?.postMessage(message);

port?.on('message', (task: SearchTask) => {
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
});
