import type { ArcSegment, LineSegment } from './curve.ts';
import type { Point } from './point.ts';

/** A line or arc with its own start. */
export interface Primitive {
  readonly from: Point;
  readonly segment: ArcSegment | LineSegment;
}

/** Carriers that miss each other by no more than this still meet (they are tangent in exact numbers), mm. */
const TANGENT_GAP_MM = 1e-6;

/** Where the infinite lines or whole circles that carry two primitives meet: none, one or two points. */
export function carriersMeet(p: Primitive, q: Primitive): Point[] {
  if (p.segment.kind === 'line' && q.segment.kind === 'line') return linesMeet(p, q);
  if (p.segment.kind === 'line' && q.segment.kind === 'arc') return lineMeetsCircle(p, q.segment);
  if (p.segment.kind === 'arc' && q.segment.kind === 'line') return lineMeetsCircle(q, p.segment);
  return circlesMeet(p.segment as ArcSegment, q.segment as ArcSegment);
}

function linesMeet(p: Primitive, q: Primitive): Point[] {
  const ux = p.segment.to.x - p.from.x;
  const uy = p.segment.to.y - p.from.y;
  const vx = q.segment.to.x - q.from.x;
  const vy = q.segment.to.y - q.from.y;
  const cross = ux * vy - uy * vx;
  if (cross === 0) return [];
  const t = ((q.from.x - p.from.x) * vy - (q.from.y - p.from.y) * vx) / cross;
  return [{ x: p.from.x + t * ux, y: p.from.y + t * uy }];
}

function lineMeetsCircle(line: Primitive, arc: ArcSegment): Point[] {
  const dx = line.segment.to.x - line.from.x;
  const dy = line.segment.to.y - line.from.y;
  const length = Math.hypot(dx, dy);
  if (length === 0) return [];
  const ux = dx / length;
  const uy = dy / length;
  const cx = arc.centre.x - line.from.x;
  const cy = arc.centre.y - line.from.y;
  const along = cx * ux + cy * uy;
  const off = cx * uy - cy * ux;
  const foot = { x: line.from.x + along * ux, y: line.from.y + along * uy };
  return halfChord(arc.radius, Math.abs(off)).map((reach) => ({ x: foot.x + reach * ux, y: foot.y + reach * uy }));
}

function circlesMeet(a: ArcSegment, b: ArcSegment): Point[] {
  const dx = b.centre.x - a.centre.x;
  const dy = b.centre.y - a.centre.y;
  const distance = Math.hypot(dx, dy);
  if (distance === 0) return [];
  const ux = dx / distance;
  const uy = dy / distance;
  // Foot of the common chord, from a's centre; written so that nearly equal radii keep their digits.
  const along = (distance + ((a.radius - b.radius) * (a.radius + b.radius)) / distance) / 2;
  const foot = { x: a.centre.x + along * ux, y: a.centre.y + along * uy };
  return halfChord(a.radius, Math.abs(along)).map((reach) => ({ x: foot.x - reach * uy, y: foot.y + reach * ux }));
}

/** Signed half lengths of the chord at `distance` from the centre of a circle. */
function halfChord(radius: number, distance: number): number[] {
  if (distance > radius + TANGENT_GAP_MM) return [];
  const squared = (radius - distance) * (radius + distance);
  if (squared <= 0) return [0];
  const reach = Math.sqrt(squared);
  return [-reach, reach];
}
