import type { ArcSegment, ContourView, CubicSegment, EllipseSegment, Segment, Shape } from './curve.ts';
import { GeometryError } from './error.ts';
import type { Point } from './point.ts';
import type { Region } from './region.ts';
import { orientedRing, type Ring } from './ring.ts';

/**
 * Largest gap between a curve and its chords wherever regions are planned with, mm. A twentieth of the narrowest kerf a
 * laser cuts in wood, and below what a maker can measure.
 */
export const FLATTEN_TOLERANCE_MM = 0.01;

/** Points nearer than this are one point, mm: far above rounding at any real size, far below anything that can be cut. */
const SAME_POINT_MM = 1e-9;

/** One segment never becomes more chords than this: it bounds the memory that a hostile drawing can claim. */
const MOST_CHORDS = 1_000_000;

/** A turning segment takes at least one chord for every quarter turn, so that a full circle never collapses. */
const LARGEST_STEP = Math.PI / 2;

/**
 * The contour as a polygon whose vertices lie on the curve and whose chords stay within `tolerance` of it, mm.
 * A closed contour gives a ring without a repeated last point; an open one a polyline with both ends.
 * @param tolerance - largest gap between curve and chord, mm, > 0.
 * @throws GeometryError `non-finite` with the segment, `out-of-range` for a tolerance that is not positive.
 * @remarks O(chords). Deterministic. Arcs use the sagitta; ellipses the sagitta of the circle they are stretched from;
 * cubics the bound h^2 max|B''| / 8 on the gap of a chord (textbook: linear interpolation error).
 */
export function flattenContour(contour: ContourView, tolerance: number): Ring {
  if (!(tolerance > 0))
    throw new GeometryError('out-of-range', `a flattening tolerance must be positive: ${tolerance}`);
  const out: number[] = [];
  assertFinite(contour.start.x, contour.start.y, 'start');
  out.push(contour.start.x, contour.start.y);
  let from = contour.start;
  let index = 0;
  for (const segment of contour.segments) {
    flattenSegment(from, segment, tolerance, index++, out);
    from = segment.to;
  }
  if (contour.closed) {
    while (out.length > 2 && isSame(out[0]!, out[1]!, out[out.length - 2]!, out[out.length - 1]!)) out.length -= 2;
  }
  return Float64Array.from(out);
}

/**
 * The shape flattened: outer ring positive, holes negative, whatever the orientation of its contours.
 * Holes with fewer than three distinct points enclose nothing and are left out.
 * @throws GeometryError `open-contour`, `degenerate` when the outer contour encloses nothing, `non-finite`.
 */
export function shapeToRegion(shape: Shape, tolerance: number): Region {
  if (!shape.outer.closed) throw new GeometryError('open-contour', 'the outer contour is open', 'outer');
  const outer = flattenContour(shape.outer, tolerance);
  if (outer.length < 6) throw new GeometryError('degenerate', 'the outer contour encloses nothing', 'outer');
  const holes: Ring[] = [];
  shape.holes.forEach((hole, index) => {
    if (!hole.closed) throw new GeometryError('open-contour', 'a hole is open', `hole ${index}`);
    const ring = flattenContour(hole, tolerance);
    if (ring.length >= 6) holes.push(orientedRing(ring, -1));
  });
  return { outer: orientedRing(outer, 1), holes };
}

function flattenSegment(from: Point, segment: Segment, tolerance: number, index: number, out: number[]): void {
  const place = `segment ${index}`;
  assertFinite(segment.to.x, segment.to.y, place);
  switch (segment.kind) {
    case 'line':
      break;
    case 'arc':
      flattenArc(from, segment, tolerance, place, out);
      break;
    case 'ellipse':
      flattenEllipse(segment, tolerance, place, out);
      break;
    case 'cubic':
      flattenCubic(from, segment, tolerance, place, out);
      break;
  }
  append(out, segment.to.x, segment.to.y);
}

