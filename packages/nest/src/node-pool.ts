import { existsSync } from 'node:fs';
import { availableParallelism } from 'node:os';
import { fileURLToPath } from 'node:url';
import { Worker } from 'node:worker_threads';
import { NestError } from './error.ts';
import type { SearchOutcome } from './improve/search-task.ts';
import { inThreadPool, type NestPool, type PoolHooks } from './pool.ts';
import type { Layout } from './problem.ts';

/** What a worker tells. */
export type WorkerMessage =
  | { readonly kind: 'better'; readonly layout: Layout; readonly score: readonly number[] }
  | { readonly kind: 'progress'; readonly done: number }
  | { readonly kind: 'outcome'; readonly outcome: SearchOutcome }
  | { readonly kind: 'other'; readonly outcome: unknown }
  | { readonly kind: 'failed'; readonly message: string };

/** A pool of worker threads; `close` ends them. */
export interface NodePool extends NestPool {
  /**
   * Other work that the pool's own entry knows besides the search.
   * @returns what the thread tells; null when it could not be done there, or was aborted.
   */
  runOther(task: unknown, signal: AbortSignal | undefined): Promise<unknown>;
  close(): Promise<void>;
}

/** The module that a thread runs, without its ending: the source in a checkout, the built file where packages are installed. */
const SEARCH_ENTRY = new URL('./node-worker', import.meta.url);

/**
 * Worker threads of Node for the search; started at the first task, kept for the next.
 * @param size - tasks at the same time; default: as many as there are cores.
 * @param entry - what a thread runs, without the ending: it must know search tasks (`searchThread`) and may know more.
 * @returns a pool that runs tasks in this thread where no worker can be started (the result is the same).
 * @remarks The worker runs the TypeScript source through the same loader (tsx) as the command line. An aborted task ends its thread.
 */
export function nodePool(size = availableParallelism(), entry = SEARCH_ENTRY): NodePool {
  const idle: Worker[] = [];
  const all = new Set<Worker>();
  let isBroken = false;
  const inThread = inThreadPool();
  const start = (): Worker => {
    const worker = startWorker(entry);
    all.add(worker);
    worker.once('exit', () => {
      all.delete(worker);
      const at = idle.indexOf(worker);
      if (at >= 0) idle.splice(at, 1);
    });
    worker.unref();
    return worker;
  };
  return {
    size: Math.max(1, Math.floor(size)),
    async run(task, hooks) {
      if (hooks.signal?.aborted === true) return null;
      if (!isBroken) {
        const worker = idle.pop() ?? start();
        const answer = await runIn(worker, task, hooks);
        if (answer.kind === 'done') {
          idle.push(worker);
          return answer.outcome;
        }
        await worker.terminate();
        if (answer.kind === 'aborted') return null;
        if (answer.kind === 'failed')
          throw new NestError('worker-failed', `the search failed in its thread: ${answer.message}`);
        isBroken = true;
      }
      return inThread.run(task, hooks);
    },
    async runOther(task, signal) {
      if (signal?.aborted === true || isBroken) return null;
      const worker = idle.pop() ?? start();
      const answer = await runIn(worker, task, signal === undefined ? {} : { signal });
      if (answer.kind === 'other') idle.push(worker);
      else await worker.terminate();
      return answer.kind === 'other' ? answer.outcome : null;
    },
    async close() {
      await Promise.all([...all].map((worker) => worker.terminate()));
    },
  };
}

function startWorker(entry: URL): Worker {
  // the source needs the TypeScript loader in the new thread as well; a plain file imports it and then the worker
  const source = `${entry.href}.ts`;
  const loader = existsSync(fileURLToPath(source))
    ? `import('tsx/esm/api').then(({ register }) => { register(); return import(${JSON.stringify(source)}); })`
    : `import(${JSON.stringify(`${entry.href}.js`)})`;
  return new Worker(`${loader}.catch((error) => { throw error; });`, { eval: true, execArgv: [] });
}

type Answer =
  | { readonly kind: 'done'; readonly outcome: SearchOutcome }
  | { readonly kind: 'other'; readonly outcome: unknown }
  | { readonly kind: 'aborted' }
  | { readonly kind: 'failed'; readonly message: string }
  | { readonly kind: 'broken' };

/** Send a task and wait for its outcome, the abort, or the thread's end. */
function runIn(worker: Worker, task: unknown, hooks: PoolHooks): Promise<Answer> {
  return new Promise((resolve) => {
    let hasSpoken = false;
    const settle = (answer: Answer) => {
      worker.off('message', onMessage);
      worker.off('error', onError);
      worker.off('exit', onExit);
      hooks.signal?.removeEventListener('abort', onAbort);
      worker.unref();
      resolve(answer);
    };
    const onMessage = (message: WorkerMessage) => {
      hasSpoken = true;
      if (message.kind === 'better') hooks.onBetter?.(message.layout, message.score);
      else if (message.kind === 'progress') hooks.onProgress?.(message.done);
      else if (message.kind === 'outcome') settle({ kind: 'done', outcome: message.outcome });
      else if (message.kind === 'other') settle(message);
      else settle({ kind: 'failed', message: message.message });
    };
    // a thread that dies before it says anything could not be set up here
    const onError = (error: Error) =>
      settle(hasSpoken ? { kind: 'failed', message: error.message } : { kind: 'broken' });
    const onExit = () => settle({ kind: 'broken' });
    const onAbort = () => settle({ kind: 'aborted' });
    worker.on('message', onMessage);
    worker.on('error', onError);
    worker.on('exit', onExit);
    hooks.signal?.addEventListener('abort', onAbort, { once: true });
    worker.ref();
    worker.postMessage(task);
  });
}
