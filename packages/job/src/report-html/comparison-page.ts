import { type ComparedLayout, type ComparisonRow, conclusionOf } from '../comparison.ts';
import { type StudyCell, studyTable } from '../comparison-table.ts';
import type { DesignResult } from '../stages.ts';
import { type Html, html } from './html.ts';
import { layoutPicture } from './layout-picture.ts';
import { percent } from './numbers.ts';
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
${tableOf(rows)}
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
function tableOf(rows: readonly ComparisonRow[]): Html {
  const table = studyTable(rows);
  const numeric = (cell: StudyCell) => (cell.isNumber ? html` class="n"` : null);
  return html`<div class="scroll"><table><caption>Every combination, laid out</caption><thead><tr>${table.heads.map(
    (cell) => html`<th scope="col"${numeric(cell)}>${cell.text}</th>`,
  )}</tr></thead><tbody>
${table.rows.map(
  ([first, ...others]) => html`<tr><th scope="row">${first?.text ?? ''}</th>${others.map(
    (cell) => html`<td${numeric(cell)}>${cell.isBest ? html`<strong>${cell.text} (best)</strong>` : cell.text}</td>`,
  )}</tr>
`,
)}</tbody></table></div>`;
}
