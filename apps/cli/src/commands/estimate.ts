import { CAUTIONS } from '@underlap/artwork/sheet-drawing';
import { type BatchRow, pricesOf, studyBatches } from '@underlap/job/batch-study';
import { MOST_SIGNS } from '@underlap/job/choices';
import { dayNameOf } from '@underlap/job/job-name';
import { usableDesigns } from '@underlap/job/plan-job';
import { batchPage } from '@underlap/job/report-html/batch-page';
import { notFittingOf } from '@underlap/job/report-messages';
import { signNeedsOf } from '@underlap/job/shop-needs';
import { handWorkPaysFrom, type PriceRow, priceFormula } from '@underlap/shop/price';
import type { Command } from 'commander';
import { EXIT } from '../exit.ts';
import { addJobOptions, type JobOptions, overridesOf } from '../job-options.ts';
import { countsOption } from '../lengths.ts';
import { loadJob } from '../load-job.ts';
import { print, tell } from '../print.ts';
import type { Session } from '../session.ts';
import { boardsOf, STUDY_EFFORT_HELP, stoppedAfter, unitsOf } from '../study-words.ts';
import { table } from '../table.ts';
import { withProgress } from '../with-progress.ts';
import { writeFolder } from '../write-files.ts';

interface Options extends JobOptions {
  readonly out?: string;
  readonly json?: boolean;
}

/** `underlap estimate`: how many boards every batch size needs. */
export function addEstimate(root: Command, session: Session): void {
  const command = root
    .command('estimate')
    .description('boards, proven bound, yield and waste for a range of batch sizes')
    .argument('<file>', 'JOB.json, or artwork with --bed and --board')
    .option('--out <folder>', 'also write estimate.json and estimate.html with the chart')
    .option('--json', 'print one JSON object')
    .addHelpText('after', STUDY_EFFORT_HELP);
  addJobOptions(command).action(async (file: string, options: Options) => {
    const batches = countsOption('--batch', options.batch ?? '1..12', 1, MOST_SIGNS);
    const { batch: _, ...others } = options;
    const job = loadJob(file, overridesOf(others));
    const isQuiet = options.json === true;
    const { pipeline, signal } = session;
    const designs = await usableDesigns(pipeline, job, signal);
    const name = dayNameOf(job, designs);
    const found = await withProgress(signal, isQuiet, async (context, say) => {
      const notFitting = notFittingOf(designs, null);
      if (notFitting.length > 0) return { rows: [], prices: [], notFitting };
      const rows = await studyBatches(job, batches, context, {
        pipeline,
        onRow: (row, index) => say(`${index + 1} of ${batches.length}: batch of ${row.batch}, ${boardsOf(row)}`),
      });
      return { rows, prices: pricesOf(rows, signNeedsOf(designs), job), notFitting };
    });
    const isStopped = session.signal.aborted;
    const document = {
      units: 'mm',
      job: name,
      seed: job.seed,
      effort: job.effort,
      unitsPerLayout: unitsOf(job.effort, batches.length),
      isComplete: !isStopped,
      currency: job.costs.currency,
      formula: priceFormula(job.costs),
      handWorkPaysFrom: handWorkPaysFrom(found.prices, job.costs.labourHour),
      rows: found.rows.map(({ needs: _needs, ...row }) => ({ ...row, ...pricedFields(found.prices, row.batch) })),
      notFitting: found.notFitting,
    };
    if (options.out !== undefined) {
      const files = new Map([['estimate.json', `${JSON.stringify(document, null, 2)}\n`]]);
      if (found.rows.length > 0) files.set('estimate.html', batchPage(name, found, job.costs, CAUTIONS));
      writeFolder(options.out, files);
    }
    print(
      isQuiet ? `${JSON.stringify(document)}\n` : `${estimateTable(found.rows, found.prices, job.costs.currency)}\n`,
    );
    for (const { message } of found.notFitting) tell(`underlap: ${message}\n`);
    const unplaced = found.rows.find((row) => row.unplaced > 0);
    if (unplaced !== undefined) {
      tell(
        `underlap: from a batch of ${unplaced.batch} on, pieces find no board: there are too few boards, or they are too small.\n`,
      );
    }
    if (isStopped) {
      tell(`underlap: ${stoppedAfter(found.rows.length, batches.length)}\n`);
      session.leaveWith(EXIT.interrupted);
    } else if (found.notFitting.length > 0 || unplaced !== undefined) session.leaveWith(EXIT.doesNotFit);
  });
}

/** Money and minutes of one batch; empty when pieces of it found no board. */
function pricedFields(prices: readonly PriceRow[], batch: number) {
  const price = prices.find((row) => row.batch === batch);
  if (price === undefined) return {};
  const { costPerSign, pricePerSign, profit, machineMinutes, handMinutes, leftForHandHour } = price;
  return {
    costPerSign,
    price: pricePerSign,
    profit,
    minutesPerSign: machineMinutes + handMinutes,
    machineMinutesPerSign: machineMinutes,
    handMinutesPerSign: handMinutes,
    leftForHandHour,
  };
}

function estimateTable(rows: readonly BatchRow[], prices: readonly PriceRow[], currency: string): string {
  const percent = (share: number) => `${(share * 100).toFixed(1)} %`;
  return table([
    [
      'batch',
      'boards',
      'at least',
      'boards/sign',
      'yield',
      'waste',
      'min/sign',
      `cost ${currency}`,
      `price ${currency}`,
      '',
    ],
    ...rows.map((row) => [
      String(row.batch),
      String(row.boards),
      String(row.boardsLowerBound),
      row.boardsPerSign.toFixed(2),
      percent(row.yield),
      percent(row.waste),
      ...pricedCells(prices.find((price) => price.batch === row.batch)),
      [row.isSweetSpot ? 'sweet spot' : '', row.isProvedMinimal ? 'proved minimal' : ''].filter(Boolean).join(', '),
    ]),
  ]);
}

function pricedCells(price: PriceRow | undefined): string[] {
  if (price === undefined) return ['', '', ''];
  return [
    (price.machineMinutes + price.handMinutes).toFixed(1),
    price.costPerSign.toFixed(2),
    price.pricePerSign.toFixed(2),
  ];
}
