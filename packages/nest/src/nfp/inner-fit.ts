import type { Bounds } from '@underlap/geometry/ring';

/**
 * Where the origin of a piece with these bounds may lie so that the piece stays in a rectangle.
 * @returns the rectangle of origins (a line or a point for an exact fit), or null when the piece is too large by more than
 * `slack`; within the slack the too-long axis collapses to its middle.
 */
export function innerFit(container: Bounds, piece: Bounds, slack = 0): Bounds | null {
  let minX = container.minX - piece.minX;
  let maxX = container.maxX - piece.maxX;
  let minY = container.minY - piece.minY;
  let maxY = container.maxY - piece.maxY;
  if (minX - maxX > slack || minY - maxY > slack) return null;
  if (minX > maxX) minX = maxX = (minX + maxX) / 2;
  if (minY > maxY) minY = maxY = (minY + maxY) / 2;
  return { minX, minY, maxX, maxY };
}
