import { contourBounds } from '@underlap/geometry/contour';
import type { Shape } from '@underlap/geometry/curve';
import type { Bounds } from '@underlap/geometry/ring';
import { coordinate } from './numbers.ts';

/** Box round all shapes, mm; a unit square when there are none. */
export function boundsOf(shapes: readonly Shape[]): Bounds {
  const boxes = shapes.map((shape) => contourBounds(shape.outer));
  if (boxes.length === 0) return { minX: 0, minY: 0, maxX: 1, maxY: 1 };
  return {
    minX: Math.min(...boxes.map((box) => box.minX)),
    minY: Math.min(...boxes.map((box) => box.minY)),
    maxX: Math.max(...boxes.map((box) => box.maxX)),
    maxY: Math.max(...boxes.map((box) => box.maxY)),
  };
}

/** viewBox with room around, mm. */
export function viewBoxOf(bounds: Bounds, room: number): string {
  return [
    bounds.minX - room,
    bounds.minY - room,
    bounds.maxX - bounds.minX + 2 * room,
    bounds.maxY - bounds.minY + 2 * room,
  ]
    .map(coordinate)
    .join(' ');
}

/** Size of lines and letters that reads alike whatever the drawing's size: a share of its larger side. */
export function inkOf(bounds: Bounds): number {
  return Math.max(bounds.maxX - bounds.minX, bounds.maxY - bounds.minY) / 500;
}
