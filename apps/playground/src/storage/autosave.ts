import type { FoundLayout } from '@underlap/job/pipeline';
import type { Desk } from '../state/desk.ts';
import { type History, startHistory, takeStep } from '../state/history.ts';
import { type Observable, observable } from '../state/observable.ts';
import type { Session } from '../state/session.ts';
import { type JobShelf, openJobShelf } from './database.ts';
import { deskOf, readLastWords, writeLastWords } from './journal.ts';
import { type Claim, claimJob } from './tab-claim.ts';

/** How keeping stands, for the words in the header. */
export type Keeping =
  | { readonly kind: 'starting' }
  | { readonly kind: 'kept'; readonly at: number }
  | { readonly kind: 'saving' }
  | { readonly kind: 'refused'; readonly why: string };

export interface KeptName {
  readonly id: string;
  readonly name: string;
  readonly savedAt: number;
}

export interface Autosave {
  readonly keeping: Observable<Keeping>;
  readonly jobs: Observable<readonly KeptName[]>;
  /** Open a kept job in this tab. */
  openKept(id: string): Promise<void>;
  /** What is on the desk becomes a job of its own: nothing that is kept is written over. */
  startNew(): Promise<void>;
  forget(id: string): Promise<void>;
}

/** A pause in the changes before they are written, ms. */
const PAUSE_MS = 400;
const TAB_KEY = 'underlap-job-of-this-tab';
/** Undo steps are kept with the job while their artwork is small enough to write often, letters. */
const HISTORY_LETTERS = 2_000_000;

interface SavedDesk {
  readonly version: 2;
  readonly history: History<Desk>;
  /** What the last search found, so that a reload need not search again. */
  readonly found: FoundLayout | null;
}

/** What has been written, as it was then: what comes while it is written is not in it. */
interface Saved {
  readonly history: History<Desk>;
  readonly found: FoundLayout | null;
}

/**
 * Keep the desk in the browser's database from now on, and bring back what this tab (or, in a new tab, the last one) had.
 * @returns restored: whether a job was brought back; otherwise the caller opens the sample.
 */
export async function startAutosave(
  session: Session,
  openShelf: () => Promise<JobShelf> = openJobShelf,
): Promise<{ autosave: Autosave; restored: boolean }> {
  const keeping = observable<Keeping>({ kind: 'starting' });
  const jobs = observable<readonly KeptName[]>([]);
  let shelf: JobShelf | null = null;
  let claim: Claim | null = null;
  let revision = 0;
  let timer: ReturnType<typeof setTimeout> | null = null;
  /** What the database has for this tab's job. */
  let saved: Saved | null = null;
  const { inTurn } = turns();

  const refuse = (error: unknown): void => {
    const why =
      error instanceof Error && error.name === 'QuotaExceededError'
        ? session.say.get().t('notice.disk-full')
        : session.say.get().t('notice.no-database');
    if (keeping.get().kind !== 'refused') {
      session.notices.say(session.say.get().t('notice.not-kept', { why }), 'look');
    }
    keeping.set({ kind: 'refused', why });
  };
  const refreshList = async (): Promise<void> => {
    if (shelf !== null) jobs.set(await shelf.list());
  };
  const claimAs = async (id: string, isReload: boolean): Promise<boolean> => {
    const taken = await claimJob(id, isReload);
    if (taken === null) return false;
    claim?.release();
    claim = taken;
    rememberTab(id);
    return true;
  };
  const startOwn = async (): Promise<void> => {
    revision = 0;
    saved = null;
    await claimAs(crypto.randomUUID(), false);
  };
  const save = async (): Promise<void> => {
    const history = session.history.get();
    const found = session.planning.found.get();
    if (shelf === null || history === null || (saved?.history === history && saved.found === found)) return;
    if (claim === null) await startOwn();
    if (claim === null) return;
    try {
      keeping.set({ kind: 'saving' });
      const name = history.present.job.name ?? history.present.job.artwork.name ?? session.say.get().t('header.sign');
      const desk = { version: 2, history: trimmed(history), found } satisfies SavedDesk;
      const entry = { id: claim.jobId, name, savedAt: Date.now(), desk };
      const outcome = await shelf.save(entry, revision);
      if (outcome.kind === 'newer-exists') {
        await startOwn();
        session.notices.say(session.say.get().t('notice.other-tab-changed'), 'look');
        return save();
      }
      revision = outcome.revision;
      saved = { history, found };
      keeping.set({ kind: 'kept', at: entry.savedAt });
      await refreshList();
    } catch (error) {
      refuse(error);
    }
  };
  const schedule = (): void => {
    if (timer !== null) clearTimeout(timer);
    timer = setTimeout(() => void inTurn(save), PAUSE_MS);
  };
  const restore = async (id: string, isReload: boolean): Promise<boolean> => {
    const kept = await shelf?.get(id);
    const before = kept === undefined ? null : await readSaved(kept.desk, session);
    const history = (isReload ? await withLastWords(id, kept?.savedAt ?? 0, before, session) : null) ?? before;
    if (history === null) return false;
    const isOurs = await claimAs(id, isReload);
    if (isOurs) revision = kept?.revision ?? 0;
    else {
      await startOwn();
      session.notices.say(session.say.get().t('notice.open-elsewhere', { name: kept?.name ?? '' }));
    }
    const found = (kept?.desk as SavedDesk | undefined)?.found ?? null;
    saved = isOurs && before !== null ? { history: before, found } : null;
    session.planning.take([], found);
    session.open(history.present, history);
    keeping.set({ kind: 'kept', at: kept?.savedAt ?? Date.now() });
    if (saved?.history !== history) schedule();
    return true;
  };

  let restored = false;
  try {
    shelf = await openShelf();
    const last = tabsJob();
    const [newest] = await shelf.list();
    if (last !== null) restored = await restore(last, true);
    else if (newest !== undefined) restored = await restore(newest.id, false);
    await refreshList();
    if (!restored) keeping.set({ kind: 'kept', at: Date.now() });
  } catch (error) {
    refuse(error);
  }
  session.history.subscribe(schedule);
  session.planning.found.subscribe(schedule);
  // the database answers too late for a page that goes; the tab's own shelf takes what is written at once
  window.addEventListener('pagehide', () => {
    const present = session.history.get()?.present;
    const lastShelf = tabShelf();
    const stored = saved?.history.present ?? null;
    if (lastShelf === null || claim === null || present === undefined || present === stored) return;
    writeLastWords(lastShelf, claim.jobId, present, stored, Date.now());
  });
  document.addEventListener('visibilitychange', () => {
    if (document.visibilityState === 'hidden') void inTurn(save);
  });

  const autosave: Autosave = {
    keeping,
    jobs,
    openKept: (id) =>
      inTurn(async () => {
        await save();
        try {
          if (!(await restore(id, false))) session.notices.say(session.say.get().t('notice.unreadable'), 'look');
        } catch (error) {
          refuse(error);
        }
      }),
    startNew: () =>
      inTurn(async () => {
        await save();
        await startOwn();
      }),
    forget: (id) =>
      inTurn(async () => {
        try {
          if (id !== claim?.jobId) await shelf?.forget(id);
          await refreshList();
        } catch (error) {
          refuse(error);
        }
      }),
  };
  return { autosave, restored };
}

