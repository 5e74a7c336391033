import { contourBounds } from '@underlap/geometry/contour';
import type { ContourView } from '@underlap/geometry/curve';
import { SegmentPacker } from '@underlap/geometry/packed-segments';
import type { Point } from '@underlap/geometry/point';
import type { DrawnShape, Repair } from '../drawing.ts';
import { cleanPoints } from './clean-points.ts';
import type { RepairSettings, RepairStep } from './step.ts';
import { SAME_POINT_MM } from './tolerances.ts';

/** Is all of it one point to a machine? */
function isSpeck(contour: ContourView, tolerance: number): boolean {
  const { start, segments } = contour;
  const isNear = ({ x, y }: Point): boolean => Math.abs(x - start.x) <= tolerance && Math.abs(y - start.y) <= tolerance;
  // Ends first: nearly every contour is settled by its first segment.
  if (!segments.every((segment) => isNear(segment.to))) return false;
  const { minX, minY, maxX, maxY } = contourBounds(contour);
  return maxX - minX <= tolerance && maxY - minY <= tolerance;
}

/** Drop points that add nothing; one repair for each shape. */
export function dropPoints(shapes: readonly DrawnShape[], settings: RepairSettings): RepairStep {
  const { mmPerUnit, complaints, repair } = settings;
  const repairs: Repair[] = [];
  const packer = new SegmentPacker();
  const kept: DrawnShape[] = [];
  for (const shape of shapes) {
    const contours: ContourView[] = [];
    let dropped = 0;
    let moved = 0;
    if (repair && shape.contours.every((contour) => isSpeck(contour, SAME_POINT_MM / mmPerUnit))) {
      const message = `it is smaller than ${SAME_POINT_MM} mm and is left out: delete it, or draw it at its true size`;
      complaints.add('speck', 'warning', message, shape.place.element, shape.place.at);
      continue;
    }
    for (const contour of shape.contours) {
      const cleaned = cleanPoints(contour, SAME_POINT_MM / mmPerUnit, packer);
      dropped += cleaned.dropped;
      moved = Math.max(moved, cleaned.moved);
      if (cleaned.contour !== null) contours.push(cleaned.contour);
    }
    if (dropped === 0) {
      kept.push(shape);
      continue;
    }
    const points = dropped === 1 ? 'one point' : `${dropped} points`;
    if (!repair) {
      const message = `it has ${points} nearer than ${SAME_POINT_MM} mm to the one before`;
      complaints.add('near-points', 'note', message, shape.place.element, shape.place.at);
      kept.push(shape);
      continue;
    }
    const message = `${points} nearer than ${SAME_POINT_MM} mm to the one before dropped`;
    repairs.push({ kind: 'dropped-points', message, place: shape.place, sizeMm: moved * mmPerUnit });
    if (contours.length > 0) kept.push({ ...shape, contours });
  }
  return { shapes: kept, repairs };
}
