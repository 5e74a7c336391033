import type { GuideStep } from '@underlap/shop/guide-step';
import type { Guide } from '../guide-of.ts';
import { guidePicture } from './guide-picture.ts';
import { type Html, html } from './html.ts';

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
