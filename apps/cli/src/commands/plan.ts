import { join } from 'node:path';
import type { Complaint } from '@underlap/artwork/drawing';
import { counted } from '@underlap/job/counted';
import { fileSlug } from '@underlap/job/file-slug';
import type { Report } from '@underlap/job/report-schema';
import type { ShelfOrder } from '@underlap/job/shelf';
import { type ShelfUse, withShelf } from '@underlap/job/with-shelf';
import { type Command, Option } from 'commander';
import { EXIT } from '../exit.ts';
import { addJobOptions, type JobOptions, overridesOf } from '../job-options.ts';
import { loadJob } from '../load-job.ts';
import { planWith } from '../plan-with.ts';
import { print, tell } from '../print.ts';
import type { Session } from '../session.ts';
import { table } from '../table.ts';
import { writeFolder } from '../write-files.ts';
import { loadShelf } from './shelf.ts';

interface Options extends JobOptions {
  readonly out?: string;
  readonly json?: boolean;
  readonly shelf?: string;
  readonly shelfOrder?: ShelfOrder;
}

/** `underlap plan`: from a job or bare artwork to cut files and a report. */
export function addPlan(root: Command, session: Session): void {
  const command = root
    .command('plan')
    .description('plan a job and write one file per sheet, the report and its page')
    .argument('<file>', 'JOB.json, or ART.svg / ART.dxf with --bed and --board')
    .option('--out <folder>', 'folder for the files (default: out/ and the name of the job)')
    .option('--shelf <file>', 'use offcuts of this shelf file where that saves a board')
    .addOption(
      new Option('--shelf-order <order>', 'which offcuts are tried first')
        .choices(['oldest', 'best'])
        .default('oldest'),
    )
    .option('--json', 'print the report as one JSON object');
  addJobOptions(command).action(async (file: string, options: Options) => {
    const given = loadJob(file, overridesOf(options));
    const isQuiet = options.json === true;
    const use =
      options.shelf === undefined
        ? null
        : await withShelf(given, loadShelf(options.shelf), options.shelfOrder ?? 'oldest', session.pipeline, {
            signal: session.signal,
          });
    const job = use?.job ?? given;
    const result = await planWith(job, { signal: session.signal, pipeline: session.pipeline, isQuiet });
    const { report } = result;
    const out = options.out ?? join('out', fileSlug(report.job));
    const files = writeFolder(out, result.files);
    if (!isQuiet)
      for (const sentence of warningSentences(result.designs.flatMap(({ sign }) => sign.complaints)))
        tell(`underlap: ${sentence}\n`);
    if (isQuiet) print(`${JSON.stringify(report)}\n`);
    else print(`${planSummary(report)}\n\n${files.length} files in ${out}, to look at: ${join(out, 'report.html')}\n`);
    if (use !== null && !isQuiet) print(`${shelfWords(use).join('\n')}\n`);
    if (report.notFitting.length > 0) {
      for (const sentence of notFittingSentences(report)) tell(`underlap: ${sentence}\n`);
      session.leaveWith(EXIT.doesNotFit);
    }
  });
}

/** What the shelf was good for. */
function shelfWords({ used, left, boardsWith, boardsWithout }: ShelfUse): string[] {
  const saved = boardsWithout - boardsWith;
  return [
    '',
    used.length === 0
      ? 'Shelf: nothing is taken from it.'
      : `Shelf: ${used.join(', ')} taken, ${boardsWith} ${boardsWith === 1 ? 'board' : 'boards'} to buy instead of ${boardsWithout} (${saved} saved). Once cut, book it: underlap shelf book SHELF.json report.json`,
    ...left.map(({ id, why }) => `  ${id} stays: ${why}.`),
  ];
}

/** What a person should look at before cutting; several of one kind as the first of them and a count. */
export function warningSentences(complaints: readonly Complaint[]): string[] {
  const byCode = new Map<string, Complaint[]>();
  for (const complaint of complaints)
    if (complaint.severity !== 'note') byCode.set(complaint.code, [...(byCode.get(complaint.code) ?? []), complaint]);
  return [...byCode.values()].map(([first, ...more]) => {
    const others = more.length === 0 ? '' : ` (and ${more.length} more of this kind: underlap inspect lists them)`;
    const { message, place } = first!;
    return `look here: ${message.includes(place.element) ? '' : `${place.element}: `}${message}${others}`;
  });
}

/** One sentence for each reason, with the parts or pieces it holds for. */
export function notFittingSentences(report: Report): string[] {
  const byReason = new Map<string, string[]>();
  for (const { part, piece, message } of report.notFitting)
    byReason.set(message, [...(byReason.get(message) ?? []), piece ?? part]);
  return [...byReason].map(([message, ids]) => {
    const shown = ids.length > 4 ? `${ids.slice(0, 3).join(', ')} and ${ids.length - 3} more` : ids.join(', ');
    return `${shown}: ${message}`;
  });
}

