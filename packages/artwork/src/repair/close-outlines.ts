import { contourEnd, contourLength } from '@underlap/geometry/contour';
import type { Contour } from '@underlap/geometry/curve';
import type { DrawnShape, Repair } from '../drawing.ts';
import type { RepairSettings, RepairStep } from './step.ts';
import { NEARLY_CLOSED_SHARE } from './tolerances.ts';

/**
 * Close outlines whose ends nearly meet. The outline of a filled area is closed in any case, by the straight line that the
 * fill shows (SVG 2, 'Fill properties': open subpaths are filled as if closed); that is no repair, but a wide gap is told.
 */
export function closeOutlines(shapes: readonly DrawnShape[], settings: RepairSettings): RepairStep {
  const repairs: Repair[] = [];
  const closed = shapes.map((shape) => {
    if (shape.contours.every((contour) => contour.closed)) return shape;
    return { ...shape, contours: shape.contours.map((contour) => closeOutline(contour, shape, settings, repairs)) };
  });
  return { shapes: closed, repairs };
}

function closeOutline(contour: Contour, shape: DrawnShape, settings: RepairSettings, repairs: Repair[]): Contour {
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
    return closedContour(contour);
  }
  if (shape.fill !== null && enclosesArea(contour)) {
    const message = `its outline is open by ${inMm}; it is closed by a straight line, as its fill shows`;
    complaints.add('open-filled', 'note', message, place.element, end);
    return closedContour(contour);
  }
  if (isOutline && width <= NEARLY_CLOSED_SHARE * length) {
    const message = `its outline is open by ${inMm}, so it bounds nothing: close it in the drawing, or allow a larger gap`;
    complaints.add('nearly-closed', 'warning', message, place.element, end);
  }
  return contour;
}

function closedContour(contour: Contour): Contour {
  const end = contourEnd(contour);
  const meets = end.x === contour.start.x && end.y === contour.start.y;
  const segments = meets ? contour.segments : [...contour.segments, { kind: 'line' as const, to: contour.start }];
  return { start: contour.start, segments, closed: true };
}

/** Could a fill show? One straight line, there or back, bounds nothing. */
export function enclosesArea(contour: Contour): boolean {
  const { start, segments } = contour;
  if (segments.some((segment) => segment.kind !== 'line')) return true;
  const away = segments.find(({ to }) => to.x !== start.x || to.y !== start.y)?.to;
  if (away === undefined) return false;
  return segments.some(({ to }) => (away.x - start.x) * (to.y - start.y) !== (away.y - start.y) * (to.x - start.x));
}

/** Three significant digits for a person. */
function roundTo(value: number): string {
  return String(Number(value.toPrecision(3)));
}
