import { runSearchTask, type SearchOutcome, type SearchTask } from '@underlap/nest/improve/search-task';
import { NoFitCache } from '@underlap/nest/nfp/no-fit-cache';
import type { Layout } from '@underlap/nest/problem';
import { expose } from 'comlink';
import { carryFaults } from '../workers/fault.ts';

carryFaults();

/** Share of a task's budget between two reports of progress. */
const PROGRESS_STEP = 0.02;

/** One thread of the search: runs a task from beginning to end; to stop it, the thread is ended. */
export interface SearchThread {
  run(
    task: SearchTask,
    onBetter: (layout: Layout, score: readonly number[]) => void,
    onProgress: (done: number) => void,
  ): Promise<SearchOutcome>;
}

const noFits = new NoFitCache();

const thread: SearchThread = {
  run: async (task, onBetter, onProgress) => {
    let told = -1;
    return runSearchTask(task, {
      noFits,
      onBetter,
      onProgress: (done) => {
        if (done < told + PROGRESS_STEP) return;
        told = done;
        onProgress(done);
      },
    });
  },
};

expose(thread);
