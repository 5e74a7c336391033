import { CAUTIONS } from '@underlap/artwork/sheet-drawing';
import type { Job } from '../document.ts';
import { JobError } from '../error.ts';
import { fileSlug } from '../file-slug.ts';
import { variantsPage } from '../report-html/variants-page.ts';
import type { FileSet, JobResult } from '../stages.ts';
import { unplannedVariant, type Variant, variantOf } from '../variants.ts';
import { bedsPicture, type PlannedBed } from './beds-picture.ts';
import { finishedPicture } from './finished-picture.ts';
import { type PngMaker, pathPictureSvg } from './path-picture.ts';
import { packReadMe } from './read-me.ts';

/** Pixels along the longer side of the picture of a finished sign. */
const PICTURE_PX = 1600;

/** One size of bed, mm. */
export interface PackBed {
  readonly width: number;
  readonly height: number;
}

/** Packs of one design for several beds. */
export interface Packs {
  readonly jobName: string;
  readonly variants: readonly Variant[];
  /** Files by folder; '.' holds what compares the beds. */
  readonly folders: ReadonlyMap<string, FileSet>;
}

/** Who plans, and who makes bitmaps. */
export interface PackContext {
  plan(job: Job, index: number): Promise<JobResult>;
  readonly png: PngMaker;
}

/**
 * A complete pack for every bed from the same master: cut files, report, build guide, a picture of the finished sign and a read-me;
 * and one picture that compares the beds.
 * @param beds - the smaller ones may be too small: then there is a line about that instead of a folder.
 * @throws JobError when no bed can be planned at all, and whatever planning throws.
 */
export async function planPacks(job: Job, beds: readonly PackBed[], { plan, png }: PackContext): Promise<Packs> {
  const planned: PlannedBed[] = [];
  const folders = new Map<string, FileSet>();
  let jobName = '';
  let first: JobError | null = null;
  for (const [index, bed] of beds.entries()) {
    const own = { ...job, bed: { ...job.bed, width: bed.width, height: bed.height } };
    const folder = `bed-${bed.width}x${bed.height}`;
    try {
      const result = await plan(own, index);
      jobName = result.report.job;
      planned.push({ variant: variantOf(result.report, folder), planned: result });
      folders.set(folder, await packFiles(result, own, png));
    } catch (error) {
      // A bed that is too small is no reason to withhold the packs for the others.
      if (!(error instanceof JobError) || error.code !== 'too-small') throw error;
      first ??= error;
      planned.push({ variant: unplannedVariant(bed, folder, error.message), planned: null });
    }
  }
  if (folders.size === 0 && first !== null) throw first;
  const variants = planned.map(({ variant }) => variant);
  const picture = bedsPicture(jobName, planned);
  const compared = pathPictureSvg(picture);
  const bitmap = await png(picture);
  folders.set(
    '.',
    new Map<string, string | Uint8Array>([
      ['variants.json', `${JSON.stringify({ units: 'mm', job: jobName, variants }, null, 2)}\n`],
      ['variants.html', variantsPage(jobName, variants, CAUTIONS, compared)],
      ['beds.svg', compared],
      ...(bitmap === null ? [] : ([['beds.png', bitmap]] as const)),
    ]),
  );
  return { jobName, variants, folders };
}

/** Everything that goes into the folder of one bed. */
async function packFiles({ designs, report, files }: JobResult, job: Job, png: PngMaker): Promise<FileSet> {
  const all = new Map(files);
  for (const { design, sign } of designs) {
    const name = design.id === '' ? 'finished' : `${fileSlug(design.id)}-finished`;
    const bitmap = await png(finishedPicture(sign, PICTURE_PX));
    if (bitmap !== null) all.set(`${name}.png`, bitmap);
  }
  all.set('read-me.txt', packReadMe(report, job));
  return all;
}
