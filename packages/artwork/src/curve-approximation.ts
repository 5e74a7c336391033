import { segmentPoint, segmentTangent, splitSegment } from '@underlap/geometry/contour';
import type { ArcSegment, Contour, CubicSegment, EllipseSegment, LineSegment, Segment } from '@underlap/geometry/curve';
import type { Point } from '@underlap/geometry/point';
import { bulgeSegment } from './bulge.ts';

/** Points of the curve that are measured against a pair of arcs. */
const SAMPLES = 12;

/** Halvings of one segment; only cusps come near it, where what is left is far below any tolerance. */
const DEEPEST_HALVING = 24;

/**
 * The contour in lines and circular arcs. Lines and arcs stay as they are; ellipses and cubics become pairs of arcs that
 * start and end in the curve's own direction and meet tangentially.
 * @param tolerance - largest distance between curve and arcs, mm, > 0.
 * @remarks The number of arcs grows with tolerance^(-1/3). Pairs of arcs after Bolton, Biarc curves, Computer-Aided
 * Design 7 (1975); the choice of equal tangent lengths is the customary one.
 */
export function contourInArcs(contour: Contour, tolerance: number): Contour {
  const segments: Segment[] = [];
  let from = contour.start;
  for (const segment of contour.segments) {
    pushArcs(segments, from, segment, tolerance);
    from = segment.to;
  }
  return { ...contour, segments };
}

/**
 * An arc or elliptical arc as cubics.
 * @param tolerance - largest distance, mm, > 0.
 * @remarks One cubic over the angle t leaves a circle of radius r by at most 2.73e-4 r (t / 90 degrees)^6 (textbook value
 * for the handle length 4/3 tan(t / 4)).
 */
export function arcInCubics(from: Point, arc: ArcSegment | EllipseSegment, tolerance: number): CubicSegment[] {
  const ellipse = arc.kind === 'arc' ? circleAsEllipse(from, arc) : arc;
  const radius = Math.max(ellipse.rx, ellipse.ry);
  const quarter = Math.PI / 2;
  const step = quarter * Math.min(1, (tolerance / (2.73e-4 * Math.max(radius, tolerance))) ** (1 / 6));
  const count = Math.max(1, Math.ceil(Math.abs(ellipse.sweep) / step - 1e-9));
  const turn = ellipse.sweep / count;
  const handle = (4 / 3) * Math.tan(turn / 4);
  const cubics: CubicSegment[] = [];
  for (let i = 0; i < count; i++) {
    const u = ellipse.from + turn * i;
    const v = u + turn;
    cubics.push({
      kind: 'cubic',
      c1: onEllipse(ellipse, Math.cos(u) - handle * Math.sin(u), Math.sin(u) + handle * Math.cos(u)),
      c2: onEllipse(ellipse, Math.cos(v) + handle * Math.sin(v), Math.sin(v) - handle * Math.cos(v)),
      to: i === count - 1 ? arc.to : onEllipse(ellipse, Math.cos(v), Math.sin(v)),
    });
  }
  return cubics;
}

function circleAsEllipse(from: Point, { to, centre, radius, sweep }: ArcSegment): EllipseSegment {
  const start = Math.atan2(from.y - centre.y, from.x - centre.x);
  return { kind: 'ellipse', to, centre, rx: radius, ry: radius, axisTurn: 0, from: start, sweep };
}

function onEllipse({ centre, rx, ry, axisTurn }: EllipseSegment, x: number, y: number): Point {
  const cos = Math.cos(axisTurn);
  const sin = Math.sin(axisTurn);
  return { x: centre.x + cos * rx * x - sin * ry * y, y: centre.y + sin * rx * x + cos * ry * y };
}

function pushArcs(into: Segment[], from: Point, segment: Segment, tolerance: number): void {
  if (segment.kind === 'line' || segment.kind === 'arc') {
    into.push(segment);
    return;
  }
  // Whole ellipses have no chord and long ones turn back on themselves: a quarter at a time behaves.
  const parts = segment.kind === 'ellipse' ? Math.max(1, Math.ceil(Math.abs(segment.sweep) / (Math.PI / 2))) : 1;
  let rest: Segment = segment;
  let at = from;
  for (let left = parts; left > 1; left--) {
    const [first, second] = splitSegment(at, rest, 1 / left);
    pushBiarcs(into, at, first, tolerance, 0);
    at = first.to;
    rest = second;
  }
  pushBiarcs(into, at, rest, tolerance, 0);
}

