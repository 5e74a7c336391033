import type { Complaint, DrawnShape, Place, Repair } from '@underlap/artwork/drawing';
import type { Crossing } from '@underlap/geometry/crossings';
import { RESOLVE_TOLERANCE_MM } from '@underlap/geometry/shapes-from-contours';
import { complain } from './draft.ts';

/** What is told of outlines that cross, and whether they may be used. */
export interface CrossingOutcome {
  readonly isUsable: boolean;
  readonly repairs: readonly Repair[];
  readonly complaints: readonly Complaint[];
}

const CLEAR: CrossingOutcome = { isUsable: true, repairs: [], complaints: [] };

/**
 * A shape whose outlines cross has no exact contour: its fill rule says what is meant and the outline is drawn anew, which is
 * a repair. When repairs are refused the shape is left out, since nothing could be cut from it as drawn.
 * @param crossings - where they cross, as found while resolving; none for a shape in order.
 */
export function crossingOutcome(
  shape: DrawnShape,
  crossings: readonly Crossing[],
  mayRepair: boolean,
): CrossingOutcome {
  const [first] = crossings;
  if (first === undefined) return CLEAR;
  const { element } = shape.place;
  const place: Place = { element, at: first.at };
  const where = crossings.length === 1 ? 'crosses itself' : `crosses itself in ${crossings.length} places`;
  if (!mayRepair) {
    const message = `the outline of ${element} ${where}, and repairs are refused, so it is left out: draw it without crossings`;
    return { isUsable: false, repairs: [], complaints: [complain('crossing-outline', 'error', message, place)] };
  }
  const message = `the outline of ${element} ${where}; it was resolved by its fill rule and redrawn with arcs`;
  return {
    isUsable: true,
    repairs: [{ kind: 'resolved-self-crossing', message, place, sizeMm: RESOLVE_TOLERANCE_MM }],
    complaints: [complain('crossing-outline', 'warning', `${message}: look whether that is what was meant`, place)],
  };
}
