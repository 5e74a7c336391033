import type { Contour } from '@underlap/geometry/curve';
import type { DrawnShape, Repair } from '../drawing.ts';
import { cleanPoints } from './clean-points.ts';
import type { RepairSettings, RepairStep } from './step.ts';
import { SAME_POINT_MM } from './tolerances.ts';

/** Drop points that add nothing; one repair for each shape. */
export function dropPoints(shapes: readonly DrawnShape[], settings: RepairSettings): RepairStep {
  const { mmPerUnit, complaints, repair } = settings;
  const repairs: Repair[] = [];
  const kept = shapes.flatMap((shape): DrawnShape[] => {
    const contours: Contour[] = [];
    let dropped = 0;
    let moved = 0;
    for (const contour of shape.contours) {
      const cleaned = cleanPoints(contour, SAME_POINT_MM / mmPerUnit);
      dropped += cleaned.dropped;
      moved = Math.max(moved, cleaned.moved);
      if (cleaned.contour !== null) contours.push(cleaned.contour);
    }
    if (dropped === 0) return [shape];
    const points = dropped === 1 ? 'one point' : `${dropped} points`;
    if (!repair) {
      const message = `it has ${points} nearer than ${SAME_POINT_MM} mm to the one before`;
      complaints.add('near-points', 'note', message, shape.place.element, shape.place.at);
      return [shape];
    }
    const message = `${points} nearer than ${SAME_POINT_MM} mm to the one before dropped`;
    repairs.push({ kind: 'dropped-points', message, place: shape.place, sizeMm: moved * mmPerUnit });
    return contours.length === 0 ? [] : [{ ...shape, contours }];
  });
  return { shapes: kept, repairs };
}
