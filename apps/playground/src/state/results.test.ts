import { describe, expect, it } from 'vitest';
import type { StackView } from '../workers/views.ts';
import { allWaiting, isBusy, NO_RESULTS, withEvent } from './results.ts';

const stack: StackView = { heightMm: 0, layers: [], sections: [] };

describe('results', () => {
  it('keeps the last picture while a stage is done again', () => {
    let results = withEvent(NO_RESULTS, { kind: 'done', stage: 'stack', key: 'k', view: stack });
    results = allWaiting(results);
    expect(results.stack.status).toBe('waiting');
    expect(results.stack.view).toBe(stack);
    expect(isBusy(results)).toBe(true);
    results = withEvent(results, { kind: 'unchanged', stage: 'stack' });
    expect(results.stack).toMatchObject({ status: 'done', view: stack });
  });

  it('never lets progress go back within a run', () => {
    let results = withEvent(NO_RESULTS, { kind: 'working', stage: 'boards', done: 0.6, message: '' });
    results = withEvent(results, { kind: 'working', stage: 'boards', done: 0.4, message: 'later' });
    expect(results.boards).toMatchObject({ done: 0.6, message: 'later' });
  });

  it('leaves what stood on a stage that a person stopped', () => {
    let results = withEvent(NO_RESULTS, { kind: 'done', stage: 'stack', key: 'k', view: stack });
    results = withEvent(allWaiting(results), {
      kind: 'failed',
      stage: 'artwork',
      fault: { code: 'cancelled', message: '', place: null },
    });
    expect(results.stack).toMatchObject({ status: 'waiting', view: stack, key: 'k' });
    expect(isBusy(results)).toBe(false);
  });

  it('takes away what stood on a stage that failed, and says why', () => {
    let results = withEvent(NO_RESULTS, { kind: 'done', stage: 'stack', key: 'k', view: stack });
    results = withEvent(results, {
      kind: 'failed',
      stage: 'artwork',
      fault: { code: 'x', message: 'no', place: null },
    });
    expect(results.artwork.fault?.message).toBe('no');
    expect(results.stack).toMatchObject({ status: 'waiting', view: null });
    expect(isBusy(results)).toBe(false);
  });
});
