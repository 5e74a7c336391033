import { contourEnd, reversedContour } from '@underlap/geometry/contour';
import type { Contour, Segment } from '@underlap/geometry/curve';
import type { Point } from '@underlap/geometry/point';

/** Over a bend a straight line is a little shorter than the bridge, mm. */
const BEND_MM = 0.005;

/**
 * The outline of a piece as found, in stretches with bridges between them, closed by straight lines over the bridges.
 * @param stretches - in the order in which they were meant, each with what was found for it, in either direction.
 * @returns null when the end of one and the start of the next are not as far apart as a bridge is wide.
 */
export function joinedOverBridges(
  stretches: readonly { readonly meant: Contour; readonly found: Contour }[],
  widthMm: number,
  toleranceMm: number,
): Contour | null {
  const found = stretches.map((one) =>
    distance(one.found.start, one.meant.start) <= distance(contourEnd(one.found), one.meant.start)
      ? one.found
      : reversedContour(one.found),
  );
  const [first] = found;
  if (first === undefined) return null;
  const segments: Segment[] = [];
  for (const [at, { segments: own }] of found.entries()) {
    const end = own.at(-1)?.to;
    const next = found[(at + 1) % found.length]!.start;
    if (end === undefined || Math.abs(distance(end, next) - widthMm) > 2 * toleranceMm + BEND_MM) return null;
    segments.push(...own, { kind: 'line', to: next });
  }
  return { start: first.start, segments, closed: true };
}

function distance(a: Point, b: Point): number {
  return Math.hypot(a.x - b.x, a.y - b.y);
}
