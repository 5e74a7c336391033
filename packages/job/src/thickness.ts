import type { ThicknessOf } from '@underlap/stack/levels';
import type { Job } from './document.ts';

/** How thick every part of a job is cut, mm. */
export function thicknessesOf(job: Pick<Job, 'thickness'>): ThicknessOf {
  return () => job.thickness;
}
