import type { Drawing, ReadOptions } from '@underlap/artwork/drawing';
import { readArtwork } from '@underlap/artwork/read-artwork';
import type { Job } from './document.ts';

/**
 * The job's artwork in millimetres, or with its size open.
 * @throws ArtworkError when the text is no artwork at all.
 */
export function readStage(artwork: string, job: Job): Drawing {
  return readArtwork(artwork, readOptionsOf(job));
}

/** What the job says about reading; the part of a job that `readStage` depends on. */
export function readOptionsOf(job: Job): ReadOptions {
  const { width, perInch } = job.artwork;
  return {
    name: job.artwork.name ?? job.artwork.file ?? 'the artwork',
    repair: job.artwork.repair,
    closeGapMm: job.artwork.closeGap,
    ...(width === null ? {} : { widthMm: width }),
    ...(perInch === null ? {} : { perInch }),
  };
}
