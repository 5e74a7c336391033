import type { BatchRow } from '../batch-study.ts';
import { batchChart, batchTable } from './batch-chart.ts';
import { html } from './html.ts';
import { pageFrame } from './page.ts';

/** The page of a batch study: chart, table, and the cautions that go with anything one cuts from. */
export function batchPage(jobName: string, rows: readonly BatchRow[], cautions: readonly string[]): string {
  const sweet = rows.filter((row) => row.isSweetSpot).at(-1);
  const isLast = sweet !== undefined && sweet === rows.at(-1) && rows.length > 1;
  return `<!DOCTYPE html>\n${pageFrame(
    `${jobName}: boards for a batch`,
    html`<h1>${jobName}: boards for a batch</h1>
${sweet === undefined ? null : html`<p class="lead">A batch of ${sweet.batch} needs the fewest boards for one sign: ${sweet.boardsPerSign.toFixed(2)}.${isLast ? ' Larger batches may need fewer still.' : ''}</p>`}
${batchChart(rows)}
${batchTable(rows)}
<section><h2>Cautions</h2><ul>${cautions.map(
      (caution) => html`<li>${caution}</li>
`,
    )}</ul></section>`,
  )}`;
}
