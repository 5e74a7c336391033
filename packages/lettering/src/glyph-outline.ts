import type { Contour, Segment } from '@underlap/geometry/curve';
import { apply, type Matrix } from '@underlap/geometry/matrix';
import type { Point } from '@underlap/geometry/point';
import type { PathCommand } from 'fontkit';

/**
 * The exact outline of a glyph: lines and cubics (quadratics raised, which is exact), closed.
 * @param matrix - from font units (y up) to where the outline is wanted.
 * @returns contours without area left out.
 */
export function glyphContours(commands: readonly PathCommand[], matrix: Matrix): Contour[] {
  const contours: Contour[] = [];
  let start: Point | null = null;
  let at: Point = { x: 0, y: 0 };
  let segments: Segment[] = [];
  const close = () => {
    if (start !== null && segments.length > 0) {
      if (at.x !== start.x || at.y !== start.y) segments.push({ kind: 'line', to: start });
      if (segments.length > 1) contours.push({ start, segments, closed: true });
    }
    segments = [];
  };
  for (const { command, args } of commands) {
    if (!args.every(Number.isFinite)) throw new Error('an outline has no place');
    const point = (index: number) => apply(matrix, { x: args[index]!, y: args[index + 1]! });
    if (command === 'moveTo') {
      close();
      start = point(0);
      at = start;
    } else if (command === 'lineTo') {
      const to = point(0);
      if (to.x !== at.x || to.y !== at.y) segments.push({ kind: 'line', to });
      at = to;
    } else if (command === 'quadraticCurveTo') {
      const control = point(0);
      const to = point(2);
      segments.push({ kind: 'cubic', c1: toward(at, control), c2: toward(to, control), to });
      at = to;
    } else if (command === 'bezierCurveTo') {
      const to = point(4);
      segments.push({ kind: 'cubic', c1: point(0), c2: point(2), to });
      at = to;
    } else {
      close();
      if (start !== null) at = start;
    }
  }
  close();
  return contours;
}

/** Two thirds of the way to a quadratic's control point: the cubic's own. */
function toward(end: Point, control: Point): Point {
  return { x: end.x + (2 / 3) * (control.x - end.x), y: end.y + (2 / 3) * (control.y - end.y) };
}
