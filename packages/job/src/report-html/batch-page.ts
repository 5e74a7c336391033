import { type PriceRow, priceFormula } from '@underlap/shop/price';
import type { BatchRow } from '../batch-study.ts';
import type { Costs } from '../document.ts';
import { batchChart, batchTable } from './batch-chart.ts';
import { costTable, handWorkWords } from './cost-tables.ts';
import { html } from './html.ts';
import { pageFrame } from './page.ts';
import { priceChart } from './price-chart.ts';

/** The page of a batch study: chart, table, and the cautions that go with anything one cuts from. */
export function batchPage(
  jobName: string,
  study: { readonly rows: readonly BatchRow[]; readonly prices: readonly PriceRow[] },
  costs: Costs,
  cautions: readonly string[],
): string {
  const { rows, prices } = study;
  const sweet = rows.filter((row) => row.isSweetSpot).at(-1);
  const isLast = sweet !== undefined && sweet === rows.at(-1) && rows.length > 1;
  return `<!DOCTYPE html>\n${pageFrame(
    `${jobName}: boards for a batch`,
    html`<h1>${jobName}: boards for a batch</h1>
${sweet === undefined ? null : html`<p class="lead">A batch of ${sweet.batch} needs the fewest boards for one sign: ${sweet.boardsPerSign.toFixed(2)}.${isLast ? ' Larger batches may need fewer still.' : ''}</p>`}
${batchChart(rows)}
${batchTable(rows)}
<section><h2>Cost and price</h2>${prices.length > 1 ? priceChart(prices, costs.currency) : null}
${costTable({ currency: costs.currency, rows: [...prices], formula: priceFormula(costs) })}
<p>${handWorkWords(prices, costs)}</p></section>
<section><h2>Cautions</h2><ul>${cautions.map(
      (caution) => html`<li>${caution}</li>
`,
    )}</ul></section>`,
  )}`;
}
