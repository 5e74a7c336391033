import type { Job } from '@underlap/job/document';
import type { FoundLayout } from '@underlap/job/pipeline';
import { describe, expect, it } from 'vitest';
import type { WorkClient } from '../workers/client.ts';
import type { WorkEvent } from '../workers/events.ts';
import { WorkFault } from '../workers/fault.ts';
import type { BoardsView, StackView } from '../workers/views.ts';
import { startPlanning } from './planning.ts';

interface Call {
  readonly job: Job;
  readonly found: FoundLayout | null;
  tell(event: WorkEvent): void;
  end(error?: Error): void;
}

/** A worker that is told what to answer, and when; where it is replaced, what it was asked is cancelled. */
function workshop(isReplaced = false) {
  const calls: Call[] = [];
  const asked: string[] = [];
  const end = (): void => {
    if (isReplaced) for (const call of calls) call.end(new WorkFault({ code: 'cancelled', message: '', place: null }));
  };
  const api = {
    plan: (job: Job, _known: unknown, found: FoundLayout | null, tell: (event: WorkEvent) => void) =>
      new Promise<void>((resolve, reject) => {
        calls.push({ job, found, tell, end: (error) => (error === undefined ? resolve() : reject(error)) });
      }),
  };
  const client = {
    ask: (what: (remote: typeof api) => Promise<unknown>) => what(api),
    cancel: async () => {
      asked.push('cancel');
      end();
      return isReplaced;
    },
    insist: async () => {
      asked.push('stop');
      end();
      return isReplaced;
    },
  } as unknown as WorkClient;
  return { planning: startPlanning(client), calls, asked, endWorker: end };
}

const job = (name: string): Job => ({ name }) as Job;
const stack: StackView = { layers: [] } as unknown as StackView;
const boards = (count: number): BoardsView =>
  ({ sheets: Array.from({ length: count }), yield: 0.5 }) as unknown as BoardsView;
const layout = (key: string): FoundLayout => ({ key }) as FoundLayout;
const soon = (): Promise<void> => new Promise((resolve) => setTimeout(resolve, 0));
const done = (view: StackView): WorkEvent => ({ kind: 'done', stage: 'stack', key: 'k', view });
const best = (count: number, key: string): WorkEvent[] => [
  { kind: 'working', stage: 'boards', done: 0.1, message: '' },
  { kind: 'view', stage: 'boards', view: boards(count) },
  { kind: 'best', stage: 'boards', found: layout(key) },
];

describe('planning', () => {
  it('takes nothing from a run that a later one overtook', async () => {
    const { planning, calls } = workshop();
    planning.plan(job('first'));
    await soon();
    planning.plan(job('second'));
    await soon();
    expect(calls.map((call) => call.job.name)).toEqual(['first', 'second']);
    calls[0]?.tell(done(stack));
    calls[0]?.end(new WorkFault({ code: 'internal', message: 'late', place: null }));
    await soon();
    expect(planning.results.get().stack.view).toBeNull();
    expect(planning.results.get().artwork.fault).toBeNull();
    calls[1]?.tell(done(stack));
    expect(planning.results.get().stack.view).toBe(stack);
  });

  it('asks for the newest alone when several changes come while a worker is freed', async () => {
    const { planning, calls, asked } = workshop();
    planning.plan(job('first'));
    await soon();
    planning.plan(job('second'));
    planning.plan(job('third'));
    await soon();
    expect(calls.map((call) => call.job.name)).toEqual(['first', 'third']);
    expect(asked).toContain('cancel');
  });

  it('keeps the best layout so far when all work is stopped, and goes on from it', async () => {
    const { planning, calls } = workshop();
    planning.plan(job('sign'));
    await soon();
    for (const event of best(3, 'so far')) calls[0]?.tell(event);
    await planning.cancel();
    expect(planning.found.get()).toEqual(layout('so far'));
    expect(Object.values(planning.results.get()).some((state) => state.fault?.code === 'cancelled')).toBe(true);
    // what still comes from the stopped run changes nothing
    for (const event of best(9, 'too late')) calls[0]?.tell(event);
    expect(planning.found.get()).toEqual(layout('so far'));
    planning.plan(job('sign'));
    await soon();
    expect(calls[1]?.found).toEqual(layout('so far'));
  });

  it('begins again from the best layout when stopping a search took the worker down', async () => {
    const { planning, calls } = workshop(true);
    planning.plan(job('sign'));
    await soon();
    await planning.stopSearch();
    expect(calls).toHaveLength(1);
    for (const event of best(3, 'so far')) calls[0]?.tell(event);
    await planning.stopSearch();
    await soon();
    expect(calls).toHaveLength(2);
    expect(calls[1]?.found).toEqual(layout('so far'));
  });

  it('begins again when the worker is ended for what stands beside the plan; the search starts anew', async () => {
    const { planning, calls, endWorker } = workshop(true);
    planning.plan(job('sign'));
    await soon();
    for (const event of best(3, 'half way')) calls[0]?.tell(event);
    endWorker();
    await soon();
    expect(calls.map((call) => call.job.name)).toEqual(['sign', 'sign']);
    expect(calls[1]?.found).toBeNull();
    calls[1]?.tell(done(stack));
    expect(planning.results.get().stack.view).toBe(stack);
  });

  it('frees the worker of the job before also when that job is no longer shown', async () => {
    const { planning, asked } = workshop();
    planning.plan(job('first'));
    await soon();
    planning.take([], null);
    planning.plan(job('second'));
    await soon();
    expect(asked).toEqual(['cancel']);
  });

  it('leaves a change that comes while it goes back, or while it stops, alone', async () => {
    for (const give of ['back', 'up'] as const) {
      const { planning, calls } = workshop();
      planning.take([done(stack)], layout('kept'));
      const before = { results: planning.results.get(), found: planning.found.get() };
      planning.plan(job('first'));
      await soon();
      const giving = give === 'back' ? planning.restore(before) : planning.cancel();
      planning.plan(job('second'));
      const isRestored = await giving;
      await soon();
      expect(calls.map((call) => call.job.name)).toEqual(['first', 'second']);
      expect(Object.values(planning.results.get()).map((state) => state.status)).toEqual(Array(5).fill('waiting'));
      if (give === 'back') expect(isRestored).toBe(false);
    }
  });

  it('shows again what was there when it goes back, whatever still comes', async () => {
    const { planning, calls } = workshop();
    planning.take([done(stack)], layout('kept'));
    const before = planning.results.get();
    planning.plan(job('sign'));
    await soon();
    expect(await planning.restore({ results: before, found: layout('kept') })).toBe(true);
    calls[0]?.tell({ kind: 'working', stage: 'boards', done: 0.5, message: '' });
    expect(planning.results.get()).toBe(before);
    expect(planning.found.get()).toEqual(layout('kept'));
  });
});