/** How many equal steps keep the sagitta radius (1 - cos(step / 2)) within the tolerance. */
export function arcSteps(radius: number, sweep: number, tolerance: number): number {
  const step = tolerance >= radius ? LARGEST_STEP : Math.min(LARGEST_STEP, 2 * Math.acos(1 - tolerance / radius));
  return Math.max(1, Math.ceil(Math.abs(sweep) / step - 1e-9));
}

function flattenArc(from: Point, arc: ArcSegment, tolerance: number, place: string, out: number[]): void {
  assertFinite(arc.centre.x + arc.radius, arc.centre.y + arc.sweep, place);
  const steps = limited(arcSteps(arc.radius, arc.sweep, tolerance), place);
  const start = Math.atan2(from.y - arc.centre.y, from.x - arc.centre.x);
  for (let i = 1; i < steps; i++) {
    const angle = start + (arc.sweep * i) / steps;
    append(out, arc.centre.x + arc.radius * Math.cos(angle), arc.centre.y + arc.radius * Math.sin(angle));
  }
}

function flattenEllipse(arc: EllipseSegment, tolerance: number, place: string, out: number[]): void {
  assertFinite(arc.centre.x + arc.rx + arc.axisTurn, arc.centre.y + arc.ry + arc.from + arc.sweep, place);
  // Stretching the unit circle by at most max(rx, ry) stretches its sagitta by no more.
  const steps = limited(arcSteps(Math.max(arc.rx, arc.ry), arc.sweep, tolerance), place);
  const cos = Math.cos(arc.axisTurn);
  const sin = Math.sin(arc.axisTurn);
  for (let i = 1; i < steps; i++) {
    const u = arc.from + (arc.sweep * i) / steps;
    const x = arc.rx * Math.cos(u);
    const y = arc.ry * Math.sin(u);
    append(out, arc.centre.x + cos * x - sin * y, arc.centre.y + sin * x + cos * y);
  }
}

function flattenCubic(from: Point, cubic: CubicSegment, tolerance: number, place: string, out: number[]): void {
  const { c1, c2, to } = cubic;
  assertFinite(c1.x + c2.x, c1.y + c2.y, place);
  // |B''| is largest at an end because it is linear in the parameter.
  const bend = Math.max(
    Math.hypot(from.x - 2 * c1.x + c2.x, from.y - 2 * c1.y + c2.y),
    Math.hypot(c1.x - 2 * c2.x + to.x, c1.y - 2 * c2.y + to.y),
  );
  const steps = limited(Math.max(1, Math.ceil(Math.sqrt((6 * bend) / (8 * tolerance)) - 1e-9)), place);
  for (let i = 1; i < steps; i++) {
    const t = i / steps;
    const s = 1 - t;
    const w0 = s * s * s;
    const w1 = 3 * s * s * t;
    const w2 = 3 * s * t * t;
    const w3 = t * t * t;
    append(out, w0 * from.x + w1 * c1.x + w2 * c2.x + w3 * to.x, w0 * from.y + w1 * c1.y + w2 * c2.y + w3 * to.y);
  }
}

function append(out: number[], x: number, y: number): void {
  if (!isSame(out[out.length - 2]!, out[out.length - 1]!, x, y)) out.push(x, y);
}

function isSame(x0: number, y0: number, x1: number, y1: number): boolean {
  return Math.abs(x1 - x0) <= SAME_POINT_MM && Math.abs(y1 - y0) <= SAME_POINT_MM;
}

function limited(steps: number, place: string): number {
  if (steps > MOST_CHORDS) {
    throw new GeometryError('out-of-range', `a curve would need ${steps} chords at this tolerance`, place);
  }
  return steps;
}

function assertFinite(x: number, y: number, place: string): void {
  if (!Number.isFinite(x) || !Number.isFinite(y)) {
    throw new GeometryError('non-finite', 'a contour has a coordinate that is not a finite number', place);
  }
}
