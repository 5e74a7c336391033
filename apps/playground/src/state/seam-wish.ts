import type { Job, SeamWish } from '@underlap/job/document';

/** The wishes that count for a part: its own, else the general ones. */
export function seamWishOf(job: Job, partId: string): SeamWish {
  const { parts, ...general } = job.seams;
  return parts[partId] ?? general;
}

/** A job in which the part has wishes of its own. */
export function withSeamWish(job: Job, partId: string, wish: SeamWish): Job {
  return { ...job, seams: { ...job.seams, parts: { ...job.seams.parts, [partId]: wish } } };
}
