import type { NestRunner } from '@underlap/job/context';
import type { Job } from '@underlap/job/document';
import { planJob } from '@underlap/job/plan-job';
import type { JobResult } from '@underlap/job/stages';
import { ProgressLine } from './progress-line.ts';

/** How a command wants a job planned. */
export interface PlanOptions {
  readonly signal: AbortSignal;
  readonly isQuiet: boolean;
  /** Before the bar, when one command plans several jobs. */
  readonly prefix?: string;
  readonly nest: NestRunner;
}

/** Plan one job with a progress line on the terminal. */
export async function planWith(job: Job, artwork: string, options: PlanOptions): Promise<JobResult> {
  const line = new ProgressLine(!options.isQuiet, options.prefix);
  try {
    return await planJob(job, artwork, {
      signal: options.signal,
      onProgress: (progress) => line.show(progress),
      nest: options.nest,
    });
  } finally {
    line.clear();
  }
}