/** A short table of what came out. */
export function planSummary(report: Report): string {
  const percent = (value: number) => `${(value * 100).toFixed(1)} %`;
  const head = [
    headOf(report),
    ...report.splits.map((split) => {
      const seams = report.seams.filter((seam) => seam.part === split.part);
      const length = seams.reduce((sum, seam) => sum + seam.lengthMm, 0);
      const hidden = seams.reduce((sum, seam) => sum + seam.hiddenLengthMm, 0);
      const held = seams.reduce((sum, seam) => sum + seam.heldLengthMm, 0);
      const share = (part: number) => percent(length > 0 ? Math.min(1, part / length) : 1);
      const knobs = seams.reduce((sum, seam) => sum + seam.knobs, 0);
      return `${split.part}: ${split.pieces} pieces (${split.statement}), seam ${round(length)} mm, ${share(hidden)} hidden, ${share(held)} held, ${knobs} knobs`;
    }),
  ];
  const told = report.complaints
    .filter((complaint) => complaint.severity === 'warning')
    .map((complaint) => `Look here: ${complaint.message} (${complaintPlace(complaint)})`);
  if (told.length > 0) head.push('', ...told);
  if (report.sheets.length === 0) return head.join('\n');
  const rows = [
    ['sheet', 'times', 'board mm', 'pieces', 'yield', 'cut m', 'time'],
    ...report.sheets.flatMap((sheet, index) => (sheet.sameAs === null ? [rowOf(report, sheet, index)] : [])),
  ];
  const proof = report.isProvedMinimal ? 'proved minimal' : `at least ${report.boardsLowerBound} needed`;
  return [
    ...head,
    '',
    table(rows),
    ...loadingLines(report),
    ...hangingLines(report),
    '',
    `${counted(report.boards, 'board')} (${proof}), ${percent(report.yield)} used; ${report.check.piecesPlaced} of ${report.check.piecesExpected} pieces, check ${report.check.ok ? 'passed' : 'NOT passed'}, least gap ${report.check.smallestGapMm?.toFixed(3) ?? '-'} mm, least margin ${report.check.smallestMarginMm?.toFixed(3) ?? '-'} mm; ${report.seconds.toFixed(1)} s`,
  ].join('\n');
}

function headOf({ job, artwork, batch, designs, orders }: Report): string {
  if (designs.length === 1)
    return `${job}: ${counted(artwork.parts, 'part')}, ${round(artwork.widthMm)} x ${round(artwork.heightMm)} mm, batch of ${batch}`;
  const own = orders.filter(({ order }) => order !== '');
  const whose = own.length === 0 ? '' : ` for ${own.length === 1 ? 'one order' : `${own.length} orders`}`;
  return [
    `${job}: ${designs.length} designs, ${batch} signs${whose}`,
    ...own.map(
      (one) =>
        `  ${one.order}: ${one.designs.map(({ id, count }) => `${count} x ${id}`).join(', ')}; ${counted(one.pieces, 'piece')} on ${counted(one.sheets.length, 'sheet')}`,
    ),
  ].join('\n');
}

function rowOf(report: Report, sheet: Report['sheets'][number], index: number): string[] {
  return [
    sheet.file ?? `sheet ${index + 1}`,
    `x ${report.sheets.filter((other) => other.sameAs === index + 1).length + 1}`,
    `${round(sheet.width)} x ${round(sheet.height)}`,
    String(sheet.placements.length),
    `${(sheet.yield * 100).toFixed(1)} %`,
    (sheet.cutLengthMm / 1000).toFixed(2),
    minutes(sheet.seconds),
  ];
}

/** What a sign weighs, and how it hangs. */
function hangingLines({ hanging }: Report): string[] {
  return hanging.flatMap(({ design, massKg, points, words }) => {
    const told = points.length === 0 ? [] : words;
    return [[`${design === '' ? 'One sign' : design}: ${massKg.toFixed(2)} kg.`, ...told].join(' ')];
  });
}

/** How the material is set for every file that is not simply a whole board. */
function loadingLines({ loadings }: Report): string[] {
  const told = loadings.filter(({ words }) => words.length > 0);
  return told.length === 0
    ? []
    : ['', ...told.map(({ files, words, number }) => `${files[0] ?? `loading ${number}`}: ${words.join('; ')}.`)];
}

function complaintPlace({ place, at }: Report['complaints'][number]): string {
  return at === null ? place : `${place}, at ${round(at.x)}, ${round(at.y)} mm`;
}

function round(mm: number): string {
  return String(Number(mm.toFixed(1)));
}

function minutes(seconds: number): string {
  return `${Math.floor(seconds / 60)}:${String(Math.round(seconds % 60)).padStart(2, '0')}`;
}
