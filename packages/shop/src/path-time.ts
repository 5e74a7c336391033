import type { ContourView, Segment } from '@underlap/geometry/curve';
import type { Point } from '@underlap/geometry/point';
import { segmentPoint, segmentTangent } from '@underlap/geometry/segment';

/** How fast the head may go. */
export interface Motion {
  /** Largest speed, mm/s, > 0. */
  readonly speed: number;
  /** Largest acceleration along and across the path, mm/s2, > 0. */
  readonly acceleration: number;
  /** How far the head may cut a corner, mm, >= 0; 0 stops at every corner. */
  readonly cornerTolerance: number;
}

/** A stretch of path with one speed limit; `entry` is the largest speed at which the head may come into it. */
interface Stretch {
  readonly lengthMm: number;
  readonly limit: number;
  readonly entry: number;
}

/** Stretches that a curve with changing curvature is looked at in; its speed limit is taken from the middle of each. */
const CURVE_STRETCHES = 8;

/** Directions that differ less than this are one direction, radians. */
const STRAIGHT_RAD = 1e-6;

/**
 * Time of one straight move that starts and ends at rest, with limited speed and acceleration (trapezoidal profile).
 * Source: textbook kinematics. Long moves: d / v + v / a. Short ones never reach v: 2 sqrt(d / a).
 * @param distance - mm, >= 0. @param speed - mm/s, > 0. @param acceleration - mm/s2, > 0.
 * @returns seconds.
 */
export function moveSeconds(distance: number, speed: number, acceleration: number): number {
  const ramps = (speed * speed) / acceleration;
  return distance >= ramps ? distance / speed + speed / acceleration : 2 * Math.sqrt(distance / acceleration);
}

/**
 * Time to run along a contour from rest to rest.
 *
 * Round curves the acceleration across the path limits the speed, v = sqrt(a r). At a corner the head may leave the path by
 * `cornerTolerance`: the arc that touches both sides and passes the corner at that distance has the radius
 * r = t sin(h) / (1 - sin(h)) for half the inner angle h, and again v = sqrt(a r). Between such limits the head speeds up and
 * slows down at full acceleration, looking ahead over the whole contour.
 * @returns seconds; 0 for a contour without length.
 * @remarks O(segments). Source of the parts: textbook kinematics; the corner's arc is plane geometry.
 */
export function contourSeconds(contour: ContourView, motion: Motion): number {
  return profileSeconds(stretchesOf(contour, motion), motion.acceleration);
}

/** Largest speed through a corner, mm/s. @param inner - inner angle between both sides, radians; pi = straight on. */
export function cornerSpeed(inner: number, acceleration: number, tolerance: number): number {
  const half = Math.sin(inner / 2);
  if (half >= 1 - 1e-12) return Number.POSITIVE_INFINITY;
  return Math.sqrt((acceleration * tolerance * half) / (1 - half));
}

function stretchesOf(contour: ContourView, motion: Motion): Stretch[] {
  const stretches: Stretch[] = [];
  let from = contour.start;
  let arriving: Point | null = null;
  for (const segment of contour.segments) {
    const parts = partsOf(from, segment);
    for (const [index, part] of parts.entries()) {
      if (part.lengthMm <= 0) continue;
      const limit = Math.min(motion.speed, Math.sqrt(motion.acceleration * part.radius));
      let entry = limit;
      if (index === 0 && arriving !== null) {
        const leaving = segmentTangent(from, segment, 0);
        const cos = Math.max(-1, Math.min(1, arriving.x * leaving.x + arriving.y * leaving.y));
        const turn = Math.acos(cos);
        if (turn > STRAIGHT_RAD)
          entry = Math.min(entry, cornerSpeed(Math.PI - turn, motion.acceleration, motion.cornerTolerance));
      }
      stretches.push({ lengthMm: part.lengthMm, limit, entry });
    }
    if (parts.some((part) => part.lengthMm > 0)) arriving = segmentTangent(from, segment, 1);
    from = segment.to;
  }
  return stretches;
}

/** A segment as stretches of about one curvature. */
function partsOf(from: Point, segment: Segment): { lengthMm: number; radius: number }[] {
  const straight = Number.POSITIVE_INFINITY;
  if (segment.kind === 'line') {
    return [{ lengthMm: Math.hypot(segment.to.x - from.x, segment.to.y - from.y), radius: straight }];
  }
  if (segment.kind === 'arc') return [{ lengthMm: Math.abs(segment.sweep) * segment.radius, radius: segment.radius }];
  return Array.from({ length: CURVE_STRETCHES }, (_, k) => {
    const [a, b, c] = [k, k + 0.5, k + 1].map((u) => segmentPoint(from, segment, u / CURVE_STRETCHES));
    return arcThrough(a!, b!, c!);
  });
}

/** Length and radius of the circle's arc through three points; a straight line when they lie on one. */
function arcThrough(a: Point, b: Point, c: Point): { lengthMm: number; radius: number } {
  const [ab, bc, ca] = [
    Math.hypot(b.x - a.x, b.y - a.y),
    Math.hypot(c.x - b.x, c.y - b.y),
    Math.hypot(a.x - c.x, a.y - c.y),
  ];
  const cross = Math.abs((b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x));
  if (cross < 1e-12 * (ab + bc) ** 2) return { lengthMm: ab + bc, radius: Number.POSITIVE_INFINITY };
  const radius = (ab * bc * ca) / (2 * cross);
  const angle = (chord: number) => 2 * Math.asin(Math.min(1, chord / (2 * radius)));
  return { lengthMm: radius * (angle(ab) + angle(bc)), radius };
}

/** Speeds at the joints, first limited by what can be slowed down before the next, then by what can be reached; then times. */
function profileSeconds(stretches: readonly Stretch[], acceleration: number): number {
  const count = stretches.length;
  const speeds = new Float64Array(count + 1);
  for (let i = 1; i < count; i++) speeds[i] = Math.min(stretches[i]!.entry, stretches[i - 1]!.limit);
  for (let i = count - 1; i > 0; i--) {
    speeds[i] = Math.min(speeds[i]!, Math.sqrt(speeds[i + 1]! ** 2 + 2 * acceleration * stretches[i]!.lengthMm));
  }
  let seconds = 0;
  for (let i = 0; i < count; i++) {
    const { lengthMm, limit } = stretches[i]!;
    speeds[i + 1] = Math.min(speeds[i + 1]!, Math.sqrt(speeds[i]! ** 2 + 2 * acceleration * lengthMm));
    seconds += stretchSeconds(lengthMm, speeds[i]!, speeds[i + 1]!, limit, acceleration);
  }
  return seconds;
}

/** Trapezoid with given speeds at both ends: v0 up to the peak, along, down to v1. */
function stretchSeconds(length: number, v0: number, v1: number, limit: number, acceleration: number): number {
  const peak = Math.min(limit, Math.sqrt(acceleration * length + (v0 * v0 + v1 * v1) / 2));
  if (peak <= 0) return 0;
  const ramps = (2 * peak * peak - v0 * v0 - v1 * v1) / (2 * acceleration);
  return (2 * peak - v0 - v1) / acceleration + Math.max(0, length - ramps) / peak;
}
