import { proxy, type Remote, wrap } from 'comlink';
import type { WorkbenchApi } from './api.ts';
import { carryFaults } from './fault.ts';

/** A worker that does not answer within this time is deep in work: it is ended and a fresh one takes over. */
export const ANSWER_WITHIN_MS = 200;

carryFaults();

/** The worker of this page, replaced when it has to be. */
export class WorkClient {
  private worker: Worker;
  private remote: Remote<WorkbenchApi>;

  constructor(private readonly makeWorker: () => Worker) {
    this.worker = makeWorker();
    this.remote = wrap<WorkbenchApi>(this.worker);
  }

  get api(): Remote<WorkbenchApi> {
    return this.remote;
  }

  /** Ask the work to end; if the worker does not react in time, end the worker itself. True when it was replaced. */
  async cancel(): Promise<boolean> {
    const remote = this.remote;
    const answered = await Promise.race([
      remote
        .cancel()
        .then(() => remote.ping())
        .then(() => true),
      new Promise<false>((resolve) => setTimeout(() => resolve(false), ANSWER_WITHIN_MS)),
    ]);
    if (answered || this.remote !== remote) return false;
    this.replace();
    return true;
  }

  private replace(): void {
    this.worker.terminate();
    this.worker = this.makeWorker();
    this.remote = wrap<WorkbenchApi>(this.worker);
  }
}

export { proxy };
