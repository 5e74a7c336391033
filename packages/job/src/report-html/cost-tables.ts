import { handWorkPaysFrom, type PriceRow } from '@underlap/shop/price';
import type { Costs } from '../document.ts';
import type { Report } from '../report-schema.ts';
import { type Html, html } from './html.ts';
import { duration, money } from './numbers.ts';

type Cost = Report['cost'];
type Row = Cost['rows'][number];

const TIMES = [
  ['cut', 'Cutting'],
  ['score', 'Scoring'],
  ['deep-score', 'Deep scoring'],
  ['engrave', 'Engraving'],
  ['travel', 'Beam off'],
] as const;

/** Machine time sheet by sheet and by process. */
export function timeTable(report: Report): Html {
  if (report.sheets.length === 0) return html``;
  const used = TIMES.filter(([name]) => report.cost.times[name] > 0);
  return html`<div class="scroll"><table><caption>Machine time, from the path of the beam, corners and curves, the speeds in the job and a limited acceleration. What the machine does besides is not in it.</caption><thead><tr><th scope="col">Sheet</th>${used.map(([, words]) => html`<th scope="col" class="n">${words}</th>`)}<th scope="col" class="n">Together</th></tr></thead><tbody>
${report.sheets.map(
  (
    sheet,
    at,
  ) => html`<tr><th scope="row">${at + 1}</th>${used.map(([name]) => html`<td class="n">${duration(sheet.times[name])}</td>`)}<td class="n">${duration(sheet.seconds)}</td></tr>
`,
)}<tr><th scope="row">All</th>${used.map(([name]) => html`<td class="n">${duration(report.cost.times[name])}</td>`)}<td class="n"><strong>${duration(report.cost.machineSeconds)}</strong></td></tr></tbody></table></div>`;
}

/** What one sign costs, batch by batch, and how the price comes about. */
export function costTable({ currency, rows, formula }: Pick<Cost, 'currency' | 'rows' | 'formula'>): Html {
  if (rows.length === 0) return html`<p>Nothing was laid out, so there is no cost.</p>`;
  const columns: readonly (readonly [string, (row: Row) => string])[] = [
    ['Boards', (row) => String(row.boards)],
    ['Material', (row) => row.material.toFixed(2)],
    ['Paint, glue', (row) => row.paintAndGlue.toFixed(2)],
    ['Extras', (row) => row.extras.toFixed(2)],
    ['Machine', (row) => row.machine.toFixed(2)],
    ['Hand work', (row) => row.labour.toFixed(2)],
    ['Overhead', (row) => row.overhead.toFixed(2)],
    ['Cost', (row) => row.costPerSign.toFixed(2)],
    ['Fees', (row) => row.fees.toFixed(2)],
    ['Price', (row) => row.pricePerSign.toFixed(2)],
    ['Profit', (row) => row.profit.toFixed(2)],
    ['Minutes by machine', (row) => row.machineMinutes.toFixed(1)],
    ['Minutes by hand', (row) => row.handMinutes.toFixed(1)],
    ['Left for an hour by hand', (row) => (row.leftForHandHour === null ? 'none' : row.leftForHandHour.toFixed(2))],
  ];
  return html`<div class="scroll many"><table><caption>One sign, in ${currency}</caption><thead><tr><th scope="col" class="n">Batch</th>${columns.map(([words]) => html`<th scope="col" class="n">${words}</th>`)}</tr></thead><tbody>
${rows.map(
  (
    row,
  ) => html`<tr><th scope="row" class="n">${row.batch}</th>${columns.map(([, cell]) => html`<td class="n">${cell(row)}</td>`)}</tr>
`,
)}</tbody></table></div><p class="lead">${formula}.</p>${rows.map((row) => handWork(row, currency, rows.length > 1))}`;
}

/** Where the minutes by hand go. */
function handWork({ batch, hand, handMinutes, leftForHandHour }: Row, currency: string, isOneOfSeveral: boolean): Html {
  if (handMinutes === 0 || isOneOfSeveral) return html``;
  const words = {
    sign: 'the sign itself',
    pieces: 'its pieces',
    layers: 'its layers',
    colours: 'colours',
    loading: 'loading',
    batch: 'getting ready',
  };
  const most = Object.entries(words)
    .map(([name, what]) => ({ what, minutes: hand[name as keyof typeof hand] }))
    .filter(({ minutes }) => minutes > 0)
    .sort((a, b) => b.minutes - a.minutes);
  return html`<p>Of ${handMinutes.toFixed(1)} minutes by hand for one sign (batch of ${batch}): ${most.map(({ what, minutes }) => `${what} ${minutes.toFixed(1)}`).join(', ')}. Once everything else is paid, the price leaves ${leftForHandHour === null ? 'nothing' : money(leftForHandHour, currency)} for an hour by hand.</p>`;
}

/** From which batch on hand work earns its own rate. */
export function handWorkWords(prices: readonly PriceRow[], costs: Costs): string {
  if (prices.every((row) => row.leftForHandHour === null)) return 'Hand work takes no time by the figures of this job.';
  const from = handWorkPaysFrom(prices, costs.labourHour);
  const rate = money(costs.labourHour, costs.currency);
  return from === null
    ? `In no batch does the price leave the ${rate} that an hour by hand costs.`
    : `From a batch of ${from} on the price leaves at least the ${rate} that an hour by hand costs.`;
}
