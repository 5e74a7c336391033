import { CAUTIONS } from '@underlap/artwork/sheet-drawing';
import type { Verdict } from '@underlap/nest/problem';
import type { Job } from './document.ts';
import { fileSlug } from './file-slug.ts';
import { filesStage } from './files-stage.ts';
import { type Guide, guideOf } from './guide-of.ts';
import { dayNameOf } from './job-name.ts';
import { maskFiles } from './masks.ts';
import { proveFiles } from './prove-files.ts';
import { buildGuidePage } from './report-html/build-guide-page.ts';
import { reportHtml } from './report-html/page.ts';
import type { ReportStock } from './report-input.ts';
import type { Report } from './report-schema.ts';
import { reportStage } from './report-stage.ts';
import { cutFiles } from './sheet-drawings.ts';
import { signPicture } from './sign-picture.ts';
import type { DesignResult, StockLayout } from './stages.ts';
import { listenForStop } from './stop.ts';

/** What files are written from: the results of all stages before. */
export interface WriteInput {
  readonly job: Job;
  readonly designs: readonly DesignResult[];
  /** Null when a part cannot be made to fit: then there is a report and nothing to cut. */
  readonly stocks: readonly StockLayout[] | null;
  /** One for each of `stocks`. */
  readonly verdicts: readonly Verdict[];
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
  const { job, designs, verdicts, signal } = input;
  const jobName = dayNameOf(job, designs);
  const stocks =
    input.stocks?.map((stock, index): ReportStock => {
      const name = stock.stockId === '' ? jobName : `${jobName} ${stock.stockId}`;
      const cuts = cutFiles(stock.layout, stock.pieces, stock.job, name);
      return { ...stock, verdict: verdicts[index]!, cuts };
    }) ?? null;
  const isWritten = stocks?.every(({ layout }) => layout.unplaced.length === 0) ?? false;
  const files = new Map<string, string | Uint8Array>();
  for (const stock of isWritten ? (stocks ?? []) : []) {
    const own = await filesStage(stock.cuts, stock.job, signal);
    for (const file of own) {
      await listenForStop(signal);
      await proveFiles(new Map([file]), stock.cuts, stock.job);
      files.set(...file);
    }
  }
  await listenForStop(signal);
  const guides = new Map(designs.map((result) => [result.design.id, guideOf(result, result.design.job)]));
  const masks = new Map<string, readonly string[]>();
  for (const result of isWritten ? designs : []) {
    for (const [partId, names] of await writeMasks(result, guides.get(result.design.id)!, jobName, files, signal))
      masks.set(`${result.design.prefix}${partId}`, names);
  }
  const report = reportStage({ job, jobName, designs, guides, masks, stocks, isWritten, seconds: input.seconds() });
  files.set('report.json', `${JSON.stringify(report, null, 2)}\n`);
  files.set('report.html', reportHtml({ report, designs, stocks, guides }));
  for (const [id, guide] of isWritten ? guides : []) {
    const title = id === '' ? jobName : id;
    files.set(
      id === '' ? 'build-guide.html' : `${fileSlug(id)}-build-guide.html`,
      buildGuidePage(title, guide, CAUTIONS),
    );
  }
  for (const { design, sign } of job.output.pictures ? designs : []) {
    const name = design.id === '' ? jobName : `${jobName} ${design.id}`;
    files.set(`${fileSlug(name)}-picture.svg`, signPicture(sign));
  }
  return { report, files };
}

/**
 * Masks of one design, proved like sheets and put among the files.
 * @returns names of the files by part.
 */
async function writeMasks(
  result: DesignResult,
  guide: Guide,
  jobName: string,
  files: Map<string, string | Uint8Array>,
  signal: AbortSignal | undefined,
): Promise<ReadonlyMap<string, readonly string[]>> {
  const { design } = result;
  const { masks: kind } = design.job.output;
  if (kind === 'none') return new Map();
  const cuts = maskFiles(result, guide, kind, design.id === '' ? jobName : `${jobName} ${design.id}`);
  // A mask lies on its piece: no board has edges there, and masks of one piece may be near one another.
  const own = { ...design.job, margin: 0, spacing: 0 };
  const written = await filesStage(cuts, own, signal);
  await proveFiles(written, cuts, own);
  for (const file of written) files.set(...file);
  const names = new Map<string, readonly string[]>();
  for (const { partId, name } of cuts) {
    const formats = own.output.formats.map((format) => `${name}.${format}`);
    names.set(partId, [...(names.get(partId) ?? []), ...formats]);
  }
  return names;
}
