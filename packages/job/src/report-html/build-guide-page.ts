import type { Guide } from '../guide-of.ts';
import { guideSteps } from './guide-steps.ts';
import { html } from './html.ts';
import { pageFrame } from './page.ts';

/** The guide as one self-contained page that goes into a customer's kit. */
export function buildGuidePage(title: string, guide: Guide, cautions: readonly string[]): string {
  const { glue } = guide.input;
  const pieces = new Set(guide.steps.flatMap(({ kind, numbers }) => (kind === 'paint' ? [] : numbers))).size;
  const hasty = guide.steps.some(({ isHasty }) => isHasty);
  return `<!DOCTYPE html>\n${pageFrame(
    `${title}: how to build it`,
    html`<h1>${title}: how to build it</h1>
<p class="lead">${guide.steps.length} steps from the back up, ${pieces} pieces. A number is burnt on each piece or stood beside it on its board. Pale: what is down already. Shaded, with a dotted edge: where the glue goes.</p>
<p>Glue for one sign: ${guide.steps.reduce((sum, { glueMl }) => sum + glueMl, 0).toFixed(1)} ml of ${glue.name}.${hasty ? ' It sets fast: steps that are marked have to be aligned before the glue goes on.' : ''}</p>
${guideSteps(guide)}
<section class="cautions"><h2>Cautions</h2><ul>${cautions.map(
      (caution) => html`<li>${caution}</li>
`,
    )}</ul></section>`,
  )}`;
}
