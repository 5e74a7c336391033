import type { Report } from '../report-schema.ts';
import { type Html, html } from './html.ts';
import { areaCm2, duration, mm, money, percent } from './numbers.ts';

/** Which number is which part, and where its paint goes. */
export function partTable(report: Report): Html {
  return html`<div class="scroll"><table><caption>Parts, bottom first. The number is burnt on a hidden face or in the waste beside the piece, and stands in all pictures; equal parts may change places.</caption>
<thead><tr><th scope="col">No.</th><th scope="col">Part</th><th scope="col">Paint</th><th scope="col" class="n">Size mm</th><th scope="col" class="n">Area</th><th scope="col" class="n">Pieces</th></tr></thead><tbody>
${report.parts.map(
  (
    part,
  ) => html`<tr><td>${part.numbers.join(', ')}${part.like === null ? null : html` (like ${part.like})`}</td><th scope="row">${part.name}</th><td>${paintCell(part.paint)}</td><td class="n">${mm(part.widthMm)} x ${mm(part.heightMm)}</td><td class="n">${areaCm2(part.areaMm2)}</td><td class="n">${part.pieces}</td></tr>
`,
)}</tbody></table></div>`;
}

/** Every seam with what is hidden, what holds it and what locks it. */
export function seamTable(report: Report): Html {
  if (report.seams.length === 0) return html`<p>Every part fits the bed: nothing is split.</p>`;
  return html`<div class="scroll"><table><caption>Seams. Hidden: something lies above. Held: a part that is glued to both sides, or a rear plate, spans the seam.</caption>
<thead><tr><th scope="col">Seam</th><th scope="col">Between</th><th scope="col" class="n">Length mm</th><th scope="col" class="n">Hidden</th><th scope="col" class="n">Shows mm</th><th scope="col" class="n">Held</th><th scope="col" class="n">Knobs</th><th scope="col" class="n">Least neck mm</th></tr></thead><tbody>
${report.seams.map(
  (
    seam,
  ) => html`<tr><th scope="row">${seam.label}</th><td>${seam.numbers.join(' and ')}</td><td class="n">${mm(seam.lengthMm)}</td><td class="n">${percent(seam.hiddenShare)}</td><td class="n">${mm(Math.max(0, seam.lengthMm - seam.hiddenLengthMm))}</td><td class="n">${percent(seam.heldShare)}${seam.heldByPlateMm > 0.05 ? html`, ${mm(seam.heldByPlateMm)} mm by a plate` : null}</td><td class="n">${seam.knobs}</td><td class="n">${seam.knobs === 0 ? 'none' : mm(seam.neckMm)}</td></tr>
`,
)}</tbody></table></div>
${report.splits.map(
  (
    split,
  ) => html`<p>${split.part}: ${split.pieces} pieces, at least ${split.piecesLowerBound} needed (${split.statement}).${
    split.plans.length > 1
      ? html` Other plans: ${split.plans
          .filter((plan) => !plan.chosen)
          .map(
            (plan) =>
              `${plan.id} (${plan.pieces} pieces, ${mm(plan.visibleLengthMm)} mm shown, ${percent(plan.heldShare)} held)`,
          )
          .join(', ')}.`
      : null
  }</p>
`,
)}`;
}

/** Paint by colour for one sign and for the batch. */
export function paintTable(report: Report): Html {
  return html`<div class="scroll"><table><caption>Paint: visible faces only; what another part is glued on stays bare so that glue holds. Edges and second coats come on top.</caption>
<thead><tr><th scope="col">Colour</th><th scope="col">Parts</th><th scope="col" class="n">One sign</th><th scope="col" class="n">Batch of ${report.batch}</th><th scope="col" class="n">Left bare, one sign</th></tr></thead><tbody>
${report.paint.map(
  (
    need,
  ) => html`<tr><th scope="row">${paintCell(need.colour)}</th><td>${need.parts.join(', ')}</td><td class="n">${areaCm2(need.visibleAreaMm2)}</td><td class="n">${areaCm2(need.visibleAreaMm2 * report.batch)}</td><td class="n">${areaCm2(need.bareAreaMm2)}</td></tr>
`,
)}</tbody></table></div>`;
}

/** From the backer up. */
export function buildList(report: Report): Html {
  return html`<ol>${report.buildOrder.map(
    (
      step,
    ) => html`<li>${step.name}${step.onto.length === 0 ? null : html` onto ${step.onto.join(', ')} (${areaCm2(step.glueAreaMm2)} of glue)`}</li>
`,
  )}</ol>`;
}

/** What one sign costs. */
export function costTable(report: Report): Html {
  const { currency, rows, machineSeconds, formula } = report.cost;
  if (rows.length === 0) return html`<p>Nothing was laid out, so there is no cost.</p>`;
  return html`<div class="scroll"><table><caption>Cost of one sign; machine time about ${duration(machineSeconds)} for the batch, from path lengths, the speeds in the job and a limited acceleration.</caption>
<thead><tr><th scope="col" class="n">Batch</th><th scope="col" class="n">Boards</th><th scope="col" class="n">Material</th><th scope="col" class="n">Machine</th><th scope="col" class="n">Labour</th><th scope="col" class="n">Overhead</th><th scope="col" class="n">Cost</th><th scope="col" class="n">Price</th></tr></thead><tbody>
${rows.map(
  (
    row,
  ) => html`<tr><td class="n">${row.batch}</td><td class="n">${row.boards}</td>${[row.material, row.machine, row.labour, row.overhead, row.costPerSign, row.pricePerSign].map((value) => html`<td class="n">${money(value, currency)}</td>`)}</tr>
`,
)}</tbody></table></div><p class="lead">${formula}.</p>`;
}

/** Complaints and repairs of the artwork. */
export function complaintList(report: Report): Html {
  const words = { error: 'Fault', warning: 'Look here', note: 'Note' } as const;
  const lines = [
    ...report.complaints.map(
      (
        entry,
      ) => html`<li><strong>${words[entry.severity]}:</strong> ${entry.message} <span class="lead">(${entry.place}${at(entry.at)})</span></li>
`,
    ),
    ...report.repairs.map(
      (
        entry,
      ) => html`<li><strong>Mended:</strong> ${entry.message} <span class="lead">(${entry.place}${at(entry.at)})</span></li>
`,
    ),
  ];
  return lines.length === 0 ? html`<p>Nothing to complain of.</p>` : html`<ul>${lines}</ul>`;
}

function at(point: { x: number; y: number } | null): string {
  return point === null ? '' : `, at ${mm(point.x)}, ${mm(point.y)} mm`;
}

function paintCell(colour: string | null): Html {
  return colour === null
    ? html`bare`
    : html`<span class="nowrap"><span class="swatch" style="background:${colour}"></span>${colour}</span>`;
}
