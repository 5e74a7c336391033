import { type ComparedLayout, type ComparisonRow, conclusionOf } from '../comparison.ts';
import type { DesignResult } from '../stages.ts';
import { type Html, html } from './html.ts';
import { layoutPicture } from './layout-picture.ts';
import { mm, percent } from './numbers.ts';
import { pageFrame } from './page.ts';

/** The page of a comparison: the sentence, the table, and every layout side by side. */
export function comparisonPage(
  jobName: string,
  layouts: readonly ComparedLayout[],
  designs: readonly DesignResult[],
  cautions: readonly string[],
): string {
  const rows = layouts.map((layout) => layout.row);
  return `<!DOCTYPE html>\n${pageFrame(
    `${jobName}: layouts compared`,
    html`<h1>${jobName}: layouts compared</h1>
<p class="lead">${conclusionOf(rows)}</p>
${comparisonTable(rows)}
<section><h2>Side by side</h2><div class="pair">${layouts.map((layout) => {
      const { row, stocks } = layout;
      return html`<figure>${stocks === null ? null : layoutPicture(stocks, designs)}<figcaption>${row.board} mm boards, turns ${row.turns}, batch of ${row.batch}: ${
        row.problem ?? `${row.boards} boards (at least ${row.boardsLowerBound}), ${percent(row.yield)} used`
      }.</figcaption></figure>`;
    })}</div></section>
<section><h2>Cautions</h2><ul>${cautions.map(
      (caution) => html`<li>${caution}</li>
`,
    )}</ul></section>`,
  )}`;
}

/** All rows, the best yield in bold. */
function comparisonTable(rows: readonly ComparisonRow[]): Html {
  const best = Math.max(...rows.map((row) => (row.problem === null ? row.yield : 0)));
  return html`<div class="scroll"><table><caption>Every combination, laid out</caption><thead><tr><th scope="col">Board mm</th><th scope="col">Turns</th><th scope="col" class="n">Batch</th><th scope="col" class="n">Boards</th><th scope="col" class="n">At least</th><th scope="col" class="n">Used</th><th scope="col" class="n">Waste</th><th scope="col" class="n">Largest rest</th><th scope="col" class="n">Seconds</th></tr></thead><tbody>
${rows.map((row) => {
  const used =
    row.problem !== null
      ? html`${row.problem}`
      : row.yield === best
        ? html`<strong>${percent(row.yield)} (best)</strong>`
        : html`${percent(row.yield)}`;
  return html`<tr><th scope="row">${row.board}</th><td>${row.turns}</td><td class="n">${row.batch}</td><td class="n">${row.boards}</td><td class="n">${row.boardsLowerBound}</td><td class="n">${used}</td><td class="n">${percent(row.waste)}</td><td class="n">${mm(row.largestOffcutMm2 / 100)} cm²</td><td class="n">${row.seconds.toFixed(1)}</td></tr>
`;
})}</tbody></table></div>`;
}
