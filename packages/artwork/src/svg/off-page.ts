import { contourBounds } from '@underlap/geometry/contour';
import type { ComplaintList } from '../complaint-list.ts';
import type { DrawnShape } from '../drawing.ts';
import type { ViewportSize } from './lengths.ts';

/** Overhang that is drawing inaccuracy and not worth a word, as a share of the page. */
const OVERHANG_SHARE = 1e-3;

/** Tell of shapes beyond the page: a viewer cuts them off, so the maker may not know of them. They are read all the same. */
export function tellOffPage(shapes: readonly DrawnShape[], page: ViewportSize | null, complaints: ComplaintList): void {
  if (page === null) return;
  const slack = OVERHANG_SHARE * Math.max(page.width, page.height);
  for (const { contours, place } of shapes) {
    const boxes = contours.map(contourBounds);
    const isBeyond = boxes.every(
      (box) => box.maxX < 0 || box.maxY < 0 || box.minX > page.width || box.minY > page.height,
    );
    if (isBeyond) {
      const message =
        "it lies outside the drawing's page, where it is not seen; it is read all the same: delete it if it is scrap";
      complaints.add('off-page', 'warning', message, place.element, place.at);
      continue;
    }
    const overhangs = boxes.some(
      (box) =>
        box.minX < -slack || box.minY < -slack || box.maxX > page.width + slack || box.maxY > page.height + slack,
    );
    if (overhangs) {
      const message = "it reaches beyond the drawing's page, where it is not seen; all of it is read";
      complaints.add('off-page', 'note', message, place.element, place.at);
    }
  }
}
