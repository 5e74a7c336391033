import { shapeToPathData } from '@underlap/geometry/path-data';
import type { Part, Sign } from '@underlap/stack/sign';
import type { ReportSeam } from '../report-schema.ts';
import { boundsOf, inkOf, viewBoxOf } from './frame.ts';
import { type Html, html } from './html.ts';
import { coordinate, mm } from './numbers.ts';

/** Fill of a part without a paint colour. */
const BARE = '#e8d9bd';

/** Decimals in pictures: a tenth of a line's width. */
const DECIMALS = 2;

/** The finished sign, parts bottom first in their paint, with the seams over it. */
export function assembledPicture(sign: Sign, seams: readonly ReportSeam[]): Html {
  const parts = sign.parts.filter((part) => part.place === 'assembled');
  const shown = parts.length > 0 ? parts : sign.parts;
  const bounds = boundsOf(shown.map((part) => part.shape));
  const ink = inkOf(bounds);
  const visible = seams.reduce((sum, seam) => sum + seam.lengthMm - seam.hiddenLengthMm, 0);
  const words =
    seams.length === 0 ? 'no seams' : visible < 0.05 ? 'all seams hidden' : `${mm(visible)} mm of seam show`;
  return html`<figure><svg xmlns="http://www.w3.org/2000/svg" role="img" aria-label="The assembled sign, ${words}" viewBox="${viewBoxOf(bounds, 6 * ink)}">
${shown.map((part) => partPath(part, ink))}
${seams.map((seam) => seamLines(seam, ink))}
</svg><figcaption>The assembled sign, ${mm(bounds.maxX - bounds.minX)} x ${mm(bounds.maxY - bounds.minY)} mm; ${words}.</figcaption></figure>
${seams.length === 0 ? null : seamLegend()}`;
}

function partPath(part: Part, ink: number): Html {
  const data = shapeToPathData(part.shape, DECIMALS);
  return html`<path d="${data}" fill="${part.paint ?? BARE}" stroke="#22252a" stroke-width="${coordinate(0.7 * ink)}" stroke-linejoin="round"><title>${part.name}</title></path>
`;
}

/**
 * A seam: thin and dotted where hidden; where it shows a broad band with a solid core, so that the two are told apart without
 * colour. Stretches are cut out of the path by a dash as long as the stretch.
 */
export function seamLines(seam: ReportSeam, ink: number): Html {
  const line = (width: number, colour: string, dash: string) =>
    html`<path d="${seam.path}" fill="none" stroke="${colour}" stroke-width="${coordinate(width * ink)}" stroke-dasharray="${dash}"/>
`;
  const dotted = [2.5 * ink, 2.5 * ink].map(coordinate).join(' ');
  return html`<g stroke-linejoin="round">${line(2.4, '#ffffff', 'none')}${line(1, '#22252a', dotted)}${seam.visible.map(
    ([from, to]) => {
      const dash = ['0', coordinate(from), coordinate(to - from), coordinate(seam.lengthMm + 1)].join(' ');
      return html`${line(6, '#ffffff', dash)}${line(4.6, '#9a3412', dash)}${line(1.2, '#ffffff', dash)}`;
    },
  )}</g>`;
}

/** How to read the seam lines. */
export function seamLegend(): Html {
  return html`<ul class="legend"><li><svg viewBox="0 0 64 18" aria-hidden="true"><path d="M2 9H62" stroke="#22252a" stroke-width="2" stroke-dasharray="5 5"/></svg>dotted: seam hidden below a part</li><li><svg viewBox="0 0 64 18" aria-hidden="true"><path d="M2 9H62" stroke="#9a3412" stroke-width="9"/><path d="M2 9H62" stroke="#fff" stroke-width="2.4"/></svg>broad double band: seam that shows</li></ul>`;
}