/** One thing after the other: a save must not begin while another one, or the change to another job, is under way. */
function turns() {
  let last: Promise<unknown> = Promise.resolve();
  return {
    inTurn: (what: () => Promise<void>): Promise<void> => {
      const next = last.then(what);
      last = next.catch(() => undefined);
      return next;
    },
  };
}

function trimmed(history: History<Desk>): History<Desk> {
  const letters = (history.past.length + 1) * (history.present.job.artwork.text?.length ?? 0);
  return letters <= HISTORY_LETTERS ? history : startHistory(history.present);
}

/**
 * A saved desk, or null when this page cannot read it. An older page may have written it, so the job goes through the same
 * checks as a job file; if that changes anything, the undo steps of the older page are given up.
 */
async function readSaved(value: unknown, session: Session): Promise<History<Desk> | null> {
  if (typeof value !== 'object' || value === null || !('version' in value) || value.version !== 2) return null;
  const { history } = value as Partial<SavedDesk>;
  if (history?.present?.job === undefined) return null;
  try {
    const before = JSON.stringify(history.present.job);
    const job = await session.client.ask((api) => api.readJob(before, null));
    return JSON.stringify(job) === before ? history : startHistory({ ...history.present, job });
  } catch {
    return null;
  }
}

/** The kept history and, as one more step, what was changed after it was kept; null when nothing was. */
async function withLastWords(
  id: string,
  keptAt: number,
  kept: History<Desk> | null,
  session: Session,
): Promise<History<Desk> | null> {
  const shelf = tabShelf();
  const words = shelf === null ? null : readLastWords(shelf, id, keptAt);
  const desk = words === null ? null : deskOf(words, kept?.present ?? null);
  if (words === null || desk === null) return null;
  const name = session.say.get().t('step.last-change');
  const history = kept === null ? startHistory(desk) : takeStep(kept, name, desk, words.at);
  return readSaved({ version: 2, history, found: null } satisfies SavedDesk, session);
}

function tabShelf(): Storage | null {
  try {
    return sessionStorage;
  } catch {
    return null;
  }
}

function tabsJob(): string | null {
  try {
    return sessionStorage.getItem(TAB_KEY);
  } catch {
    return null;
  }
}

function rememberTab(id: string): void {
  try {
    sessionStorage.setItem(TAB_KEY, id);
  } catch {
    // without it a reload brings back the newest job instead of this tab's
  }
}
