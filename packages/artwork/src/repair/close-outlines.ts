import { contourEnd, contourLength } from '@underlap/geometry/contour';
import type { ContourView } from '@underlap/geometry/curve';
import { SegmentPacker } from '@underlap/geometry/packed-segments';
import type { Point } from '@underlap/geometry/point';
import type { DrawnShape, Repair } from '../drawing.ts';
import type { RepairSettings, RepairStep } from './step.ts';
import { NEARLY_CLOSED_SHARE } from './tolerances.ts';

/**
 * Close outlines whose ends nearly meet. The outline of a filled area is closed in any case, by the straight line that the
 * fill shows (SVG 2, 'Fill properties': open subpaths are filled as if closed); that is no repair, but a wide gap is told.
 */
export function closeOutlines(shapes: readonly DrawnShape[], settings: RepairSettings): RepairStep {
  const repairs: Repair[] = [];
  const packer = new SegmentPacker();
  const closed = shapes.map((shape) => {
    if (shape.contours.every((contour) => contour.closed)) return shape;
    const contours = shape.contours.map((contour) => closeOutline(contour, shape, settings, repairs, packer));
    return contours.every((contour, i) => contour === shape.contours[i]) ? shape : { ...shape, contours };
  });
  return { shapes: closed, repairs };
}

function closeOutline(
  contour: ContourView,
  shape: DrawnShape,
  settings: RepairSettings,
  repairs: Repair[],
  packer: SegmentPacker,
): ContourView {
  if (contour.closed) return contour;
  const { repair, gap, mmPerUnit, complaints } = settings;
  const end = contourEnd(contour);
  const width = Math.hypot(end.x - contour.start.x, end.y - contour.start.y);
  const place = { element: shape.place.element, at: end };
  const length = contourLength(contour);
  // A short stroke whose ends are near because it is short is no outline.
  const isOutline = length > 4 * width && enclosesArea(contour);
  const inMm = `${roundTo(width * mmPerUnit)} mm`;
  if (isOutline && width <= gap && repair) {
    repairs.push({
      kind: 'closed-gap',
      message: `outline closed over a gap of ${inMm}`,
      place,
      sizeMm: width * mmPerUnit,
    });
    return closedContour(contour, packer);
  }
  if (shape.fill !== null && enclosesArea(contour)) {
    const message = `its outline is open by ${inMm}; it is closed by a straight line, as its fill shows`;
    complaints.add('open-filled', 'note', message, place.element, end);
    return closedContour(contour, packer);
  }
  if (isOutline && width <= NEARLY_CLOSED_SHARE * length) {
    const message = `its outline is open by ${inMm}, so it bounds nothing: close it in the drawing, or allow a larger gap`;
    complaints.add('nearly-closed', 'warning', message, place.element, end);
  }
  return contour;
}

function closedContour(contour: ContourView, packer: SegmentPacker): ContourView {
  const end = contourEnd(contour);
  const meets = end.x === contour.start.x && end.y === contour.start.y;
  if (meets) return { ...contour, closed: true };
  for (const segment of contour.segments) packer.add(segment);
  packer.addLine(contour.start.x, contour.start.y);
  return { start: contour.start, segments: packer.take(), closed: true };
}

/** Could a fill show? One straight line, there or back, bounds nothing. */
export function enclosesArea({ start, segments }: ContourView): boolean {
  let away: Point | null = null;
  for (const { kind, to } of segments) {
    if (kind !== 'line') return true;
    if (away === null && (to.x !== start.x || to.y !== start.y)) away = to;
    if (away !== null && (away.x - start.x) * (to.y - start.y) !== (away.y - start.y) * (to.x - start.x)) return true;
  }
  return false;
}

/** Three significant digits for a person. */
function roundTo(value: number): string {
  return String(Number(value.toPrecision(3)));
}
