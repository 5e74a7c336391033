import type { Progress } from '@underlap/geometry/context';
import { checkFault } from './check-failed.ts';
import { checkStage } from './check-stage.ts';
import type { JobContext, StageName } from './context.ts';
import { cutStage } from './cut-stage.ts';
import type { Job } from './document.ts';
import { nestStage } from './nest-stage.ts';
import { Steps } from './progress.ts';
import { proveSplits } from './prove-splits.ts';
import { readStage } from './read-stage.ts';
import { notFittingOf } from './report-messages.ts';
import { assertUsable, signStage } from './sign-stage.ts';
import { splitStage } from './split-stage.ts';
import type { JobResult } from './stages.ts';
import { throwIfStopped } from './stop.ts';
import { writeStage } from './write-stage.ts';

/**
 * From artwork to files: the one path that the command line, the page's worker and the tests all take.
 * @param artwork - text of the job's artwork (SVG or DXF).
 * @throws JobError, ArtworkError, StackError and the like, with a sentence and a place, when the input cannot be used or
 * when the independent check refuses the result. A part that does not fit is no fault of the input: the report's
 * `notFitting` tells of it and `files` holds the report alone.
 */
export async function planJob(job: Job, artwork: string, context: JobContext): Promise<JobResult> {
  const started = performance.now();
  const steps = new Steps(context.onProgress);
  const work = (stage: StageName) => ({
    seed: job.seed,
    ...(context.signal === undefined ? {} : { signal: context.signal }),
    onProgress: (progress: Progress) => steps.within(stage, progress.done, progress.message),
  });

  const drawing = readStage(artwork, job);
  steps.end('read');
  const sign = signStage(drawing, job);
  assertUsable(sign, job);
  steps.end('sign');
  const split = await splitStage(sign, job, work('split'));
  steps.end('split');
  const pieces = cutStage(split, sign, job);
  const splitsProven = proveSplits(split, sign, job);
  steps.end('cut');

  const fits = notFittingOf(split, null).length === 0;
  const nested = fits
    ? await nestStage(pieces, job, { ...work('nest'), onBest: (best) => context.onBest?.(best, pieces) }, context.nest)
    : null;
  throwIfStopped(context.signal);
  steps.end('nest');

  const verdict = nested === null ? null : checkStage(nested.layout, nested, pieces, job);
  const fault = verdict === null || nested === null ? null : checkFault(verdict, nested.layout);
  if (fault !== null) throw fault;
  steps.end('check');
  const { report, files } = await writeStage(
    {
      job,
      drawing,
      sign,
      split,
      pieces,
      splitsProven,
      nested,
      verdict,
      seconds: () => (performance.now() - started) / 1000,
    },
    () => steps.end('files'),
  );
  steps.end('report');
  return { drawing, sign, split, pieces, nest: nested, verdict, report, files };
}
