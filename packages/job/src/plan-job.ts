import type { JobContext, StageName } from './context.ts';
import type { Job } from './document.ts';
import { Pipeline } from './pipeline.ts';
import { Steps } from './progress.ts';
import { assertUsable } from './sign-stage.ts';
import type { JobResult } from './stages.ts';

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
  const hooks = (stage: StageName) => ({
    signal: context.signal,
    onProgress: (done: number, message?: string) => steps.within(stage, done, message),
  });
  const run = async <T>(stage: StageName, work: () => Promise<T>): Promise<T> => {
    steps.begin(stage);
    const result = await work();
    steps.end(stage);
    await context.onStage?.(stage);
    return result;
  };
  const search = { ...hooks('nest'), endSearch: context.endSearch, onBest: context.onBest };

  const drawing = await run('read', () => pipeline.read(job, hooks('read')));
  const sign = await run('sign', async () => {
    const found = await pipeline.sign(job, hooks('sign'));
    assertUsable(found, job);
    return found;
  });
  const split = await run('split', () => pipeline.split(job, hooks('split')));
  const { pieces } = await run('cut', () => pipeline.cut(job, hooks('cut')));
  const nest = await run('nest', () => pipeline.nest(job, search));
  const verdict = await run('check', () => pipeline.check(job, search));
  const seconds = () => (performance.now() - started) / 1000;
  const { report, files } = await run('files', () => pipeline.write(job, { ...search, seconds }));
  return { drawing, sign, split, pieces, nest, verdict, report, files };
}
