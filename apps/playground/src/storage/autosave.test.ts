import { jobFrom } from '@underlap/job/parse-job';
import type { FoundLayout } from '@underlap/job/pipeline';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import type { Desk } from '../state/desk.ts';
import { startSession } from '../state/session.ts';
import type { WorkClient } from '../workers/client.ts';
import { startAutosave } from './autosave.ts';
import type { JobShelf, KeptJob } from './database.ts';

/** The browser's database, in memory; saving can be made to wait. */
function memory() {
  const kept = new Map<string, KeptJob>();
  let gate: Promise<void> = Promise.resolve();
  let refuses = false;
  const shelf: JobShelf = {
    get: async (id) => {
      if (refuses) throw new Error('refused');
      return kept.get(id);
    },
    save: async (job, knownRevision) => {
      await gate;
      if (refuses) throw new Error('refused');
      const before = kept.get(job.id);
      if (before !== undefined && before.revision > knownRevision) return { kind: 'newer-exists' };
      kept.set(job.id, { ...job, revision: knownRevision + 1 });
      return { kind: 'saved', revision: knownRevision + 1 };
    },
    list: async () => [...kept.values()].sort((a, b) => b.savedAt - a.savedAt),
    forget: async (id) => {
      kept.delete(id);
    },
  };
  return {
    kept,
    shelf,
    refuse: () => {
      refuses = true;
    },
    /** Saving waits until the returned function is called. */
    hold: () => {
      let open: () => void = () => undefined;
      gate = new Promise((resolve) => {
        open = resolve;
      });
      return () => open();
    },
  };
}

/** Locks of one browser, as its tabs share them. */
function locks() {
  const held = new Set<string>();
  return {
    request: async (name: string, _: unknown, use: (lock: object | null) => Promise<void> | undefined) => {
      if (held.has(name)) return use(null);
      held.add(name);
      await use({});
      held.delete(name);
    },
  };
}

function shelfOfTab(): Pick<Storage, 'getItem' | 'setItem' | 'removeItem'> {
  const values = new Map<string, string>();
  return {
    getItem: (key) => values.get(key) ?? null,
    setItem: (key, value) => void values.set(key, value),
    removeItem: (key) => void values.delete(key),
  };
}

const PAUSE_MS = 500;
const pause = () => vi.advanceTimersByTimeAsync(PAUSE_MS);
const layout = (key: string): FoundLayout => ({ key }) as FoundLayout;

/** A tab of the page on that database; its worker does nothing. */
async function tab(shelf: JobShelf) {
  vi.stubGlobal('sessionStorage', shelfOfTab());
  const api = { plan: async () => undefined, readJob: async (text: string) => JSON.parse(text) };
  const client = { ask: (what: (remote: typeof api) => unknown) => what(api), cancel: async () => false };
  const session = startSession(client as unknown as WorkClient, { offcuts: {} } as never);
  const { autosave, restored } = await startAutosave(session, async () => shelf);
  const notices = () => session.notices.shown.get().map((notice) => notice.text);
  return { session, autosave, restored, notices };
}

const job = jobFrom({ bed: { width: 500, height: 300 }, boards: [{ width: 508, height: 305 }] }, 'job');
const desk = (name: string): Desk => ({ job: { ...job, name }, held: [], kept: [] });
const nameIn = (entry: KeptJob): unknown => (entry.desk as { history: { present: Desk } }).history.present.job.name;
const foundIn = (entry: KeptJob): unknown => (entry.desk as { found: unknown }).found;

beforeEach(() => {
  vi.useFakeTimers({ toFake: ['setTimeout', 'clearTimeout'] });
  vi.stubGlobal('window', new EventTarget());
  vi.stubGlobal('document', Object.assign(new EventTarget(), { documentElement: { dataset: {} } }));
  vi.stubGlobal('navigator', { language: 'en', languages: ['en'] });
});
afterEach(() => {
  vi.useRealTimers();
  vi.unstubAllGlobals();
});

describe('keeping the desk', () => {
  it('keeps what is changed while an earlier change is still being written, as the same job', async () => {
    const { kept, shelf, hold } = memory();
    const { session, autosave, notices } = await tab(shelf);
    session.open(desk('first'));
    await pause();
    const goOn = hold();
    session.actOnJob('name', (before) => ({ ...before, name: 'second' }));
    await pause();
    session.actOnJob('name', (before) => ({ ...before, name: 'third' }));
    await pause();
    expect(autosave.keeping.get().kind).toBe('saving');
    goOn();
    await pause();
    expect([...kept.values()].map(nameIn)).toEqual(['third']);
    expect(notices()).toEqual([]);
    expect(autosave.keeping.get().kind).toBe('kept');
  });

  it('keeps a layout that is found while the job is being written', async () => {
    const { kept, shelf, hold } = memory();
    const { session } = await tab(shelf);
    session.open(desk('sign'));
    const goOn = hold();
    await pause();
    session.planning.found.set(layout('found meanwhile'));
    goOn();
    await pause();
    expect([...kept.values()].map(foundIn)).toEqual([layout('found meanwhile')]);
  });

  it('keeps the last change of the job before when another one is opened over it', async () => {
    const { kept, shelf, hold } = memory();
    const { session, autosave } = await tab(shelf);
    session.open(desk('before'));
    await pause();
    session.actOnJob('name', (was) => ({ ...was, name: 'before, changed' }));
    const goOn = hold();
    await pause();
    const opening = autosave.startNew().then(() => session.open(desk('after')));
    await vi.advanceTimersByTimeAsync(PAUSE_MS / 2);
    goOn();
    await opening;
    await pause();
    expect([...kept.values()].map(nameIn).sort()).toEqual(['after', 'before, changed']);
  });

  it('opens a copy where another tab holds the job, and writes over nothing', async () => {
    vi.stubGlobal('navigator', { language: 'en', languages: ['en'], locks: locks() });
    const { kept, shelf } = memory();
    const one = await tab(shelf);
    one.session.open(desk('shared'));
    await pause();
    const [id] = [...kept.keys()];
    const two = await tab(shelf);
    expect(two.restored).toBe(true);
    expect(two.notices()).toHaveLength(1);
    two.session.actOnJob('name', (before) => ({ ...before, name: 'in two' }));
    one.session.actOnJob('name', (before) => ({ ...before, name: 'in one' }));
    await pause();
    await pause();
    expect(nameIn(kept.get(id!)!)).toBe('in one');
    expect([...kept.values()].map(nameIn).sort()).toEqual(['in one', 'in two']);
  });

  it('becomes a job of its own where a browser without locks let another tab write first', async () => {
    const { kept, shelf } = memory();
    const one = await tab(shelf);
    one.session.open(desk('shared'));
    await pause();
    const two = await tab(shelf);
    two.session.actOnJob('name', (before) => ({ ...before, name: 'in two' }));
    await pause();
    one.session.actOnJob('name', (before) => ({ ...before, name: 'in one' }));
    await pause();
    expect([...kept.values()].map(nameIn).sort()).toEqual(['in one', 'in two']);
    expect(one.notices()).toHaveLength(1);
  });

  it('says once that nothing is kept, and goes on', async () => {
    const { shelf, refuse } = memory();
    const { session, autosave, notices } = await tab(shelf);
    refuse();
    session.open(desk('sign'));
    await pause();
    await autosave.openKept('anything');
    session.actOnJob('name', (before) => ({ ...before, name: 'changed' }));
    await pause();
    expect(autosave.keeping.get().kind).toBe('refused');
    expect(notices()).toHaveLength(1);
  });
});
