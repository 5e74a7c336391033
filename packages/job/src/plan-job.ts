import type { JobContext, StageName } from './context.ts';
import { type Design, designsOf } from './designs.ts';
import type { Job } from './document.ts';
import { ofDesign, Pipeline, type StageHooks } from './pipeline.ts';
import { Steps } from './progress.ts';
import type { DesignResult, JobResult } from './stages.ts';

/** Share of the progress of splitting that what is made ahead in threads counts for. */
const AHEAD_SHARE = 0.9;

/**
 * From artwork to files: the one path that the command line, the page's worker and the tests all take.
 * @param job - with its artwork (SVG or DXF) as `artwork.text`.
 * @throws JobError, ArtworkError, StackError and the like, with a sentence and a place, when the input cannot be used or
 * when the independent check refuses the result; `cancelled` soon after the signal, whatever the stage. A part that does not
 * fit is no fault of the input: the report's `notFitting` tells of it and `files` holds the report alone.
 */
export async function planJob(job: Job, context: JobContext = {}): Promise<JobResult> {
  const started = performance.now();
  const pipeline = context.pipeline ?? new Pipeline();
  const steps = new Steps(context.onProgress);
  const run = async <T>(stage: StageName, work: () => Promise<T>): Promise<T> => {
    steps.begin(stage);
    const result = await work();
    steps.end(stage);
    await context.onStage?.(stage);
    return result;
  };

  const designs = designsOf(job);
  const each = async (
    stage: StageName,
    work: (design: Design, hooks: StageHooks) => Promise<unknown>,
    ahead?: (hooks: StageHooks) => Promise<void>,
  ) => {
    await run(stage, async () => {
      const { signal } = context;
      await ahead?.({ signal, onProgress: (done, message) => steps.within(stage, done * AHEAD_SHARE, message) });
      for (const [index, design] of designs.entries()) {
        const onProgress = (done: number, message?: string) =>
          steps.within(stage, (index + done) / designs.length, message ?? design.id);
        await ofDesign(design, () => work(design, { signal: context.signal, onProgress }));
        onProgress(1);
      }
    });
  };
  await each('read', ({ job: own }, hooks) => pipeline.read(own, hooks));
  await each('sign', ({ job: own }, hooks) => pipeline.sign(own, hooks));
  await pipeline.assertUsable(job, { signal: context.signal });
  await each(
    'split',
    ({ job: own }, hooks) => pipeline.split(own, hooks),
    (hooks) =>
      pipeline.makeAhead(
        designs.map(({ job: own }) => own),
        hooks,
      ),
  );
  await each('cut', ({ job: own }, hooks) => pipeline.cut(own, hooks));
  const hooks = {
    signal: context.signal,
    endSearch: context.endSearch,
    onBest: context.onBest,
    onProgress: (done: number, message?: string) => steps.within('nest', done, message),
  };
  const stocks = await run('nest', () => pipeline.nest(job, hooks));
  const verdicts = await run('check', () => pipeline.check(job, hooks));
  const seconds = () => (performance.now() - started) / 1000;
  const { report, files } = await run('files', () => pipeline.write(job, { ...hooks, seconds }));
  return { designs: await pipeline.designs(job), stocks, verdicts, report, files };
}

/**
 * Everything of every design, when a person has accepted what was lost of their drawings or nothing was.
 * @throws JobError `artwork-faulty` and whatever the stages throw.
 */
export async function usableDesigns(pipeline: Pipeline, job: Job, signal?: AbortSignal): Promise<DesignResult[]> {
  await pipeline.assertUsable(job, { signal });
  await pipeline.makeAhead(
    designsOf(job).map((design) => design.job),
    { signal },
  );
  return pipeline.designs(job, { signal });
}