function pushBiarcs(into: Segment[], from: Point, segment: Segment, tolerance: number, depth: number): void {
  const pair = biarc(from, segment);
  if (pair !== null && isClose(from, segment, pair, tolerance)) {
    into.push(...pair);
    return;
  }
  if (depth >= DEEPEST_HALVING || reach(from, segment) <= tolerance) {
    into.push({ kind: 'line', to: segment.to });
    return;
  }
  const [first, second] = splitSegment(from, segment, 0.5);
  pushBiarcs(into, from, first, tolerance, depth + 1);
  pushBiarcs(into, first.to, second, tolerance, depth + 1);
}

/** No point of the segment lies further from its start than this: what is shorter than the tolerance is a point to it. */
function reach(from: Point, segment: Segment): number {
  if (segment.kind === 'cubic') {
    return Math.max(...[segment.c1, segment.c2, segment.to].map(({ x, y }) => Math.hypot(x - from.x, y - from.y)));
  }
  return segment.kind === 'ellipse' ? Math.max(segment.rx, segment.ry) * Math.abs(segment.sweep) : Infinity;
}

type ArcOrLine = LineSegment | ArcSegment;

/** Two arcs with the segment's end points and end directions; one line when it is straight; null when there is none. */
function biarc(from: Point, segment: Segment): ArcOrLine[] | null {
  const t0 = segmentTangent(from, segment, 0);
  const t1 = segmentTangent(from, segment, 1);
  const vx = segment.to.x - from.x;
  const vy = segment.to.y - from.y;
  const size2 = vx * vx + vy * vy;
  if (size2 === 0) return null;
  const along = vx * (t0.x + t1.x) + vy * (t0.y + t1.y);
  const turning = 2 * (1 - (t0.x * t1.x + t0.y * t1.y));
  // Root of turning d^2 + 2 along d - |v|^2 = 0 in the form that does not cancel; along <= 0 is a curve that turns back.
  if (along <= 0) return null;
  const d = size2 / (along + Math.sqrt(along * along + turning * size2));
  const middle = {
    x: (from.x + segment.to.x + d * (t0.x - t1.x)) / 2,
    y: (from.y + segment.to.y + d * (t0.y - t1.y)) / 2,
  };
  const first = turnBetween(t0.x, t0.y, middle.x - from.x, middle.y - from.y);
  const second = turnBetween(segment.to.x - middle.x, segment.to.y - middle.y, t1.x, t1.y);
  // A turn of half the sweep each; near zero both are the same straight line.
  if (Math.abs(first) < 1e-9 && Math.abs(second) < 1e-9) return [{ kind: 'line', to: segment.to }];
  return [bulgeSegment(from, middle, Math.tan(first / 2)), bulgeSegment(middle, segment.to, Math.tan(second / 2))];
}

/** Signed angle from the first direction to the second. */
function turnBetween(ax: number, ay: number, bx: number, by: number): number {
  return Math.atan2(ax * by - ay * bx, ax * bx + ay * by);
}

function isClose(from: Point, segment: Segment, pair: readonly ArcOrLine[], tolerance: number): boolean {
  const joint = pair[0]!.to;
  const chordX = segment.to.x - from.x;
  const chordY = segment.to.y - from.y;
  const isJointAhead = (p: Point): boolean => (p.x - joint.x) * chordX + (p.y - joint.y) * chordY < 0;
  for (let i = 1; i < SAMPLES; i++) {
    const u = i / SAMPLES;
    const point = segmentPoint(from, segment, u);
    // A curve that turns by more than a right angle from its chord is halved first, so 'ahead of the joint' has a meaning.
    const direction = segmentTangent(from, segment, u);
    if (direction.x * chordX + direction.y * chordY <= 0) return false;
    const isFirst = pair.length === 1 || isJointAhead(point);
    const off = isFirst ? distanceToArc(from, pair[0]!, point) : distanceToArc(joint, pair[1]!, point);
    if (!(off <= tolerance)) return false;
  }
  return true;
}

/** Distance to the line or circle that carries the arc; the caller sees to it that the point lies beside the arc. */
function distanceToArc(from: Point, arc: ArcOrLine, point: Point): number {
  if (arc.kind === 'arc') {
    return Math.abs(Math.hypot(point.x - arc.centre.x, point.y - arc.centre.y) - arc.radius);
  }
  const dx = arc.to.x - from.x;
  const dy = arc.to.y - from.y;
  const length = Math.hypot(dx, dy);
  if (length === 0) return Math.hypot(point.x - from.x, point.y - from.y);
  return Math.abs((point.x - from.x) * dy - (point.y - from.y) * dx) / length;
}
