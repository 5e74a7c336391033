import type { Report } from '../report-schema.ts';
import { type Html, html } from './html.ts';
import { areaCm2, mm, percent } from './numbers.ts';

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
  ) => html`<tr><th scope="row">${seam.label}</th><td>${seam.numbers.join(' and ')}</td><td class="n">${mm(seam.lengthMm)}</td><td class="n">${percent(seam.hiddenShare)}</td><td class="n">${mm(Math.max(0, seam.lengthMm - seam.hiddenLengthMm))}${seam.alongLinesMm > 0.05 ? html`, ${mm(seam.alongLinesMm)} along drawn lines` : null}</td><td class="n">${percent(seam.heldShare)}${seam.heldByPlateMm > 0.05 ? html`, ${mm(seam.heldByPlateMm)} mm by a plate` : null}</td><td class="n">${seam.knobs}</td><td class="n">${seam.knobs === 0 ? 'none' : mm(seam.neckMm)}</td></tr>
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

export function paintCell(colour: string | null): Html {
  return colour === null
    ? html`bare`
    : html`<span class="nowrap"><span class="swatch" style="background:${colour}"></span>${colour}</span>`;
}
