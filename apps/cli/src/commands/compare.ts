import { CAUTIONS } from '@underlap/artwork/sheet-drawing';
import { MOST_SIGNS } from '@underlap/job/choices';
import { type ComparisonRow, compareLayouts, conclusionOf } from '@underlap/job/comparison';
import { comparisonCsv, studyTable } from '@underlap/job/comparison-table';
import { dayNameOf } from '@underlap/job/job-name';
import { usableDesigns } from '@underlap/job/plan-job';
import { comparisonPage } from '@underlap/job/report-html/comparison-page';
import type { TurnRule } from '@underlap/nest/problem';
import type { Command } from 'commander';
import { EXIT, UsageError } from '../exit.ts';
import { addJobOptions, type JobOptions, overridesOf, turnsOption } from '../job-options.ts';
import { countsOption, sizesOption } from '../lengths.ts';
import { loadJob } from '../load-job.ts';
import { print, tell } from '../print.ts';
import type { Session } from '../session.ts';
import { boardsOf, STUDY_EFFORT_HELP, stoppedAfter, unitsOf } from '../study-words.ts';
import { table } from '../table.ts';
import { withProgress } from '../with-progress.ts';
import { writeFolder, writeOne } from '../write-files.ts';
import { compareSeams } from './compare-seams.ts';

interface Options extends JobOptions {
  readonly boards?: string;
  readonly out?: string;
  readonly csv?: string;
  readonly json?: boolean;
  readonly seams?: boolean;
}

/** `underlap compare`: the same job in every combination of boards, turns and batch. */
export function addCompare(root: Command, session: Session): void {
  const command = root
    .command('compare')
    .description('lay the same job out in several ways and set them side by side')
    .argument('<file>', 'JOB.json, or artwork with --bed and --boards')
    .option('--boards <sizes>', 'boards to compare, separated by commas ("508x305,24x12in")')
    .option('--seams', 'compare other seam plans instead, and large parts cut nevertheless: what a joint more saves')
    .option('--csv <file>', 'write the table as CSV')
    .option('--out <folder>', 'also write compare.json and compare.html with the pictures')
    .option('--json', 'print one JSON object')
    .addHelpText('after', STUDY_EFFORT_HELP);
  addJobOptions(command).action(async (file: string, options: Options) => {
    if (options.seams === true) {
      const { boards, ...others } = options;
      const sizes = boards === undefined ? {} : { boards: sizesOption('--boards', boards) };
      await compareSeams(loadJob(file, { ...overridesOf(others), ...sizes }), options, session);
      return;
    }
    const { batch, turns, ...others } = options;
    const sizes = options.boards === undefined ? null : sizesOption('--boards', options.boards);
    const over = overridesOf(others);
    const job = loadJob(file, sizes === null || 'boards' in over ? over : { ...over, boards: sizes });
    const axes = {
      boards: sizes ?? job.boards.map(({ width, height }) => ({ width, height })),
      turns:
        turns === undefined
          ? [job.turns.default]
          : turns.split(',').map((text) => turnsOption('--turns', text) as TurnRule),
      batches: batch === undefined ? [job.batch] : countsOption('--batch', batch, 1, MOST_SIGNS),
    };
    const count = axes.boards.length * axes.turns.length * axes.batches.length;
    if (count > MOST_COMBINATIONS)
      throw new UsageError(
        `These options make ${count} combinations; at most ${MOST_COMBINATIONS} are laid out: name fewer.`,
      );
    const isQuiet = options.json === true;
    const { pipeline, signal } = session;
    const designs = await usableDesigns(pipeline, job, signal);
    const name = dayNameOf(job, designs);
    const layouts = await withProgress(signal, isQuiet, (context, say) =>
      compareLayouts(job, axes, context, {
        pipeline,
        onRow: (row, made) =>
          say(`${made} of ${count}: ${row.board}, turns ${row.turns}, batch of ${row.batch}, ${boardsOf(row)}`),
      }),
    );
    const isStopped = session.signal.aborted;
    const rows = layouts.map((layout) => layout.row);
    const document = {
      units: 'mm',
      job: name,
      seed: job.seed,
      effort: job.effort,
      unitsPerLayout: unitsOf(job.effort, count),
      isComplete: !isStopped,
      conclusion: conclusionOf(rows),
      rows,
    };
    if (options.out !== undefined) {
      writeFolder(
        options.out,
        new Map([
          ['compare.json', `${JSON.stringify(document, null, 2)}\n`],
          ['compare.html', comparisonPage(name, layouts, designs, CAUTIONS)],
        ]),
      );
    }
    if (options.csv !== undefined) writeOne(options.csv, comparisonCsv(rows));
    print(isQuiet ? `${JSON.stringify(document)}\n` : `${tableOf(rows)}\n\n${document.conclusion}\n`);
    if (isStopped) {
      tell(`underlap: ${stoppedAfter(rows.length, count)}\n`);
      session.leaveWith(EXIT.interrupted);
    } else if (rows.some((row) => row.problem !== null)) session.leaveWith(EXIT.doesNotFit);
  });
}

/** More is an evening's work and a page nobody reads. */
const MOST_COMBINATIONS = 200;

function tableOf(rows: readonly ComparisonRow[]): string {
  const { heads, rows: lines } = studyTable(rows);
  return table([heads, ...lines].map((line) => line.map(({ text }) => text)));
}
