import type { Contour, Segment } from '@underlap/geometry/curve';
import type { Point } from '@underlap/geometry/point';

/** Ends nearer than this share of the curve's size are one point written with rounded digits. */
export const MEETING_SHARE = 1e-6;

/** A closed contour ends exactly on its start: a hair's gap is taken into the last end point, a real one gets a line. */
export function closedUp(start: Point, segments: Segment[], closed: boolean): Contour {
  if (!closed) return { start, segments, closed };
  const last = segments.at(-1)!;
  const gap = Math.hypot(last.to.x - start.x, last.to.y - start.y);
  if (gap <= MEETING_SHARE * extent([start, ...segments.map(({ to }) => to)])) {
    return { start, segments: [...segments.slice(0, -1), { ...last, to: start }], closed };
  }
  return { start, segments: [...segments, { kind: 'line', to: start }], closed };
}

/** The longer side of the points' box. */
export function extent(points: readonly Point[]): number {
  let minX = Infinity;
  let minY = Infinity;
  let maxX = -Infinity;
  let maxY = -Infinity;
  for (const { x, y } of points) {
    minX = Math.min(minX, x);
    minY = Math.min(minY, y);
    maxX = Math.max(maxX, x);
    maxY = Math.max(maxY, y);
  }
  return Math.max(maxX - minX, maxY - minY);
}
