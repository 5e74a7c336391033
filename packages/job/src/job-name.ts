import type { Job } from './document.ts';
import type { DesignResult } from './stages.ts';

/** What the job is called in titles and file names: its own name, else that of the artwork without its ending. */
export function jobNameOf(job: Job, artworkName: string): string {
  return job.name ?? job.artwork.name ?? artworkName.replace(/^.*[\\/]/, '').replace(/\.(svg|dxf)$/i, '');
}

/** The same for a job of several designs, which has no artwork to be called by. */
export function dayNameOf(job: Job, designs: readonly Pick<DesignResult, 'design' | 'drawing'>[]): string {
  const [first] = designs;
  return first !== undefined && first.design.id === '' ? jobNameOf(job, first.drawing.name) : (job.name ?? 'day');
}
