import type { ComplaintList } from './complaint-list.ts';
import type { DrawnShape } from './drawing.ts';

/** Lines up to this width are thin enough to stand for a cut, mm; wider ones look like bands. Common practice, no source. */
const WIDEST_LINE_MM = 1;

/** Tell of outlines so wide that what is seen is larger than what is read: the middle line is read, filled or not. */
export function tellWideLines(shapes: readonly DrawnShape[], mmPerUnit: number, complaints: ComplaintList): void {
  for (const { fill, stroke, strokeWidthMm, place } of shapes) {
    const width = strokeWidthMm * mmPerUnit;
    if (stroke === null || !(width > WIDEST_LINE_MM)) continue;
    const shown = `${Number(width.toPrecision(3))} mm`;
    const message =
      fill === null
        ? `it is drawn as a band ${shown} wide; only its middle line is read: draw the outline of the band if it is meant`
        : `its outline is ${shown} wide, so half of that is seen outside of what is read: draw the outer edge if the band is meant`;
    complaints.add('wide-line', 'warning', message, place.element, place.at);
  }
}
