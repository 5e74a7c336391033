import type { StageId } from '../workers/views.ts';
import { STAGES } from '../workers/views.ts';
import type { Observable } from './observable.ts';

/** What of the browser's window and its steps is used here. */
export interface BrowserSteps {
  readonly history: Pick<History, 'state' | 'pushState' | 'replaceState'>;
  addEventListener(kind: 'popstate', listener: (event: { readonly state: unknown }) => void): void;
}

/** Every choice of a stage is a step that the browser's Back and Forward walk through; the address stays as it is. */
export function followBrowserSteps<Gaze extends { readonly stage: StageId }>(
  gaze: Observable<Gaze>,
  browser: BrowserSteps,
): void {
  const { history } = browser;
  history.replaceState({ stage: gaze.get().stage }, '');
  gaze.subscribe(() => {
    const { stage } = gaze.get();
    if (stage !== stageOf(history.state)) history.pushState({ stage }, '');
  });
  browser.addEventListener('popstate', ({ state }) => {
    const stage = stageOf(state);
    if (stage !== null) gaze.update((before) => (before.stage === stage ? before : { ...before, stage }));
  });
}

function stageOf(state: unknown): StageId | null {
  if (typeof state !== 'object' || state === null || !('stage' in state)) return null;
  return STAGES.find((stage) => stage === state.stage) ?? null;
}
