import type { Variant } from '../variants.ts';
import { html, trusted } from './html.ts';
import { mm, percent } from './numbers.ts';
import { pageFrame } from './page.ts';

/** The page of a pack: one row a bed, each pointing at its own report. @param picture - SVG that compares the beds. */
export function variantsPage(
  jobName: string,
  variants: readonly Variant[],
  cautions: readonly string[],
  picture: string,
): string {
  return `<!DOCTYPE html>\n${pageFrame(
    `${jobName}: packs for ${variants.length} beds`,
    html`<h1>${jobName}: packs for ${variants.length} beds</h1>
<div class="scroll"><table><caption>One design; parts that fit a bed are the same in every pack.</caption><thead><tr><th scope="col">Bed mm</th><th scope="col" class="n">Pieces</th><th scope="col">Split</th><th scope="col" class="n">Seam mm</th><th scope="col" class="n">Hidden</th><th scope="col" class="n">Held</th><th scope="col" class="n">Boards</th><th scope="col" class="n">At least</th><th scope="col" class="n">Used</th></tr></thead><tbody>
${variants.map(
  (
    variant,
  ) => html`<tr><th scope="row">${variant.pieces === 0 ? variant.bed : html`<a href="${variant.folder}/report.html">${variant.bed}</a>`}</th><td class="n">${variant.pieces}</td><td>${variant.splitParts.length === 0 ? 'nothing' : variant.splitParts.join(', ')}</td><td class="n">${mm(variant.seamLengthMm)}</td><td class="n">${percent(variant.hiddenShare)}</td><td class="n">${percent(variant.heldShare)}</td><td class="n">${variant.boards}</td><td class="n">${variant.boardsLowerBound}</td><td class="n">${percent(variant.yield)}</td></tr>
${variant.notFitting.map(
  (message) => html`<tr><td colspan="9"><strong>Not written:</strong> ${message}</td></tr>
`,
)}`,
)}</tbody></table></div>
<figure>${trusted(picture)}</figure>
<section><h2>Cautions</h2><ul>${cautions.map(
      (caution) => html`<li>${caution}</li>
`,
    )}</ul></section>`,
  )}`;
}
