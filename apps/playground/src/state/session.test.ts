import { jobFrom } from '@underlap/job/parse-job';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import type { WorkClient } from '../workers/client.ts';
import type { WorkEvent } from '../workers/events.ts';
import { WorkFault } from '../workers/fault.ts';
import { STAGES, type StageId } from '../workers/views.ts';
import type { Desk } from './desk.ts';
import { startSession } from './session.ts';

interface Call {
  readonly name: string | null;
  /** Every stage is done. */
  finish(): void;
}

const job = jobFrom({ bed: { width: 500, height: 300 }, boards: [{ width: 508, height: 305 }] }, 'job');
const desk = (name: string): Desk => ({ job: { ...job, name }, held: [], kept: [] });
const soon = (): Promise<void> => new Promise((resolve) => setTimeout(resolve, 0));

/** A session whose worker finishes a plan when it is told to. */
function office() {
  const calls: Call[] = [];
  const waiting: (() => void)[] = [];
  let isDeep = false;
  const api = {
    plan: (planned: Desk['job'], _known: unknown, _found: unknown, tell: (event: WorkEvent) => void) =>
      new Promise<void>((resolve) => {
        const done = (stage: StageId) =>
          tell({ kind: 'done', stage, key: planned.name, view: { sheets: [] } } as never);
        calls.push({
          name: planned.name,
          finish: () => {
            STAGES.forEach(done);
            resolve();
          },
        });
      }),
  };
  const client = {
    ask: (what: (remote: typeof api) => unknown) => what(api),
    cancel: () =>
      isDeep
        ? new Promise<boolean>((resolve) => {
            waiting.push(() => resolve(true));
          })
        : Promise.resolve(false),
  };
  const session = startSession(client as unknown as WorkClient, {} as never);
  return {
    session,
    calls,
    keysOf: () => STAGES.map((stage) => session.planning.results.get()[stage].key),
    /** The worker does not answer until it is freed. */
    deepInWork: () => {
      isDeep = true;
    },
    free: () => {
      isDeep = false;
      for (const go of waiting.splice(0)) go();
    },
  };
}

beforeEach(() => {
  vi.stubGlobal('document', { documentElement: { dataset: {} } });
  vi.stubGlobal('navigator', { language: 'en', languages: ['en'] });
});
afterEach(() => vi.unstubAllGlobals());

/** A job that is finished, and a change of it that is being planned. */
async function leaveGood(
  session: ReturnType<typeof office>['session'],
  calls: ReturnType<typeof office>['calls'],
): Promise<void> {
  session.open(desk('good'));
  await soon();
  calls[0]?.finish();
  await soon();
  session.actOnJob('name', (before) => ({ ...before, name: 'slow' }));
  await soon();
}

describe('a session', () => {
  it('plans the newest of several changes, and plans nothing twice', async () => {
    const { session, calls, deepInWork, free } = office();
    session.open(desk('first'));
    await soon();
    deepInWork();
    session.actOnJob('name', (before) => ({ ...before, name: 'second' }));
    session.actOnJob('name', (before) => ({ ...before, name: 'third' }));
    // what is not planned (the shelf) plans nothing
    session.act('shelf', (before) => ({ ...before, kept: [] }));
    await soon();
    free();
    await soon();
    await soon();
    expect(calls.map(({ name }) => name)).toEqual(['first', 'third']);
  });

  it('goes back to the last finished state, with the changes since given up', async () => {
    const { session, calls, keysOf } = office();
    await leaveGood(session, calls);
    expect(session.canGoBack.get()).toBe(true);
    await session.goBack();
    expect(session.history.get()?.present.job.name).toBe('good');
    expect(keysOf()).toEqual(STAGES.map(() => 'good'));
    // what the given up plan still tells is not heard
    calls[1]?.finish();
    expect(keysOf()).toEqual(STAGES.map(() => 'good'));
  });

  it('plans a change that is made while it goes back, instead of showing the state before as finished', async () => {
    const { session, calls, keysOf, deepInWork, free } = office();
    await leaveGood(session, calls);
    deepInWork();
    const going = session.goBack();
    session.actOnJob('name', (before) => ({ ...before, name: 'newest' }));
    free();
    await going;
    await soon();
    await soon();
    expect(session.notices.shown.get()).toEqual([]);
    expect(session.planning.results.get().boards.status).toBe('waiting');
    calls.at(-1)?.finish();
    expect(calls.at(-1)?.name).toBe('newest');
    expect(keysOf()).toEqual(STAGES.map(() => 'newest'));
  });

  it('forgets the finished state of another job when one is opened', async () => {
    const { session, calls } = office();
    session.open(desk('good'));
    await soon();
    calls[0]?.finish();
    await soon();
    session.actOnJob('name', (before) => ({ ...before, name: 'changed' }));
    session.open(desk('other'));
    expect(session.canGoBack.get()).toBe(false);
    await session.goBack();
    expect(session.history.get()?.present.job.name).toBe('other');
  });

  it('says that something was stopped in other words than that it failed', async () => {
    const { session } = office();
    const fails = (code: string) =>
      session.attempt(() => Promise.reject(new WorkFault({ code, message: 'm', place: null })));
    await fails('cancelled');
    await fails('internal');
    expect(session.notices.shown.get().map(({ tone }) => tone)).toEqual(['plain', 'look']);
  });
});
