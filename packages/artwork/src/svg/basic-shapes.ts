import type { Contour, Segment } from '@underlap/geometry/curve';
import type { Point } from '@underlap/geometry/point';
import { PathScanner } from '../path-scanner.ts';

/** Contours of the basic shapes, each starting and running as SVG 2 says, so that they match the standard's path equivalents. */

/** An axis-parallel ellipse from three o'clock towards +y in four quarters; a circle is made of true arcs. */
export function ellipseContour(cx: number, cy: number, rx: number, ry: number): Contour {
  const corners: Point[] = [
    { x: cx + rx, y: cy },
    { x: cx, y: cy + ry },
    { x: cx - rx, y: cy },
    { x: cx, y: cy - ry },
  ];
  const segments = corners.map((_, i) => quarter({ x: cx, y: cy }, rx, ry, i, corners[(i + 1) % 4]!));
  return { start: corners[0]!, segments, closed: true };
}

/** A rectangle; radii are taken as given, so clamp them to half the sides first. */
export function rectContour(x: number, y: number, width: number, height: number, rx: number, ry: number): Contour {
  const right = x + width;
  const bottom = y + height;
  const start = { x: x + rx, y };
  if (rx <= 0 || ry <= 0) {
    const origin = { x, y };
    return {
      start: origin,
      segments: [line(right, y), line(right, bottom), line(x, bottom), { kind: 'line', to: origin }],
      closed: true,
    };
  }
  const segments: Segment[] = [];
  const add = (to: Point): void => {
    const from = segments.at(-1)?.to ?? start;
    if (from.x !== to.x || from.y !== to.y) segments.push({ kind: 'line', to });
  };
  add({ x: right - rx, y });
  segments.push(quarter({ x: right - rx, y: y + ry }, rx, ry, 3, { x: right, y: y + ry }));
  add({ x: right, y: bottom - ry });
  segments.push(quarter({ x: right - rx, y: bottom - ry }, rx, ry, 0, { x: right - rx, y: bottom }));
  add({ x: x + rx, y: bottom });
  segments.push(quarter({ x: x + rx, y: bottom - ry }, rx, ry, 1, { x, y: bottom - ry }));
  add({ x, y: y + ry });
  segments.push(quarter({ x: x + rx, y: y + ry }, rx, ry, 2, start));
  return { start, segments, closed: true };
}

/** The quarter of an ellipse that begins at `index` right angles. */
function quarter(centre: Point, rx: number, ry: number, index: number, to: Point): Segment {
  const sweep = Math.PI / 2;
  if (rx === ry) return { kind: 'arc', to, centre, radius: rx, sweep };
  return { kind: 'ellipse', to, centre, rx, ry, axisTurn: 0, from: index * sweep, sweep };
}

function line(x: number, y: number): Segment {
  return { kind: 'line', to: { x, y } };
}

/**
 * Read a `points` list. Points before a fault are kept; an odd last number is a fault.
 * @returns null for the contour when fewer than two points were read.
 */
export function pointsContour(text: string, closed: boolean): { contour: Contour | null; fault: string | null } {
  const scanner = new PathScanner(text);
  const points: Point[] = [];
  let isOdd = false;
  while (scanner.hasNumber()) {
    const point = scanner.point(0, 0);
    if (point === null) {
      isOdd = scanner.isDone();
      break;
    }
    points.push(point);
  }
  const unread = scanner.isDone() ? null : `points cannot be read from '${scanner.rest(12)}' on`;
  const fault = isOdd ? 'the last of its points has no y' : unread;
  const [start, ...rest] = points;
  if (start === undefined || rest.length === 0) return { contour: null, fault };
  const segments: Segment[] = rest.map((to) => ({ kind: 'line', to }));
  const last = rest.at(-1)!;
  const meets = last.x === start.x && last.y === start.y;
  if (closed && !meets) segments.push({ kind: 'line', to: start });
  return { contour: { start, segments, closed: closed || meets }, fault };
}
