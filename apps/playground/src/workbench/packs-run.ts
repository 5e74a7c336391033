import { FORMATS } from '@underlap/job/choices';
import type { Job } from '@underlap/job/document';
import { fileSlug } from '@underlap/job/file-slug';
import { type PathPicture, paintPathPicture } from '@underlap/job/pack/path-picture';
import { type PackBed, planPacks } from '@underlap/job/pack/plan-packs';
import type { Pipeline } from '@underlap/job/pipeline';
import { planJob } from '@underlap/job/plan-job';
import { zipSync } from 'fflate';
import type { FileContent } from '../workers/api.ts';

/**
 * Packs of a job for several beds, as one archive with a folder a bed.
 * @param tell - called as each bed is begun, from 1.
 */
export async function packsContent(
  job: Job,
  beds: readonly PackBed[],
  pipeline: Pipeline,
  signal: AbortSignal,
  tell: (bed: number) => void,
): Promise<FileContent> {
  // What lies where a hand put it lies there on this bed only.
  const master = { ...job, pinned: [], output: { ...job.output, formats: [...FORMATS] } };
  const { jobName, folders } = await planPacks(master, beds, {
    plan: (own, index) => {
      tell(index + 1);
      return planJob(own, { pipeline, signal });
    },
    png: pngOf,
  });
  const entries = [...folders].flatMap(([folder, files]) =>
    [...files].map(([name, content]): [string, Uint8Array] => [
      folder === '.' ? name : `${folder}/${name}`,
      typeof content === 'string' ? new TextEncoder().encode(content) : content,
    ]),
  );
  const bytes = new Uint8Array(zipSync(Object.fromEntries(entries), { level: 6 }));
  return { name: `${fileSlug(jobName)}-packs.zip`, mime: 'application/zip', bytes };
}

/** Null where the browser cannot draw in a worker. */
async function pngOf(picture: PathPicture): Promise<Uint8Array | null> {
  if (typeof OffscreenCanvas === 'undefined') return null;
  const canvas = new OffscreenCanvas(picture.width, picture.height);
  const context = canvas.getContext('2d');
  if (context === null) return null;
  paintPathPicture(context, (d) => new Path2D(d), picture);
  const blob = await canvas.convertToBlob({ type: 'image/png' });
  return new Uint8Array(await blob.arrayBuffer());
}
