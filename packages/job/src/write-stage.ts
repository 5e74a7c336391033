import type { Drawing } from '@underlap/artwork/drawing';
import type { Verdict } from '@underlap/nest/problem';
import type { Sign } from '@underlap/stack/sign';
import type { Job } from './document.ts';
import { fileSlug } from './file-slug.ts';
import { filesStage } from './files-stage.ts';
import { jobNameOf } from './job-name.ts';
import { proveFiles } from './prove-files.ts';
import { reportHtml } from './report-html/page.ts';
import type { Report } from './report-schema.ts';
import { reportStage } from './report-stage.ts';
import { cutFiles } from './sheet-drawings.ts';
import { signPicture } from './sign-picture.ts';
import type { CutPiece, NestStageResult, SplitResult } from './stages.ts';
import { listenForStop } from './stop.ts';

/** What files are written from: the results of all stages before. */
export interface WriteInput {
  readonly job: Job;
  readonly drawing: Drawing;
  readonly sign: Sign;
  readonly split: SplitResult;
  readonly pieces: readonly CutPiece[];
  readonly splitsProven: boolean;
  /** Null when a part cannot be made to fit: then there is a report and nothing to cut. */
  readonly nested: NestStageResult | null;
  readonly verdict: Verdict | null;
  /** How long the work took until now, for the report. */
  seconds(): number;
  readonly signal?: AbortSignal;
}

/** Files by name, and the report among them as data. */
export interface Written {
  readonly report: Report;
  readonly files: ReadonlyMap<string, string | Uint8Array>;
}

/**
 * Sheets, proved by reading them back, and the report; no sheets while a piece has no place.
 * @throws JobError `check-failed` when a sheet, read back, is not what was meant: then there are no files.
 * `cancelled` between two sheets.
 */
export async function writeStage(input: WriteInput): Promise<Written> {
  const { job, drawing, sign, split, pieces, splitsProven, nested, verdict, signal } = input;
  const jobName = jobNameOf(job, drawing.name);
  const isWritten = nested !== null && nested.layout.unplaced.length === 0;
  const cuts = nested === null ? [] : cutFiles(nested.layout, pieces, job, jobName);
  const files = new Map<string, string | Uint8Array>(isWritten ? await filesStage(cuts, job, signal) : []);
  for (const file of isWritten ? files : []) {
    await listenForStop(signal);
    await proveFiles(new Map([file]), cuts, job);
  }
  await listenForStop(signal);
  const report = reportStage({
    job,
    jobName,
    drawing,
    sign,
    split,
    pieces,
    nested,
    verdict,
    splitsProven,
    cuts,
    isWritten,
    seconds: input.seconds(),
  });
  files.set('report.json', `${JSON.stringify(report, null, 2)}\n`);
  files.set('report.html', reportHtml({ report, sign, pieces, nested }));
  if (job.output.pictures) files.set(`${fileSlug(jobName)}-picture.svg`, signPicture(sign));
  return { report, files };
}
