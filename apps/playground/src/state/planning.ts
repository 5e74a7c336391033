import type { Job } from '@underlap/job/document';
import type { FoundLayout } from '@underlap/job/pipeline';
import { proxy, type WorkClient } from '../workers/client.ts';
import type { WorkEvent } from '../workers/events.ts';
import { faultOf } from '../workers/fault.ts';
import type { StageId } from '../workers/views.ts';
import { type Observable, observable } from './observable.ts';
import { allWaiting, isBusy, knownKeys, NO_RESULTS, type Results, withEvent } from './results.ts';

export interface TracePoint {
  readonly seconds: number;
  readonly boards: number;
  readonly yield: number;
}

/** Everything planning has to show for a job. */
export interface Snapshot {
  readonly results: Results;
  readonly found: FoundLayout | null;
}

/** Keeps the results in step with the job: every change is planned, the latest one wins. */
export interface Planning {
  readonly results: Observable<Results>;
  /** Better layouts of the running (or last) search in the order they came. */
  readonly trace: Observable<readonly TracePoint[]>;
  plan(job: Job): void;
  /** The layout of the last search; kept with the job. */
  readonly found: Observable<FoundLayout | null>;
  /** Take over results that were made elsewhere, with their keys. */
  take(done: readonly WorkEvent[], found: FoundLayout | null): void;
  /** Has the running search a layout already? */
  readonly hasLayout: Observable<boolean>;
  /** The design whose drawing, stack and seams are shown; null = the first. A change counts from the next plan on. */
  readonly looksAt: Observable<string | null>;
  /** End the search at once, keep the best layout so far and go on from it; nothing happens while there is none. */
  stopSearch(): Promise<void>;
  /** What is on the page when nothing is under way; null while something is. */
  snapshot(): Snapshot | null;
  /** End all work at once and show again what was there; false when something newer was asked for meanwhile. */
  restore(snapshot: Snapshot): Promise<boolean>;
  /** The layout on the page no longer counts as the result of its job. */
  forgetLayout(): void;
  /** End all work at once; the pictures stay as they are. */
  cancel(): Promise<void>;
}

export function startPlanning(client: WorkClient): Planning {
  const results = observable<Results>(NO_RESULTS);
  const trace = observable<readonly TracePoint[]>([]);
  let run = 0;
  let searchedFrom = 0;
  /** Questions that the worker has not settled yet; overtaken ones count, since they keep it from the newest. */
  let pending = 0;
  /** The best layout of this run; kept here too, so that a stop need not wait for a worker deep in work. */
  let best: FoundLayout | null = null;
  /** What a run was to be stopped with; taken when its worker could not be asked and was ended. */
  let stopped: { readonly run: number; readonly layout: FoundLayout } | null = null;
  const hasLayout = observable(false);
  const looksAt = observable<string | null>(null);

  const found = observable<FoundLayout | null>(null);

  const follow = (event: WorkEvent): void => {
    if (event.kind === 'found') found.set(event.found);
    if (event.kind === 'best') {
      best = event.found;
      hasLayout.set(true);
    }
    if (event.stage !== 'boards') return;
    if (event.kind === 'working' && results.get().boards.status !== 'working') {
      searchedFrom = performance.now();
      trace.set([]);
    }
    if (event.kind === 'view' || event.kind === 'done') {
      const seconds = (performance.now() - searchedFrom) / 1000;
      trace.update((points) => [...points, { seconds, boards: event.view.sheets.length, yield: event.view.yield }]);
    }
  };

  /** A worker deep in work on what nobody wants any more is replaced rather than waited for. */
  const freeTheWorker = async (): Promise<void> => {
    if (pending > 0) await client.cancel();
  };

  const start = async (job: Job, mine: number): Promise<void> => {
    best = null;
    hasLayout.set(false);
    await freeTheWorker();
    if (mine !== run) return;
    results.set(allWaiting(results.get()));
    const tell = proxy((event: WorkEvent): void => {
      if (mine !== run) return;
      follow(event);
      results.update((before) => withEvent(before, event));
    });
    const known = knownKeys(results.get());
    try {
      await counted(client.ask((api) => api.plan(job, known, found.get(), tell, looksAt.get())));
    } catch (error) {
      if (mine !== run) return;
      const fault = faultOf(error);
      if (fault.code === 'cancelled') beginAgain(job);
      else results.update((before) => withEvent(before, { kind: 'failed', stage: workingStage(before), fault }));
    }
  };

  const counted = async (question: Promise<void>): Promise<void> => {
    pending += 1;
    try {
      await question;
    } finally {
      pending -= 1;
    }
  };

  /** The worker was ended for another reason than a newer job: this one is still wanted. */
  const beginAgain = (job: Job): void => {
    if (stopped?.run === run) found.set(stopped.layout);
    plan(job);
  };

  const plan = (job: Job): void => {
    run += 1;
    void start(job, run);
  };

  return {
    results,
    trace,
    plan,
    found,
    take: (done, layout) => {
      results.set(done.reduce(withEvent, NO_RESULTS));
      found.set(layout);
    },
    hasLayout,
    looksAt,
    stopSearch: async () => {
      if (best === null) return;
      stopped = { run, layout: best };
      await client.insist((api) => api.stopSearch());
    },
    snapshot: () => (isBusy(results.get()) ? null : { results: results.get(), found: found.get() }),
    restore: async (snapshot) => {
      run += 1;
      const asked = run;
      await client.cancel();
      if (asked !== run) return false;
      best = null;
      results.set(snapshot.results);
      found.set(snapshot.found);
      return true;
    },
    forgetLayout: () => {
      found.set(null);
      results.update((before) => ({
        ...before,
        boards: { ...before.boards, key: null },
        files: { ...before.files, key: null },
      }));
    },
    cancel: async () => {
      run += 1;
      const asked = run;
      // what the search has found so far is not lost: going on takes it
      if (best !== null) found.set(best);
      await client.cancel();
      if (asked === run) results.update(stoppedWhereItWas);
    },
  };
}

function workingStage(results: Results): StageId {
  const order: readonly StageId[] = ['artwork', 'stack', 'split', 'boards', 'files'];
  return order.find((stage) => results[stage].status === 'working' || results[stage].status === 'waiting') ?? 'files';
}

/** After a cancel nothing is under way; what was not finished is told as stopped. */
function stoppedWhereItWas(results: Results): Results {
  const fault = { code: 'cancelled', message: '', place: null };
  return isBusy(results) ? withEvent(results, { kind: 'failed', stage: workingStage(results), fault }) : results;
}
