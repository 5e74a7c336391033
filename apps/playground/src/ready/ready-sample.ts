import type { Job } from '@underlap/job/document';
import type { FoundLayout } from '@underlap/job/pipeline';
import type { WorkEvent } from '../workers/events.ts';

/** A sample with its results, made while the page was built. */
export interface ReadySample {
  readonly job: Job;
  readonly done: readonly WorkEvent[];
  readonly found: FoundLayout | null;
}
