import { proxy, type Remote, wrap } from 'comlink';
import type { WorkbenchApi } from './api.ts';
import { carryFaults, type Fault, WorkFault } from './fault.ts';

/** A worker that does not answer within this time is deep in work: it is ended and a fresh one takes over. */
export const ANSWER_WITHIN_MS = 200;

const STOPPED: Fault = { code: 'cancelled', message: 'Stopped.', place: null };

carryFaults();

interface Staff {
  readonly worker: Worker;
  readonly remote: Remote<WorkbenchApi>;
  /** Fails when this worker is ended or breaks down; never comes to anything else. */
  readonly ended: Promise<never>;
  end(fault: Fault): void;
}

/** The worker of this page, started when it is first asked for something and replaced when it has to be. */
export class WorkClient {
  private staff: Staff | null = null;

  constructor(private readonly makeWorker: () => Worker) {}

  /**
   * Ask the worker for something.
   * @throws WorkFault: what went wrong in the worker, `cancelled` when the worker was ended meanwhile, `internal` when it broke down.
   */
  ask<T>(what: (api: Remote<WorkbenchApi>) => Promise<T>): Promise<T> {
    const { remote, ended } = this.present();
    return Promise.race([what(remote), ended]);
  }

  /** Ask the work to end; if the worker does not react in time, end the worker itself. True when it was replaced. */
  cancel(): Promise<boolean> {
    return this.insist((api) => api.cancel());
  }

  /** Ask for something that must not wait; a worker that does not answer in time is replaced. True when it was. Without a worker there is nothing to end. */
  async insist(what: (api: Remote<WorkbenchApi>) => Promise<void>): Promise<boolean> {
    const { staff } = this;
    if (staff === null) return false;
    const answered = await Promise.race([
      what(staff.remote)
        .then(() => staff.remote.ping())
        .then(() => true),
      staff.ended.catch(() => true),
      new Promise<false>((resolve) => setTimeout(() => resolve(false), ANSWER_WITHIN_MS)),
    ]);
    if (answered || this.staff !== staff) return false;
    staff.end(STOPPED);
    return true;
  }

  private present(): Staff {
    this.staff ??= this.start();
    return this.staff;
  }

  private start(): Staff {
    const worker = this.makeWorker();
    let fail: (fault: WorkFault) => void = () => undefined;
    const ended = new Promise<never>((_, reject) => {
      fail = reject;
    });
    // nobody may be waiting when it ends
    ended.catch(() => undefined);
    const staff: Staff = {
      worker,
      remote: wrap<WorkbenchApi>(worker),
      ended,
      end: (fault) => {
        worker.terminate();
        if (this.staff === staff) this.staff = null;
        fail(new WorkFault(fault));
      },
    };
    worker.addEventListener('error', (event) => staff.end(brokenDown(event)));
    worker.addEventListener('messageerror', () => staff.end(brokenDown(null)));
    return staff;
  }
}

function brokenDown(event: ErrorEvent | null): Fault {
  const why = event?.message ? ` (${event.message})` : '';
  const message = `The part of the page that does the work could not be started or broke down${why}. Nothing you entered is lost.`;
  return { code: 'internal', message, place: null };
}

export { proxy };
