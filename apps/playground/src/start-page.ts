import { artworkText } from '@underlap/artwork/artwork-text';
import type { Job } from '@underlap/job/document';
import { fromFlatJson } from './ready/flat-json.ts';
import type { ReadySample } from './ready/ready-sample.ts';
import { SAMPLES, type Sample } from './samples.ts';
import { takeStep } from './state/history.ts';
import { type Observable, observable } from './state/observable.ts';
import type { Session } from './state/session.ts';
import { type Autosave, startAutosave } from './storage/autosave.ts';

/** What the page does with files and kept jobs. */
export interface Page {
  /** Null until the browser's database has answered. */
  readonly autosave: Observable<Autosave | null>;
  openSample(sample: Sample): Promise<void>;
  /** Artwork (SVG, DXF) or a saved job, as dropped or chosen. */
  openFiles(files: readonly File[]): Promise<void>;
}

/** Open the first sample with the results that came with the page; false when it came without. */
async function openReady(session: Session): Promise<boolean> {
  const { readySample } = await import('virtual:ready-sample');
  if (readySample === null) return false;
  const { job, done, found } = fromFlatJson(readySample) as ReadySample;
  session.planning.take(done, found);
  session.open({ job, held: [], kept: [] });
  return true;
}

/** Files above this are no artwork and no job; reading them would only hold the page up. Bytes. */
const LARGEST_FILE = 120e6;

/** Waits until the drawing of the job on the desk has been read or refused. */
function isDrawingRead({ planning: { results } }: Session): Promise<boolean> {
  return new Promise((tell) => {
    const look = (): boolean => {
      const { status } = results.get().artwork;
      if (status !== 'done' && status !== 'failed') return false;
      tell(status === 'done');
      return true;
    };
    if (look()) return;
    const stop = results.subscribe(() => {
      if (look()) stop();
    });
  });
}

/** Bring back what was on the desk, or open the sample, and keep it from then on. */
export function startPage(session: Session): Page {
  const autosave = observable<Autosave | null>(null);

  /** Another job: nothing that is shown or kept of the one before belongs to it. Opening it is a step that can be undone. */
  const putOnDesk = async (job: Job): Promise<void> => {
    await autosave.get()?.startNew();
    const desk = { job, held: [], kept: [] };
    const before = session.history.get();
    const name = session.say.get().t('step.opened', { job: job.name ?? job.artwork.name ?? '' });
    if (before === null) session.planning.take([], null);
    session.open(desk, before === null ? undefined : takeStep(before, name, desk, Date.now()));
    window.scrollTo({ top: 0 });
  };

  const openSample = (sample: Sample): Promise<void> =>
    session.attempt(async () => {
      const { job, artwork } = await sample.load();
      const parsed = await session.client.ask((api) => api.readJob(job, artwork));
      await putOnDesk(parsed);
    });

  const openFile = async (file: File): Promise<void> => {
    if (file.size > LARGEST_FILE) {
      session.notices.say(
        session.say.get().t('notice.too-large', { file: file.name, size: Math.round(file.size / 1e6) }),
        'look',
      );
      return;
    }
    const text = artworkText(new Uint8Array(await file.arrayBuffer()));
    const isJob = /\.json$/i.test(file.name) || text.trimStart().startsWith('{');
    const like = session.history.get()?.present.job ?? null;
    const job = isJob
      ? await session.client.ask((api) => api.readJob(text, null))
      : await session.client.ask((api) => api.newJob(text, file.name, like));
    await putOnDesk(job);
    session.preferences.update((before) => ({ ...before, isNewcomer: false }));
    session.gaze.update((gaze) => ({ ...gaze, stage: isJob ? 'boards' : 'artwork' }));
    if (isJob) session.notices.say(session.say.get().t('notice.job-open', { file: file.name }));
    // of a drawing that cannot be read the stage says why; only one that was read is open
    else if (await isDrawingRead(session)) {
      session.notices.say(session.say.get().t('notice.drawing-open', { file: file.name }));
    }
  };

  // what is opened in the first moments waits, or what comes back from the database would take its place
  const isStarted = session.attempt(async () => {
    const { autosave: started, restored } = await startAutosave(session);
    autosave.set(started);
    if (!restored && !(await openReady(session))) await openSample(SAMPLES[0]);
  });

  return {
    autosave,
    openSample: async (sample) => {
      await isStarted;
      await openSample(sample);
    },
    openFiles: (files) =>
      session.attempt(async () => {
        await isStarted;
        const [file, ...others] = files;
        if (file === undefined) return;
        if (others.length > 0) session.notices.say(session.say.get().t('notice.one-file'));
        await openFile(file);
      }),
  };
}
