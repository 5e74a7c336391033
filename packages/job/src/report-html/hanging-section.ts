import { shapeToPathData } from '@underlap/geometry/path-data';
import type { Point } from '@underlap/geometry/point';
import type { Report } from '../report-schema.ts';
import type { DesignResult } from '../stages.ts';
import { boundsOf, inkOf, viewBoxOf } from './frame.ts';
import { type Html, html } from './html.ts';
import { coordinate } from './numbers.ts';

/** Weight, centre of mass, and whether the sign hangs straight; one figure a design. */
export function hangingSection(report: Report, designs: readonly DesignResult[]): Html {
  return html`${report.hanging.map((hanging) => {
    const result = designs.find(({ design }) => design.id === hanging.design);
    const weight = hanging.massKg < 1 ? `${(hanging.massKg * 1000).toFixed(0)} g` : `${hanging.massKg.toFixed(2)} kg`;
    return html`<div class="beside"><div>${result === undefined ? null : hangingPicture(result, hanging)}</div><div><p>${hanging.design === '' ? 'One sign' : `One ${hanging.design}`} weighs about <strong>${weight}</strong> without glue and paint.</p>${hanging.words.map((words) => html`<p>${words}</p>`)}</div></div>
`;
  })}`;
}

function hangingPicture({ sign }: DesignResult, hanging: Report['hanging'][number]): Html {
  const parts = sign.parts.filter((part) => part.place === 'assembled');
  const bounds = boundsOf(parts.map((part) => part.shape));
  const ink = inkOf(bounds);
  const r = 7 * ink;
  const { x, y } = hanging.centre;
  const cross = `M${coordinate(x - r)} ${coordinate(y)}H${coordinate(x + r)}M${coordinate(x)} ${coordinate(y - r)}V${coordinate(y + r)}`;
  const dot = (point: Point) =>
    html`<circle cx="${coordinate(point.x)}" cy="${coordinate(point.y)}" r="${coordinate(4 * ink)}" fill="#22252a" stroke="#ffffff" stroke-width="${coordinate(1.5 * ink)}"/>`;
  const wish = (point: Point) =>
    html`<circle cx="${coordinate(point.x)}" cy="${coordinate(point.y)}" r="${coordinate(7 * ink)}" fill="none" stroke="#9a3412" stroke-width="${coordinate(2 * ink)}" stroke-dasharray="${coordinate(4 * ink)} ${coordinate(3 * ink)}"/>`;
  return html`<figure><svg xmlns="http://www.w3.org/2000/svg" role="img" aria-label="Centre of mass and what it hangs from" viewBox="${viewBoxOf(bounds, 6 * ink)}">${parts.map(
    (part) =>
      html`<path d="${shapeToPathData(part.shape, 1)}" fill="${part.paint ?? '#e8d9bd'}" fill-opacity=".3" fill-rule="evenodd" stroke="#5a6069" stroke-width="${coordinate(0.6 * ink)}"/>
`,
  )}<circle cx="${coordinate(x)}" cy="${coordinate(y)}" r="${coordinate(r)}" fill="#ffffff" stroke="#22252a" stroke-width="${coordinate(2 * ink)}"/><path d="${cross}" stroke="#22252a" stroke-width="${coordinate(2 * ink)}"/>${hanging.points.map(({ bearing }) => dot(bearing))}${hanging.isStraight ? null : hanging.belong.map(wish)}</svg><figcaption>Cross: centre of mass. Dots: what carries.${hanging.isStraight || hanging.belong.length === 0 ? null : ' Dashed rings: where slots belong.'}</figcaption></figure>`;
}
