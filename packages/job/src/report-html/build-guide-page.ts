import type { GuideStep } from '@underlap/shop/guide-step';
import type { Guide } from '../guide-of.ts';
import { guidePicture } from './guide-picture.ts';
import { type Html, html } from './html.ts';
import { pageFrame } from './page.ts';

/** The steps as figures with words, for the report and for the guide's own page. */
export function guideSteps({ steps, input }: Guide): Html {
  return html`<ol class="steps">${steps.map(
    (
      step,
      at,
    ) => html`<li class="step${step.kind === 'lay' ? '' : ' wide'}"><div class="step-picture">${guidePicture(step, input, `Step ${at + 1}: ${step.title}`)}</div><div class="step-words"><h3><span class="step-number">${at + 1}</span> ${step.title}</h3>
${step.isHasty ? html`<p class="attention"><strong>Align before you glue.</strong></p>` : null}
${step.words.map((words) => html`<p>${words}</p>`)}
${careWords(step)}</div></li>
`,
  )}</ol>`;
}

function careWords({ care }: GuideStep): Html | null {
  return care.length === 0 ? null : html`<p class="lead">To align: ${care.join('; ')}.</p>`;
}

/** The guide as one self-contained page that goes into a customer's kit. */
export function buildGuidePage(title: string, guide: Guide, cautions: readonly string[]): string {
  const { glue } = guide.input;
  const pieces = new Set(guide.steps.flatMap(({ kind, numbers }) => (kind === 'paint' ? [] : numbers))).size;
  const hasty = guide.steps.some(({ isHasty }) => isHasty);
  return `<!DOCTYPE html>\n${pageFrame(
    `${title}: how to build it`,
    html`<h1>${title}: how to build it</h1>
<p class="lead">${guide.steps.length} steps from the back up, ${pieces} pieces. A number is burnt on each piece or stood beside it on its board. Pale: what is down already. Dots: where the glue goes.</p>
<p>Glue for one sign: ${guide.steps.reduce((sum, { glueMl }) => sum + glueMl, 0).toFixed(1)} ml of ${glue.name}.${hasty ? ' It sets fast: steps that are marked have to be aligned before the glue goes on.' : ''}</p>
${guideSteps(guide)}
<section class="cautions"><h2>Cautions</h2><ul>${cautions.map(
      (caution) => html`<li>${caution}</li>
`,
    )}</ul></section>`,
  )}`;
}
