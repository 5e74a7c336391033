import type { BatchRow } from '../batch-study.ts';
import { type Html, html } from './html.ts';
import { coordinate, percent } from './numbers.ts';

const WIDTH = 720;
const HEIGHT = 320;
const LEFT = 56;
const BOTTOM = 44;
const TOP = 16;
const RIGHT = 120;

/**
 * Boards against batch size: a dot with its number for what was found, a short bar for the proven bound, a ring round sweet
 * spots. Told apart by shape, not by colour.
 */
export function batchChart(rows: readonly BatchRow[]): Html {
  const first = rows[0]?.batch ?? 1;
  const last = rows.at(-1)?.batch ?? 1;
  const most = Math.max(1, ...rows.map((row) => row.boards));
  const x = (batch: number) => LEFT + ((batch - first) / Math.max(1, last - first)) * (WIDTH - LEFT - RIGHT - 16) + 16;
  const y = (boards: number) => HEIGHT - BOTTOM - (boards / most) * (HEIGHT - BOTTOM - TOP - 18);
  const line = (value: (row: BatchRow) => number) =>
    rows.map((row, at) => `${at === 0 ? 'M' : 'L'}${coordinate(x(row.batch))} ${coordinate(y(value(row)))}`).join('');
  const step = Math.max(1, Math.ceil(most / 6));
  const ticks = Array.from({ length: Math.floor(most / step) + 1 }, (_, k) => k * step);
  const end = rows.at(-1);
  return html`<figure><svg xmlns="http://www.w3.org/2000/svg" role="img" aria-label="Boards needed against batch size" viewBox="0 0 ${WIDTH} ${HEIGHT}" font-family="system-ui, sans-serif" font-size="13" fill="#22252a">
${ticks.map(
  (
    tick,
  ) => html`<path d="M${LEFT} ${coordinate(y(tick))}H${WIDTH - RIGHT}" stroke="#dcdfe3"/><text x="${LEFT - 8}" y="${coordinate(y(tick))}" text-anchor="end" dominant-baseline="central">${tick}</text>
`,
)}
<path d="${line((row) => row.boardsLowerBound)}" fill="none" stroke="#5a6069" stroke-width="1.5" stroke-dasharray="6 4"/>
<path d="${line((row) => row.boards)}" fill="none" stroke="#22252a" stroke-width="2"/>
${rows.map(
  (
    row,
  ) => html`<path d="M${coordinate(x(row.batch) - 6)} ${coordinate(y(row.boardsLowerBound))}h12" stroke="#5a6069" stroke-width="2.5"/><circle cx="${coordinate(x(row.batch))}" cy="${coordinate(y(row.boards))}" r="4"/>${
    row.isSweetSpot
      ? html`<circle cx="${coordinate(x(row.batch))}" cy="${coordinate(y(row.boards))}" r="9" fill="none" stroke="#22252a" stroke-width="1.5"/>`
      : null
  }<text x="${coordinate(x(row.batch))}" y="${coordinate(y(row.boards) - 14)}" text-anchor="middle">${row.boards}</text><text x="${coordinate(x(row.batch))}" y="${HEIGHT - BOTTOM + 18}" text-anchor="middle">${row.batch}</text>
`,
)}
<text x="${coordinate((LEFT + WIDTH - RIGHT) / 2)}" y="${HEIGHT - 6}" text-anchor="middle">signs in the batch</text>
<text x="16" y="${coordinate((HEIGHT - BOTTOM + TOP) / 2)}" text-anchor="middle" transform="rotate(-90 16 ${coordinate((HEIGHT - BOTTOM + TOP) / 2)})">boards</text>
${end === undefined ? null : endLabels(end, y)}
</svg><figcaption>Boards needed (dots), proven lower bound (bars), sweet spots (rings): fewer boards a sign than in any smaller batch, and than in the next. More effort may find fewer boards where dots lie above their bars, and move the rings.</figcaption></figure>`;
}

/** Names at the right ends of both lines, pushed apart when these meet. */
function endLabels(end: BatchRow, y: (boards: number) => number): Html {
  const found = y(end.boards);
  const bound = Math.max(y(end.boardsLowerBound), found + 18);
  const at = WIDTH - RIGHT + 12;
  return html`<text x="${at}" y="${coordinate(found)}" dominant-baseline="central" font-weight="600">found</text><text x="${at}" y="${coordinate(bound)}" dominant-baseline="central" fill="#5a6069">proven bound</text>`;
}

/** The same as a table. */
export function batchTable(rows: readonly BatchRow[]): Html {
  return html`<div class="scroll"><table><thead><tr><th scope="col" class="n">Batch</th><th scope="col" class="n">Boards</th><th scope="col" class="n">Fewest possible</th><th scope="col" class="n">Boards a sign</th><th scope="col" class="n">Used</th><th scope="col" class="n">Waste</th><th scope="col">Remark</th></tr></thead><tbody>
${rows.map(
  (
    row,
  ) => html`<tr><th scope="row" class="n">${row.batch}</th><td class="n">${row.boards}</td><td class="n">${row.isProvedMinimal ? `${row.boardsLowerBound}, proved` : `at least ${row.boardsLowerBound}`}</td><td class="n">${row.boardsPerSign.toFixed(2)}</td><td class="n">${percent(row.yield)}</td><td class="n">${percent(row.waste)}</td><td>${remark(row)}</td></tr>
`,
)}</tbody></table></div>`;
}

function remark(row: BatchRow): string {
  if (row.unplaced > 0) return `${row.unplaced} pieces found no board`;
  return row.isSweetSpot ? 'sweet spot' : '';
}
