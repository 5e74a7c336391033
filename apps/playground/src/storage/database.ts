import { type DBSchema, type IDBPDatabase, openDB } from 'idb';
import type { KeptOffcut } from '../state/offcuts.ts';

/** A job as the browser keeps it. `revision` grows with every save, so that a stale copy cannot overwrite a newer one. */
export interface KeptJob {
  readonly id: string;
  readonly name: string;
  readonly revision: number;
  readonly savedAt: number;
  /** The desk as saved: plain data, read back with care since an older page may have written it. */
  readonly desk: unknown;
}

interface Shelves extends DBSchema {
  jobs: { key: string; value: KeptJob; indexes: { savedAt: number } };
  offcuts: { key: string; value: KeptOffcut };
}

export type JobDatabase = IDBPDatabase<Shelves>;

const NAME = 'underlap';
const VERSION = 1;

/** Open the browser's database. @throws (never at once) when the browser refuses: private window, policy, full disk. */
export async function openDatabase(): Promise<JobDatabase> {
  return openDB<Shelves>(NAME, VERSION, {
    upgrade(database) {
      database.createObjectStore('jobs', { keyPath: 'id' }).createIndex('savedAt', 'savedAt');
      database.createObjectStore('offcuts', { keyPath: 'id' });
    },
  });
}

export type SaveOutcome = { readonly kind: 'saved'; readonly revision: number } | { readonly kind: 'newer-exists' };

/** The jobs that this browser keeps. Every call may fail, as the browser's database may. */
export interface JobShelf {
  get(id: string): Promise<KeptJob | undefined>;
  /** Save a job unless somebody saved a newer revision meanwhile. */
  save(job: Omit<KeptJob, 'revision'>, knownRevision: number): Promise<SaveOutcome>;
  /** What is kept, newest first, without the jobs themselves. */
  list(): Promise<readonly Omit<KeptJob, 'desk'>[]>;
  forget(id: string): Promise<void>;
}

/** @throws (never at once) when the browser refuses. */
export async function openJobShelf(): Promise<JobShelf> {
  const database = await openDatabase();
  return {
    get: (id) => database.get('jobs', id),
    save: (job, knownRevision) => saveJob(database, job, knownRevision),
    list: () => listJobs(database),
    forget: (id) => database.delete('jobs', id),
  };
}

/** One transaction, so there is nothing in between. */
async function saveJob(
  database: JobDatabase,
  job: Omit<KeptJob, 'revision'>,
  knownRevision: number,
): Promise<SaveOutcome> {
  const transaction = database.transaction('jobs', 'readwrite');
  const kept = await transaction.store.get(job.id);
  if (kept !== undefined && kept.revision > knownRevision) {
    await transaction.done;
    return { kind: 'newer-exists' };
  }
  const revision = knownRevision + 1;
  await transaction.store.put({ ...job, revision });
  await transaction.done;
  return { kind: 'saved', revision };
}

async function listJobs(database: JobDatabase): Promise<readonly Omit<KeptJob, 'desk'>[]> {
  const kept = await database.getAllFromIndex('jobs', 'savedAt');
  return kept.reverse().map(({ id, name, revision, savedAt }) => ({ id, name, revision, savedAt }));
}
