import { biarc, distanceToPrimitive } from './biarc.ts';
import type { ArcSegment, Contour, CubicSegment, EllipseSegment, LineSegment, Shape } from './curve.ts';
import { GeometryError } from './error.ts';
import type { Point } from './point.ts';
import { segmentLength, segmentPoint, segmentTangent } from './segment.ts';

type Primitive = ArcSegment | LineSegment;

/** Points of the curve that each pair of arcs is compared with, besides its ends. */
const SAMPLES = 15;

/** Share of the tolerance that is given to the samples; the rest covers what lies between them. */
const SAMPLE_SHARE = 0.97;

/** Shortest step in the curve's parameter; at cusps a straight piece of this share ends the search. */
const SHORTEST_STEP = 1 / 4096;

/** Handles this share of the chord off it make a line: rounding, at any size. */
const STRAIGHT_SHARE = 1e-9;

/** A contour of lines and arcs alone. */
export interface ArcContour extends Contour {
  readonly segments: readonly Primitive[];
}

/**
 * The contour with its cubics and elliptical arcs replaced by circular arcs within `tolerance`; lines and arcs stay as they are.
 * Pieces of one curve meet with equal tangents.
 * @param tolerance - mm, > 0.
 * @throws GeometryError `out-of-range` for a tolerance that is not positive.
 * @remarks Biarcs from exact tangents, each reaching as far as the tolerance allows (halving and growing steps): the error of a
 * step shrinks with its cube, so the count grows with tolerance^(-1/3).
 */
export function approximateByArcs(contour: Contour, tolerance: number): ArcContour {
  if (!(tolerance > 0)) throw new GeometryError('out-of-range', `an arc tolerance must be positive: ${tolerance}`);
  const segments: Primitive[] = [];
  let from = contour.start;
  for (const segment of contour.segments) {
    if (segment.kind === 'line' || segment.kind === 'arc') segments.push(segment);
    else curveToArcs(from, segment, tolerance, segments);
    from = segment.to;
  }
  return { start: contour.start, segments, closed: contour.closed };
}

/** All contours of a shape as lines and arcs. */
export function approximateShapeByArcs(shape: Shape, tolerance: number): { outer: ArcContour; holes: ArcContour[] } {
  return {
    outer: approximateByArcs(shape.outer, tolerance),
    holes: shape.holes.map((hole) => approximateByArcs(hole, tolerance)),
  };
}

function curveToArcs(from: Point, curve: CubicSegment | EllipseSegment, tolerance: number, out: Primitive[]): void {
  if (segmentLength(from, curve) <= tolerance || isStraight(from, curve)) {
    out.push({ kind: 'line', to: curve.to });
    return;
  }
  let u = 0;
  let step = 0.25;
  while (u < 1) {
    step = Math.min(step, 1 - u);
    let pair = stepByArcs(from, curve, u, u + step, tolerance);
    while (pair === null && step > SHORTEST_STEP) {
      step = Math.max(SHORTEST_STEP, step * 0.75);
      pair = stepByArcs(from, curve, u, u + step, tolerance);
    }
    u = u + step > 1 - 1e-12 ? 1 : u + step;
    if (pair === null) out.push({ kind: 'line', to: segmentPoint(from, curve, u) });
    else out.push(...pair);
    step *= 1.4;
  }
}

/** A cubic whose handles lie on its chord, between its ends: drawing programs write lines that way. */
function isStraight(from: Point, curve: CubicSegment | EllipseSegment): boolean {
  if (curve.kind === 'ellipse') return false;
  const dx = curve.to.x - from.x;
  const dy = curve.to.y - from.y;
  const squared = dx * dx + dy * dy;
  return [curve.c1, curve.c2].every(({ x, y }) => {
    const along = (x - from.x) * dx + (y - from.y) * dy;
    const aside = Math.abs((x - from.x) * dy - (y - from.y) * dx);
    return aside <= STRAIGHT_SHARE * squared && along >= 0 && along <= squared;
  });
}

function stepByArcs(
  from: Point,
  curve: CubicSegment | EllipseSegment,
  u0: number,
  u1: number,
  tolerance: number,
): Primitive[] | null {
  const p = segmentPoint(from, curve, u0);
  const q = segmentPoint(from, curve, u1);
  const pair = biarc(p, segmentTangent(from, curve, u0), q, segmentTangent(from, curve, u1));
  if (pair === null) return null;
  const [a, b] = pair;
  const turn = (a.kind === 'arc' ? Math.abs(a.sweep) : 0) + (b.kind === 'arc' ? Math.abs(b.sweep) : 0);
  if (turn > Math.PI) return null;
  const limit = tolerance * SAMPLE_SHARE;
  for (let i = 1; i <= SAMPLES; i++) {
    const at = segmentPoint(from, curve, u0 + ((u1 - u0) * i) / (SAMPLES + 1));
    const gap = Math.min(distanceToPrimitive(at.x, at.y, p, a), distanceToPrimitive(at.x, at.y, a.to, b));
    if (!(gap <= limit)) return null;
  }
  return [a, b].filter((part, index) => segmentLength(index === 0 ? p : a.to, part) > 0);
}
