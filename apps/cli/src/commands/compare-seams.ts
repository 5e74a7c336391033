import type { Job } from '@underlap/job/document';
import { dayNameOf } from '@underlap/job/job-name';
import { usableDesigns } from '@underlap/job/plan-job';
import { type SeamRow, savingOf, seamConclusion, studySeams, wayWords } from '@underlap/job/seam-study';
import { seamStudyCsv } from '@underlap/job/seam-study-csv';
import { EXIT } from '../exit.ts';
import { print, tell } from '../print.ts';
import type { Session } from '../session.ts';
import { boardsOf, unitsOf } from '../study-words.ts';
import { table } from '../table.ts';
import { withProgress } from '../with-progress.ts';
import { writeOne } from '../write-files.ts';

interface Options {
  readonly csv?: string;
  readonly json?: boolean;
}

/** `underlap compare --seams`: the job as it is, by other seam plans, and with whole parts cut; what a joint more saves. */
export async function compareSeams(job: Job, options: Options, session: Session): Promise<void> {
  const isQuiet = options.json === true;
  const { pipeline, signal } = session;
  const designs = await usableDesigns(pipeline, job, signal);
  let count = 1;
  const rows = await withProgress(signal, isQuiet, (context, say) =>
    studySeams(job, context, {
      pipeline,
      onRow: (row, made, all) => {
        count = all;
        say(`${made} of ${all}: ${wayWords(row)}, ${boardsOf(row)}`);
      },
    }),
  );
  const document = {
    units: 'mm',
    job: dayNameOf(job, designs),
    seed: job.seed,
    effort: job.effort,
    unitsPerLayout: unitsOf(job.effort, count),
    isComplete: rows.length === count,
    currency: job.costs.currency,
    conclusion: seamConclusion(rows),
    rows: rows.map((row) => ({ ...row, words: wayWords(row), saves: savingOf(row, rows[0]!) })),
  };
  if (options.csv !== undefined) writeOne(options.csv, seamStudyCsv(rows));
  print(
    isQuiet ? `${JSON.stringify(document)}\n` : `${seamTable(rows, job)}\n\n${document.conclusion}\n${howTo(rows)}`,
  );
  if (session.signal.aborted) {
    tell(`underlap: stopped after ${rows.length} of ${count} layouts; these are told.\n`);
    session.leaveWith(EXIT.interrupted);
  }
}

function seamTable(rows: readonly SeamRow[], job: Job): string {
  const base = rows[0]!;
  return table([
    [
      'way',
      'boards',
      'at least',
      'saved',
      `boards ${job.costs.currency}`,
      `a sign ${job.costs.currency}`,
      'minutes a sign',
      'joints',
      'mm that show',
      'mm not held',
      '',
    ],
    ...rows.map((row) => [
      wayWords(row),
      String(row.boards),
      String(row.boardsLowerBound),
      row === base ? '' : String(base.boards - row.boards),
      row.boardsPrice.toFixed(2),
      row.costPerSign.toFixed(2),
      row.minutesPerSign.toFixed(1),
      String(row.joints),
      row.showingMm.toFixed(0),
      row.looseMm.toFixed(0),
      row.problem ?? '',
    ]),
  ]);
}

/** How the maker takes one of them. */
function howTo(rows: readonly SeamRow[]): string {
  const [, first] = rows;
  if (first === undefined || first.wish === null) return '';
  const { plan, morePieces } = first.wish;
  const wish = plan === null ? `"morePieces": ${morePieces}` : `"plan": "${plan}"`;
  return `To take one, write it into the job, such as "seams": { "parts": { "${first.part}": { ${wish} } } }.\n`;
}
