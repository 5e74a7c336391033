import type { Drawing } from '@underlap/artwork/drawing';
import { intersectRegions, regionsFromRings, unionRegions } from '@underlap/geometry/boolean';
import { contourLength } from '@underlap/geometry/contour';
import { flattenContour } from '@underlap/geometry/flatten';
import { type Region, regionsArea } from '@underlap/geometry/region';

/** Flattening that is far below a pixel of the pictures compared with, drawing units. */
const TOLERANCE = 0.002;

/** Area that the filled shapes of a drawing cover together on its page, drawing units squared. */
export function filledArea(drawing: Drawing, width: number, height: number): number {
  const regions = drawing.shapes
    .filter((shape) => shape.fill !== null)
    .flatMap((shape) => {
      const closed = shape.contours.filter((contour) => contour.closed);
      return regionsFromRings(
        closed.map((contour) => flattenContour(contour, TOLERANCE)),
        shape.fillRule,
      );
    });
  const covered = drawing.shapes.length > 1 ? unionRegions(regions) : regions;
  const isCut = drawing.complaints.some(({ code }) => code === 'off-page');
  return regionsArea(isCut ? intersectRegions(covered, [page(width, height)]) : covered);
}

function page(width: number, height: number): Region {
  return { outer: Float64Array.of(0, 0, width, 0, width, height, 0, height), holes: [] };
}

/** Length of all contours of a drawing. */
export function drawnLength(drawing: Drawing): number {
  return drawing.shapes.flatMap((shape) => shape.contours).reduce((sum, contour) => sum + contourLength(contour), 0);
}
