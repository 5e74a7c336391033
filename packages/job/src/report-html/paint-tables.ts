import type { Report } from '../report-schema.ts';
import { type Html, html } from './html.ts';
import { areaCm2, money } from './numbers.ts';
import { paintCell } from './tables.ts';

/** Paint by colour: tins, coats, millilitres and money, what stays bare, what paint would hide. */
export function paintTable(report: Report): Html {
  const { paintPlan: plan, batch, cost } = report;
  const names = new Map(report.parts.map((part) => [part.id, part.name]));
  const counts = new Map(report.designs.map((design) => [design.id, design.count]));
  const signsOf = (id: string): number => counts.get(id) ?? batch;
  return html`<div class="scroll"><table><caption>Paint for one sign; millilitres hold all coats and what stays in brush and tin. Faces that other parts lie on are not painted, so that glue holds.</caption>
<thead><tr><th scope="col">Colour</th><th scope="col">Tin</th><th scope="col">Parts</th><th scope="col" class="n">Faces</th><th scope="col" class="n">Edges</th><th scope="col" class="n">Coats</th><th scope="col" class="n">One sign</th><th scope="col" class="n">${report.designs.length > 1 ? 'All signs' : `Batch of ${batch}`}</th><th scope="col" class="n">Money</th></tr></thead><tbody>
${plan.colours.map(
  (
    one,
  ) => html`<tr><th scope="row">${paintCell(one.colour)}${report.designs.length > 1 ? ` ${one.design}` : ''}</th><td>${one.colour === null ? '' : (one.tin ?? 'no tin named')}</td><td>${one.parts.map((part) => names.get(part) ?? part).join(', ')}</td><td class="n">${areaCm2(one.facesMm2)}</td><td class="n">${areaCm2(one.edgesMm2)}</td><td class="n">${one.coats}</td><td class="n">${one.colour === null ? '' : `${one.millilitres.toFixed(1)} ml`}</td><td class="n">${one.colour === null ? '' : `${(one.millilitres * signsOf(one.design)).toFixed(0)} ml`}</td><td class="n">${one.money === 0 ? '' : money(one.money, cost.currency)}</td></tr>
`,
)}</tbody></table></div>
${plan.bare.length === 0 ? null : html`<p>To be masked before painting: ${plan.bare.map(({ part, areaMm2, files }) => `${names.get(part) ?? part} (${areaCm2(areaMm2)}${files.length === 0 ? '' : `, ${files.join(', ')}`})`).join('; ')}.</p>`}
${plan.paintedOver.length === 0 ? null : html`<p class="attention">Burnt marks that paint would hide: ${plan.paintedOver.map(({ part, mark, lengthMm }) => `${mark} on ${names.get(part) ?? part} (${lengthMm.toFixed(0)} mm)`).join(', ')}. Paint thinly there, or burn after painting.</p>`}`;
}
