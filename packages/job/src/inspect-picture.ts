import type { Drawing } from '@underlap/artwork/drawing';
import { subtractRegions } from '@underlap/geometry/boolean';
import { contourToPathData, shapeToPathData } from '@underlap/geometry/path-data';
import { coverOf } from '@underlap/stack/cover';
import type { Job } from './document.ts';
import { boundsOf, inkOf, viewBoxOf } from './report-html/frame.ts';
import { type Html, html } from './report-html/html.ts';
import { coordinate } from './report-html/numbers.ts';
import { numberText } from './report-html/split-picture.ts';
import { roomiestPoint } from './roomy-point.ts';
import { signOf } from './sign-stage.ts';

/**
 * A drawing as it was understood: parts with their numbers (as `underlap inspect` lists them), marks, and complaints marked
 * where they are.
 * @returns an SVG of the drawing's own size; while that is open, in user units.
 */
export function inspectPicture(drawing: Drawing, artwork: Job['artwork']): string {
  const sign = signOf(drawing, artwork);
  const bounds = boundsOf(sign.parts.map((part) => part.shape));
  const ink = inkOf(bounds);
  const places = [...sign.complaints, ...sign.repairs].flatMap(({ message, place }) =>
    place.at === null ? [] : [{ message, at: place.at }],
  );
  const room = 14 * ink;
  const unit = drawing.size.kind === 'known' ? 'mm' : '';
  const picture = html`<svg xmlns="http://www.w3.org/2000/svg" width="${coordinate(bounds.maxX - bounds.minX + 2 * room)}${unit}" height="${coordinate(bounds.maxY - bounds.minY + 2 * room)}${unit}" viewBox="${viewBoxOf(bounds, room)}">
<title>${drawing.name} as it was understood</title>
<rect x="${coordinate(bounds.minX - room)}" y="${coordinate(bounds.minY - room)}" width="100%" height="100%" fill="#ffffff"/>
<g id="parts">
${sign.parts.map(
  (
    part,
  ) => html`<path d="${shapeToPathData(part.shape, 3)}" fill="${part.paint ?? '#e8d9bd'}" fill-opacity="0.6" fill-rule="evenodd" stroke="#22252a" stroke-width="${coordinate(ink)}"><title>${part.id}</title></path>
`,
)}</g>
<g id="marks" fill="none" stroke="#0072b2" stroke-width="${coordinate(ink)}" stroke-dasharray="${coordinate(4 * ink)} ${coordinate(2 * ink)}">
${sign.parts.flatMap((part) =>
  part.marks.flatMap((mark) =>
    mark.contours.map(
      (contour) => html`<path d="${contourToPathData(contour, 3)}"><title>${mark.process} on ${part.id}</title></path>
`,
    ),
  ),
)}</g>
<g id="numbers">
${sign.parts.map((part, index) => {
  const shown = subtractRegions([part.region], coverOf(sign, part.id));
  const spot = roomiestPoint(shown.length > 0 ? shown : [part.region]);
  return spot === null ? null : numberText(String(index + 1), spot.x, spot.y, 12 * ink);
})}</g>
<g id="complaints">
${places.map(({ message, at }) => placeMark(message, at.x, at.y, ink))}</g>
</svg>
`;
  return picture.text;
}

/** A ring with a cross and the sentence as its title: seen without colour, read by pointing at it. */
function placeMark(message: string, x: number, y: number, ink: number): Html {
  const r = 7 * ink;
  const cross = `M${coordinate(x - r)} ${coordinate(y)}H${coordinate(x + r)}M${coordinate(x)} ${coordinate(y - r)}V${coordinate(y + r)}`;
  return html`<g fill="none" stroke="#9a3412" stroke-width="${coordinate(1.6 * ink)}"><circle cx="${coordinate(x)}" cy="${coordinate(y)}" r="${coordinate(r)}"/><path d="${cross}"/><title>${message}</title></g>
`;
}
