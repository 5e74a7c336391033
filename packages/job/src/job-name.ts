import type { Job } from './document.ts';

/** What the job is called in titles and file names: its own name, else that of the artwork without its ending. */
export function jobNameOf(job: Job, artworkName: string): string {
  return job.name ?? job.artwork.name ?? artworkName.replace(/^.*[\\/]/, '').replace(/\.(svg|dxf)$/i, '');
}
