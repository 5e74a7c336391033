import type { KnownKeys, WorkEvent } from '../workers/events.ts';
import type { Fault } from '../workers/fault.ts';
import { STAGES, type StageId, type StageViews } from '../workers/views.ts';

/** How one stage stands. `view` keeps the last result while a new one is made, so that the picture stays. */
export interface StageState<View> {
  readonly status: 'empty' | 'waiting' | 'working' | 'done' | 'failed';
  readonly view: View | null;
  /** Of the running work, 0..1; never goes back within a run. */
  readonly done: number;
  readonly message: string;
  readonly fault: Fault | null;
  /** Content key of what `view` was made from, null while it is not the whole result. */
  readonly key: string | null;
}

export type Results = { readonly [Stage in StageId]: StageState<StageViews[Stage]> };

const EMPTY: StageState<never> = { status: 'empty', view: null, done: 0, message: '', fault: null, key: null };

export const NO_RESULTS: Results = { artwork: EMPTY, stack: EMPTY, split: EMPTY, boards: EMPTY, files: EMPTY };

/** The results after one more event. Pure, so that it can be tested without any worker. */
export function withEvent(results: Results, event: WorkEvent): Results {
  const before = results[event.stage];
  switch (event.kind) {
    case 'working': {
      const done = before.status === 'working' ? Math.max(before.done, event.done) : event.done;
      return { ...results, [event.stage]: { ...before, status: 'working', done, message: event.message, fault: null } };
    }
    case 'found':
    case 'best':
      return results;
    case 'view':
      return { ...results, [event.stage]: { ...before, view: event.view, key: null } };
    case 'done':
      return {
        ...results,
        [event.stage]: { status: 'done', view: event.view, done: 1, message: '', fault: null, key: event.key },
      };
    case 'unchanged':
      return { ...results, [event.stage]: { ...before, status: 'done', done: 1, message: '', fault: null } };
    case 'failed':
      return failed(results, event.stage, event.fault);
  }
}

/** A stage failed: what comes after it has nothing to stand on. Stopped by a person, it failed in nothing: the old results stay to be seen. */
function failed(results: Results, stage: StageId, fault: Fault): Results {
  const isStop = fault.code === 'cancelled';
  let next: Results = { ...results, [stage]: { ...results[stage], status: 'failed', done: 0, message: '', fault } };
  for (const later of STAGES.slice(STAGES.indexOf(stage) + 1)) {
    next = {
      ...next,
      [later]: {
        ...next[later],
        status: 'waiting',
        ...(isStop ? {} : { view: null, key: null }),
        done: 0,
        message: '',
        fault: null,
      },
    };
  }
  return next;
}

/** All stages are due again; pictures stay until new ones come. */
export function allWaiting(results: Results): Results {
  let next = results;
  for (const stage of STAGES) {
    next = { ...next, [stage]: { ...next[stage], status: 'waiting', done: 0, message: '', fault: null } };
  }
  return next;
}

/** Is anything still to come? */
export function isBusy(results: Results): boolean {
  return (
    STAGES.some((stage) => results[stage].status === 'working') ||
    (STAGES.some((stage) => results[stage].status === 'waiting') &&
      !STAGES.some((stage) => results[stage].status === 'failed'))
  );
}

/** Which results these are, by content key. */
export function knownKeys(results: Results): KnownKeys {
  return {
    artwork: results.artwork.key,
    stack: results.stack.key,
    split: results.split.key,
    boards: results.boards.key,
    files: results.files.key,
  };
}
