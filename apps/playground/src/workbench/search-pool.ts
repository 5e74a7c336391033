import type { SearchOutcome, SearchTask } from '@underlap/nest/improve/search-task';
import { inThreadPool, type NestPool, type PoolHooks } from '@underlap/nest/pool';
import { proxy, type Remote, wrap } from 'comlink';
import type { SearchThread } from './search.worker.ts';

interface Thread {
  readonly worker: Worker;
  readonly remote: Remote<SearchThread>;
}

/** A thread of the search that could not be started or broke down. */
class SearchBroken extends Error {
  readonly code = 'internal';

  constructor(why: string) {
    super(
      `The search could not go on: one of its threads could not be started or broke down${why ? ` (${why})` : ''}.`,
    );
    this.name = 'SearchBroken';
  }
}

/** More threads than this share the memory bus rather than the work. */
const MOST_THREADS = 8;

/**
 * Web workers for the search, as many as there are cores, started when they are first needed. An abort ends the threads that
 * are at work at once. Where a worker cannot start workers of its own, tasks run in this thread with the same outcome.
 */
export function searchPool(cores: number): NestPool {
  if (typeof Worker === 'undefined') return inThreadPool();
  const idle: Thread[] = [];
  return {
    size: Math.min(Math.max(Math.floor(cores), 1), MOST_THREADS),
    async run(task, hooks) {
      if (hooks.signal?.aborted === true) return null;
      const thread = idle.pop() ?? startThread();
      const outcome = await runIn(thread, task, hooks).catch((error: unknown) => {
        thread.worker.terminate();
        throw error;
      });
      if (outcome === null) thread.worker.terminate();
      else idle.push(thread);
      return outcome;
    },
  };
}

function startThread(): Thread {
  const worker = new Worker(new URL('./search.worker.ts', import.meta.url), { type: 'module' });
  return { worker, remote: wrap<SearchThread>(worker) };
}

/** The outcome, or null when the signal came first. */
async function runIn({ worker, remote }: Thread, task: SearchTask, hooks: PoolHooks): Promise<SearchOutcome | null> {
  const { signal } = hooks;
  let release: () => void = () => undefined;
  const stopped = new Promise<null>((resolve, reject) => {
    const stop = (): void => resolve(null);
    const fail = (event: ErrorEvent): void => reject(new SearchBroken(event.message));
    signal?.addEventListener('abort', stop, { once: true });
    worker.addEventListener('error', fail, { once: true });
    release = () => {
      signal?.removeEventListener('abort', stop);
      worker.removeEventListener('error', fail);
    };
  });
  const isLive = (): boolean => signal?.aborted !== true;
  try {
    return await Promise.race([
      stopped,
      remote.run(
        task,
        proxy((layout, score) => {
          if (isLive()) hooks.onBetter?.(layout, score);
        }),
        proxy((done) => {
          if (isLive()) hooks.onProgress?.(done);
        }),
      ),
    ]);
  } finally {
    release();
  }
}
