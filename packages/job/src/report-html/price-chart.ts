import type { PriceRow } from '@underlap/shop/price';
import { type Html, html } from './html.ts';
import { coordinate } from './numbers.ts';

const WIDTH = 720;
const HEIGHT = 300;
const LEFT = 64;
const BOTTOM = 44;
const TOP = 16;
const RIGHT = 96;

/** Cost and price of one sign against the batch: dots and squares, told apart by shape. */
export function priceChart(rows: readonly PriceRow[], currency: string): Html {
  const first = rows[0]!.batch;
  const last = rows.at(-1)!.batch;
  const most = Math.max(1e-9, ...rows.map((row) => Math.max(row.pricePerSign, row.costPerSign)));
  const x = (batch: number) => LEFT + 12 + ((batch - first) / Math.max(1, last - first)) * (WIDTH - LEFT - RIGHT - 12);
  const y = (value: number) => HEIGHT - BOTTOM - (value / most) * (HEIGHT - BOTTOM - TOP);
  const line = (value: (row: PriceRow) => number) =>
    rows.map((row, at) => `${at === 0 ? 'M' : 'L'}${coordinate(x(row.batch))} ${coordinate(y(value(row)))}`).join('');
  const ticks = [0, 0.25, 0.5, 0.75, 1].map((share) => share * most);
  const end = rows.at(-1)!;
  const labels = [
    { words: 'price', at: y(end.pricePerSign) },
    { words: 'cost', at: Math.max(y(end.costPerSign), y(end.pricePerSign) + 16) },
  ];
  return html`<figure><svg xmlns="http://www.w3.org/2000/svg" role="img" aria-label="Cost and price of one sign against batch size" viewBox="0 0 ${WIDTH} ${HEIGHT}" font-family="system-ui, sans-serif" font-size="13" fill="#22252a">
${ticks.map(
  (
    tick,
  ) => html`<path d="M${LEFT} ${coordinate(y(tick))}H${WIDTH - RIGHT}" stroke="#dcdfe3"/><text x="${LEFT - 8}" y="${coordinate(y(tick))}" text-anchor="end" dominant-baseline="central">${tick.toFixed(most < 10 ? 1 : 0)}</text>
`,
)}
<path d="${line((row) => row.costPerSign)}" fill="none" stroke="#22252a" stroke-width="2"/>
<path d="${line((row) => row.pricePerSign)}" fill="none" stroke="#5a6069" stroke-width="1.5" stroke-dasharray="6 4"/>
${rows.map(
  (
    row,
  ) => html`<circle cx="${coordinate(x(row.batch))}" cy="${coordinate(y(row.costPerSign))}" r="4"/><path d="M${coordinate(x(row.batch) - 4)} ${coordinate(y(row.pricePerSign) - 4)}h8v8h-8Z" fill="#5a6069"/><text x="${coordinate(x(row.batch))}" y="${HEIGHT - BOTTOM + 18}" text-anchor="middle">${row.batch}</text>
`,
)}
${labels.map(({ words, at }) => html`<text x="${WIDTH - RIGHT + 12}" y="${coordinate(at)}" dominant-baseline="central">${words}</text>`)}
<text x="${coordinate((LEFT + WIDTH - RIGHT) / 2)}" y="${HEIGHT - 6}" text-anchor="middle">signs in the batch</text>
<text x="16" y="${coordinate((HEIGHT - BOTTOM + TOP) / 2)}" text-anchor="middle" transform="rotate(-90 16 ${coordinate((HEIGHT - BOTTOM + TOP) / 2)})">${currency} a sign</text>
</svg><figcaption>Cost (dots) and price (squares) of one sign.</figcaption></figure>`;
}
