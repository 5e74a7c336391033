import { describe, expect, it } from 'vitest';
import type { StageId } from '../workers/views.ts';
import { type BrowserSteps, followBrowserSteps } from './browser-steps.ts';
import { observable } from './observable.ts';

/** A browser's list of steps, as its history keeps it. */
function browser() {
  const steps: unknown[] = [null];
  let at = 0;
  let listener: (event: { readonly state: unknown }) => void = () => undefined;
  const window: BrowserSteps = {
    history: {
      get state() {
        return steps[at];
      },
      pushState: (state: unknown) => {
        steps.splice(at + 1, steps.length, state);
        at += 1;
      },
      replaceState: (state: unknown) => {
        steps[at] = state;
      },
    },
    addEventListener: (_, listen) => {
      listener = listen;
    },
  };
  const walk = (by: number): void => {
    at += by;
    listener({ state: steps[at] });
  };
  return { window, walk, count: () => steps.length };
}

describe('Back and Forward of the browser', () => {
  it('walk through the stages that were looked at', () => {
    const gaze = observable<{ stage: StageId; partId: string | null }>({ stage: 'boards', partId: null });
    const { window, walk, count } = browser();
    followBrowserSteps(gaze, window);
    gaze.update((before) => ({ ...before, stage: 'split' }));
    gaze.update((before) => ({ ...before, partId: 'sun' }));
    gaze.update((before) => ({ ...before, stage: 'files' }));
    expect(count()).toBe(3);
    walk(-1);
    expect(gaze.get()).toEqual({ stage: 'split', partId: 'sun' });
    walk(-1);
    expect(gaze.get().stage).toBe('boards');
    walk(2);
    expect(gaze.get().stage).toBe('files');
    expect(count()).toBe(3);
  });

  it('leave the stage alone for steps that are not of this page', () => {
    const gaze = observable<{ stage: StageId }>({ stage: 'stack' });
    const { window, walk } = browser();
    followBrowserSteps(gaze, window);
    window.history.pushState({ stage: 'cellar' }, '');
    walk(0);
    expect(gaze.get().stage).toBe('stack');
  });
});
