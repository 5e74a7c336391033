import { goesIn, isTurnedOn, usableBed } from '@underlap/job/board-loading';
import type { Job } from '@underlap/job/document';
import { fileSlug } from '@underlap/job/file-slug';
import { dayNameOf } from '@underlap/job/job-name';
import type { Report } from '@underlap/job/report-schema';
import type { JobResult } from '@underlap/job/stages';
import type { Verdict } from '@underlap/nest/problem';
import { zipSync } from 'fflate';
import type { Picture } from '../picture/ink.ts';
import { pictureSvg } from '../picture/picture-svg.ts';
import { NO_WORDS } from '../picture/picture-words.ts';
import { stackPicture } from '../picture/stack-picture.ts';
import type { FileContent } from '../workers/api.ts';
import type { FilesView, FileView } from '../workers/views.ts';
import { picturePng } from './picture-png.ts';
import { artworkView, stackView } from './sign-views.ts';

/** Everything that would be written for one job, made once and kept until the job changes. */
export interface FilesMade {
  readonly view: FilesView;
  readonly contents: ReadonlyMap<string, Uint8Array<ArrayBuffer>>;
  readonly archiveName: string;
}

/** A planned job whose pieces all have a place. */
export type PlannedFiles = Pick<JobResult, 'designs' | 'report' | 'files'> & {
  readonly job: Job;
  readonly verdict: Verdict;
};

/** Width of the picture files, px. */
const PICTURE_PX = 1600;

const MIME: Readonly<Record<string, string>> = {
  svg: 'image/svg+xml',
  dxf: 'image/vnd.dxf',
  pdf: 'application/pdf',
  json: 'application/json',
  html: 'text/html',
  png: 'image/png',
};

/**
 * The files of a job that lies whole on its boards: sheets, report, job file and pictures.
 * @throws JobError `check-failed` when the sheets, read back, are not what was meant: then there are no files.
 */
export async function makeFiles({ job, designs, verdict, report, files }: PlannedFiles): Promise<FilesMade> {
  const jobName = dayNameOf(job, designs);
  const contents = new Map<string, Uint8Array<ArrayBuffer>>();
  const add = (name: string, content: string | Uint8Array): void => {
    contents.set(name, typeof content === 'string' ? encode(content) : new Uint8Array(content));
  };
  for (const [name, content] of files) add(name, content);
  add(`${fileSlug(jobName)}.job.json`, `${JSON.stringify(job, null, 1)}\n`);
  for (const { design, drawing, sign } of designs) {
    const artwork = artworkView(drawing, sign);
    const stack = stackView(sign, design.job);
    const name = design.id === '' ? 'sign' : `sign-${fileSlug(design.id)}`;
    for (const [how, apart] of [
      ['assembled', 0],
      ['exploded', 1],
    ] as const) {
      const picture = stackPicture(artwork, stack, { peeled: 0, apart, showsGuides: false }, null, NO_WORDS);
      await addPicture(contents, `${name}-${how}`, picture);
    }
  }
  return {
    view: filesView(contents, job, report, verdict),
    contents,
    archiveName: `${fileSlug(jobName)}.zip`,
  };
}

async function addPicture(
  contents: Map<string, Uint8Array<ArrayBuffer>>,
  name: string,
  picture: Picture,
): Promise<void> {
  contents.set(`${name}.svg`, encode(pictureSvg(picture)));
  const png = await picturePng(picture, PICTURE_PX);
  if (png !== null) contents.set(`${name}.png`, png);
}

function filesView(contents: ReadonlyMap<string, Uint8Array>, job: Job, report: Report, verdict: Verdict): FilesView {
  const bed = usableBed(job.bed);
  const tooLarge = report.loadings.filter((loading) => !goesIn(bed, loading) && !isTurnedOn(bed, loading));
  const row = report.cost.rows.find((candidate) => candidate.batch === report.batch) ?? report.cost.rows.at(-1);
  return {
    files: [...contents].map(([name, bytes]): FileView => {
      const loading = report.loadings.find(({ files }) => files.includes(name));
      return {
        name,
        bytes: bytes.length,
        kind: loading === undefined ? kindOf(name) : 'sheet',
        sheet: loading === undefined ? null : loading.sheets[0]! - 1,
        times: loading?.times ?? 1,
        loading: loading?.number ?? null,
      };
    }),
    verdict,
    tooLarge: tooLarge.flatMap(({ files }) => files),
    messages: report.messages,
    cautions: report.cautions,
    costPerSign: row?.costPerSign ?? 0,
    pricePerSign: row?.pricePerSign ?? 0,
    currency: report.cost.currency,
    machineSeconds: report.cost.machineSeconds,
  };
}

function kindOf(name: string): FileView['kind'] {
  if (name.startsWith('sign-')) return 'picture';
  return 'report';
}

/** One file to hand out. */
export function fileContent(made: FilesMade, name: string): FileContent | null {
  const bytes = made.contents.get(name);
  if (bytes === undefined) return null;
  return { name, mime: MIME[name.slice(name.lastIndexOf('.') + 1)] ?? 'application/octet-stream', bytes };
}

/** Everything in one zip archive. */
export function archiveContent(made: FilesMade): FileContent {
  const entries = Object.fromEntries(made.contents);
  return { name: made.archiveName, mime: 'application/zip', bytes: zipSync(entries, { level: 6 }) };
}

function encode(text: string): Uint8Array<ArrayBuffer> {
  return new TextEncoder().encode(text);
}
