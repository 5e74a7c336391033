import { shapeToPathData } from '@underlap/geometry/path-data';
import type { Sign } from '@underlap/stack/sign';
import { boundsOf, inkOf, viewBoxOf } from './report-html/frame.ts';
import { html } from './report-html/html.ts';
import { coordinate } from './report-html/numbers.ts';

/** Fill of a part without a paint colour. */
const BARE = '#e8d9bd';

/**
 * The finished sign as a picture of its own: parts bottom first in their paint, without seams.
 * @returns SVG at true size, mm; parts whose place is not known are shown only where that is true of all.
 */
export function signPicture(sign: Sign): string {
  const placed = sign.parts.filter((part) => part.place === 'assembled');
  const shown = placed.length > 0 ? placed : sign.parts;
  const bounds = boundsOf(shown.map((part) => part.shape));
  const ink = inkOf(bounds);
  const room = 2 * ink;
  const size = (from: number, to: number): string => `${coordinate(to - from + 2 * room)}mm`;
  return html`<svg xmlns="http://www.w3.org/2000/svg" width="${size(bounds.minX, bounds.maxX)}" height="${size(bounds.minY, bounds.maxY)}" viewBox="${viewBoxOf(bounds, room)}">
<title>${sign.name}, finished</title>
${shown.map(
  (part) =>
    html`<path d="${shapeToPathData(part.shape, 3)}" fill="${part.paint ?? BARE}" fill-rule="evenodd" stroke="#22252a" stroke-width="${coordinate(0.5 * ink)}"><title>${part.name}</title></path>
`,
)}</svg>
`.text;
}
