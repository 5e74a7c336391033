import type { JobContext } from './context.ts';
import type { Job } from './document.ts';
import { JobError } from './error.ts';
import type { JobResult } from './stages.ts';

/**
 * From artwork to files: the one path that the command line, the page's worker and the tests all take.
 * @param artwork - text of the job's artwork (SVG or DXF).
 * @throws JobError, ArtworkError and the like, with a sentence and a place, when the input cannot be used. A part that does
 * not fit is no fault of the input: the report's `notFitting` tells of it and `files` holds the report alone.
 */
export async function planJob(_job: Job, _artwork: string, _context: JobContext): Promise<JobResult> {
  throw new JobError('internal', 'planning is not there yet');
}
