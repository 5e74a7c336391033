import type { ArcSegment, LineSegment } from './curve.ts';
import type { Point } from './point.ts';

/** Arcs flatter than this many radians are written as lines: their sagitta is below rounding at any size. */
const STRAIGHT_SWEEP = 1e-7;

/**
 * Two arcs (or lines) from `p` to `q` that leave along the unit vector `t`, arrive along the unit vector `u`, and share a tangent
 * where they meet; the tangent arms of both are equally long. Null when no such pair turns less than a full circle.
 * @remarks Closed form; Bolton, Computer-Aided Design 7 (1975), value from memory.
 */
export function biarc(
  p: Point,
  t: Point,
  q: Point,
  u: Point,
): [ArcSegment | LineSegment, ArcSegment | LineSegment] | null {
  const vx = q.x - p.x;
  const vy = q.y - p.y;
  const squared = vx * vx + vy * vy;
  const along = vx * (t.x + u.x) + vy * (t.y + u.y);
  const bend = 2 * (1 - (t.x * u.x + t.y * u.y));
  // The arm d solves bend d^2 + 2 along d - squared = 0; this form of its positive root also serves bend = 0.
  const root = Math.sqrt(along * along + bend * squared);
  const divisor = along + root;
  if (!(divisor > 0)) return null;
  const arm = squared / divisor;
  const middle = {
    x: (p.x + arm * t.x + q.x - arm * u.x) / 2,
    y: (p.y + arm * t.y + q.y - arm * u.y) / 2,
  };
  const first = arcFromTangent(p, t, middle);
  const back = arcFromTangent(q, { x: -u.x, y: -u.y }, middle);
  if (first === null || back === null) return null;
  const second: ArcSegment | LineSegment =
    back.kind === 'arc' ? { ...back, to: q, sweep: -back.sweep } : { kind: 'line', to: q };
  return [first, second];
}

/** The arc from `p` along the unit vector `t` to `q`; null when it would have to turn right round. */
export function arcFromTangent(p: Point, t: Point, q: Point): ArcSegment | LineSegment | null {
  const vx = q.x - p.x;
  const vy = q.y - p.y;
  const cross = t.x * vy - t.y * vx;
  const dot = t.x * vx + t.y * vy;
  const sweep = 2 * Math.atan2(cross, dot);
  if (Math.abs(sweep) < STRAIGHT_SWEEP) return { kind: 'line', to: q };
  if (Math.abs(sweep) > 2 * Math.PI - 1e-3) return null;
  const signed = (vx * vx + vy * vy) / (2 * cross);
  const centre = { x: p.x - t.y * signed, y: p.y + t.x * signed };
  return { kind: 'arc', to: q, centre, radius: Math.abs(signed), sweep };
}

/** Distance from a point to a line or arc segment that begins at `from`, mm. */
export function distanceToPrimitive(x: number, y: number, from: Point, segment: ArcSegment | LineSegment): number {
  if (segment.kind === 'line') {
    const dx = segment.to.x - from.x;
    const dy = segment.to.y - from.y;
    const squared = dx * dx + dy * dy;
    const along = squared > 0 ? ((x - from.x) * dx + (y - from.y) * dy) / squared : 0;
    const t = Math.max(0, Math.min(1, along));
    return Math.hypot(x - from.x - t * dx, y - from.y - t * dy);
  }
  const cx = x - segment.centre.x;
  const cy = y - segment.centre.y;
  const ax = from.x - segment.centre.x;
  const ay = from.y - segment.centre.y;
  const size = Math.abs(segment.sweep);
  const turn = Math.atan2(ax * cy - ay * cx, ax * cx + ay * cy) * Math.sign(segment.sweep);
  const forward = turn < 0 ? turn + 2 * Math.PI : turn;
  if (forward <= size) return Math.abs(Math.hypot(cx, cy) - segment.radius);
  return Math.min(Math.hypot(x - from.x, y - from.y), Math.hypot(x - segment.to.x, y - segment.to.y));
}
