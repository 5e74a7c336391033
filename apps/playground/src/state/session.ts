import type { Job } from '@underlap/job/document';
import { faultWords } from '../words/fault-words.ts';
import { type Say, sayIn } from '../words/say.ts';
import type { WorkClient } from '../workers/client.ts';
import { faultOf } from '../workers/fault.ts';
import type { StageId } from '../workers/views.ts';
import { type Desk, jobToPlan, withJob } from './desk.ts';
import { type History, redo, startHistory, takeStep, undo } from './history.ts';
import type { Spot } from './matters.ts';
import { type Notices, startNotices } from './notices.ts';
import { type Observable, observable } from './observable.ts';
import type { OffcutShelf } from './offcuts.ts';
import { type Planning, type Snapshot, startPlanning } from './planning.ts';
import { type Preferences, startPreferences } from './preferences.ts';

/** What the user looks at; not part of the job, not undone. */
export interface Gaze {
  readonly stage: StageId;
  /** A part selected everywhere it appears. */
  readonly partId: string | null;
  /** A placement selected on the boards. */
  readonly placementId: string | null;
  /** A place that the picture of its stage is to show once. */
  readonly spot: Spot | null;
}

/** Everything the views read and do. Views know nothing of workers; this knows nothing of views. */
export interface Session {
  readonly history: Observable<History<Desk> | null>;
  readonly gaze: Observable<Gaze>;
  readonly preferences: Observable<Preferences>;
  /** How things are said under these preferences. */
  readonly say: Observable<Say>;
  readonly notices: Notices;
  readonly planning: Planning;
  readonly client: WorkClient;
  readonly offcuts: OffcutShelf;
  /** Take a job onto the desk in place of what is there. */
  open(desk: Desk, history?: History<Desk>): void;
  /** Change the desk by a named step that can be undone. */
  act(name: string, change: (desk: Desk) => Desk, mergeKey?: string): void;
  /** Change the job by a named step. */
  actOnJob(name: string, change: (job: Job) => Job, mergeKey?: string): void;
  undo(): void;
  redo(): void;
  /** Plan again from where things stand (after a stop). */
  planAgain(): void;
  /** Show the drawing, stack and seams of another design of the job. */
  lookAt(designId: string): void;
  /** Search for a layout again although one is there. */
  searchAgain(): Promise<void>;
  /** End what is laid out beside the page's own layout (comparison, batches) at once. */
  stopTrying(): Promise<void>;
  /** Is there a finished state that `goBack` would bring back? */
  readonly canGoBack: Observable<boolean>;
  /** Give up what is under way together with the changes that asked for it. */
  goBack(): Promise<void>;
  /** Run something that may fail; a failure becomes a sentence. */
  attempt(what: () => Promise<void>): Promise<void>;
}

/** @param offcuts - where offcuts wait for another job. */
export function startSession(client: WorkClient, offcuts: OffcutShelf): Session {
  const history = observable<History<Desk> | null>(null);
  const gaze = observable<Gaze>({ stage: 'boards', partId: null, placementId: null, spot: null });
  const notices = startNotices();
  const preferences = startPreferences();
  const say = observable(sayIn(preferences.get()));
  preferences.subscribe(() => say.set(sayIn(preferences.get())));
  const planning = startPlanning(client);
  let planned: Pick<Desk, 'job' | 'held'> | null = null;

  /** The last state in which nothing was under way. */
  let settled: { readonly desk: Desk; readonly snapshot: Snapshot } | null = null;
  const canGoBack = observable(false);
  const settle = (desk: Desk | undefined): void => {
    const snapshot = planning.snapshot();
    if (desk === undefined || snapshot?.results.boards.status !== 'done') return;
    settled = { desk, snapshot };
    canGoBack.set(true);
  };

  const replace = (next: History<Desk>): void => {
    settle(history.get()?.present);
    history.set(next);
    const { job, held } = next.present;
    if (planned?.job === job && planned.held === held) return;
    planned = { job, held };
    planning.plan(jobToPlan(next.present));
  };
  const act: Session['act'] = (name, change, mergeKey) => {
    const before = history.get();
    if (before === null) return;
    const next = takeStep(before, name, change(before.present), Date.now(), mergeKey ?? null);
    if (next !== before) replace(next);
  };
  const walk = (way: typeof undo<Desk>, words: 'notice.undone' | 'notice.redone'): void => {
    const before = history.get();
    if (before === null) return;
    const next = way(before);
    if (next === before) return;
    const step = way === undo ? before.past.at(-1) : before.future[0];
    replace(next);
    notices.say(say.get().t(words, { step: step?.name ?? '' }));
  };

  return {
    history,
    gaze,
    preferences,
    say,
    notices,
    planning,
    client,
    offcuts,
    open: (desk, walked) => {
      planned = null;
      planning.looksAt.set(null);
      if (walked === undefined) {
        replace(startHistory(desk));
        settled = null;
        canGoBack.set(false);
      } else {
        // what was there can be gone back to while the new one is being read
        settle(history.get()?.present);
        planning.take([], null);
        replace(walked);
      }
      gaze.update((before) => ({ ...before, partId: null, placementId: null }));
    },
    act,
    actOnJob: (name, change, mergeKey) => act(name, (desk) => withJob(desk, change), mergeKey),
    undo: () => walk(undo, 'notice.undone'),
    redo: () => walk(redo, 'notice.redone'),
    planAgain: () => {
      const present = history.get()?.present;
      if (present !== undefined) planning.plan(jobToPlan(present));
    },
    lookAt: (designId) => {
      const present = history.get()?.present;
      planning.looksAt.set(designId);
      gaze.update((before) => ({ ...before, partId: null }));
      if (present !== undefined) planning.plan(jobToPlan(present));
    },
    searchAgain: async () => {
      const present = history.get()?.present;
      if (present === undefined) return;
      settle(present);
      await client.ask((api) => api.forgetLayout(jobToPlan(present)));
      planning.forgetLayout();
      planning.plan(jobToPlan(present));
    },
    stopTrying: async () => {
      await client.insist((api) => api.stopTrying());
    },
    canGoBack,
    goBack: async () => {
      const back = settled;
      let walked = history.get();
      if (back === null || walked === null) return;
      while (!isSameWork(walked.present, back.desk) && walked.past.length > 0) walked = undo(walked);
      if (!isSameWork(walked.present, back.desk)) return;
      const { job, held } = walked.present;
      planned = { job, held };
      history.set(walked);
      if (await planning.restore(back.snapshot)) notices.say(say.get().t('notice.as-before'));
    },
    attempt: async (what) => {
      try {
        await what();
      } catch (error) {
        const fault = faultOf(error);
        if (fault.code === 'cancelled') notices.say(say.get().t('notice.stopped'));
        else notices.say(faultWords(fault, say.get()), 'look');
      }
    },
  };
}

/** Do two desks ask for the same work? */
function isSameWork(a: Desk, b: Desk): boolean {
  return a.job === b.job && a.held === b.held;
}
