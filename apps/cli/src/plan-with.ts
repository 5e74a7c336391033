import type { Job } from '@underlap/job/document';
import type { Pipeline } from '@underlap/job/pipeline';
import { planJob } from '@underlap/job/plan-job';
import type { JobResult } from '@underlap/job/stages';
import { ProgressLine } from './progress-line.ts';

/** How a command wants a job planned. */
export interface PlanOptions {
  readonly signal: AbortSignal;
  readonly isQuiet: boolean;
  /** Before the bar, when one command plans several jobs. */
  readonly prefix?: string;
  readonly pipeline: Pipeline;
}

/** Plan one job with a progress line on the terminal. */
export async function planWith(job: Job, options: PlanOptions): Promise<JobResult> {
  const line = new ProgressLine(!options.isQuiet, options.prefix);
  try {
    return await planJob(job, {
      signal: options.signal,
      onProgress: (progress) => line.show(progress),
      pipeline: options.pipeline,
    });
  } finally {
    line.clear();
  }
}
