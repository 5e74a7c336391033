import type { ComplaintList } from './complaint-list.ts';
import type { PhysicalSize } from './drawing.ts';

/** Signs are hand-sized to door-sized; beyond these widths a unit was probably mistaken. Common practice, no source. */
const SMALLEST_LIKELY_MM = 20;
const LARGEST_LIKELY_MM = 3000;

/** Tell of a known size that looks like a mistaken unit. Nothing is rescaled. */
export function tellUnlikelySize(size: PhysicalSize, complaints: ComplaintList): void {
  if (size.kind !== 'known') return;
  const longest = Math.max(size.widthMm, size.heightMm);
  if (longest >= SMALLEST_LIKELY_MM && longest <= LARGEST_LIKELY_MM) return;
  const shown = `${Number(size.widthMm.toPrecision(4))} x ${Number(size.heightMm.toPrecision(4))} mm`;
  const how = longest < SMALLEST_LIKELY_MM ? 'very small' : 'very large';
  const message = `the drawing is ${shown}, ${how} for a sign: was a unit mistaken? If so give its true width; nothing is scaled by itself`;
  complaints.add('unlikely-size', 'warning', message, 'drawing');
}
