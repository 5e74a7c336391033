import type { Contour, CubicSegment, Segment } from '@underlap/geometry/curve';
import type { Point } from '@underlap/geometry/point';
import { bulgeSegment } from '../bulge.ts';
import { closedUp, extent, MEETING_SHARE } from './close-curve.ts';
import type { SplineData } from './spline-data.ts';
import { throughPoints } from './spline-through-points.ts';

/** Relative to the curve's size: how far fitted cubics may leave a rational or higher curve. 1e-6 of 500 mm is 0.5 um. */
const FIT_SHARE = 1e-6;

const DEEPEST_HALVING = 16;

/** Relative differences that written digits explain. */
const SAME_SHARE = 1e-7;

/** Highest degree that is read; programs write 3, a few 5. */
const HIGHEST_DEGREE = 11;

/**
 * The spline as cubics: exact for plain splines up to degree 3, fitted within 1e-6 of its size for rational ones and
 * higher degrees. Splines that give fit points alone are the C2 cubic through them (chord-length parameters, given end
 * tangents, else natural ends, else periodic when closed).
 * @returns null when the data is no spline (wrong counts, falling knots): the caller complains.
 */
export function splineContour(data: SplineData): Contour | null {
  return fromControls(data) ?? (data.fits.length >= 2 ? throughPoints(data) : null);
}

function fromControls(data: SplineData): Contour | null {
  const { degree, knots, controls, weights } = data;
  if (degree < 1 || degree > HIGHEST_DEGREE || controls.length <= degree) return null;
  if (knots.length !== controls.length + degree + 1) return null;
  if (weights.length !== 0 && (weights.length !== controls.length || weights.some((w) => !(w > 0)))) return null;
  for (let i = 1; i < knots.length; i++) if (knots[i]! < knots[i - 1]!) return null;
  const isRational = weights.some((w) => Math.abs(w - weights[0]!) > 1e-12 * weights[0]!);
  const pieces = bezierPieces(degree, knots, controls, isRational ? weights : []);
  if (pieces.length === 0) return null;
  const size = extent(controls);
  const segments: Segment[] = [];
  for (const piece of pieces) {
    const arc = isRational && degree === 2 ? circularArc(piece, size) : null;
    if (arc !== null) segments.push(arc);
    else if (!isRational && degree <= 3) segments.push(exactSegment(piece));
    else fitCubics(segments, piece, 0, 1, FIT_SHARE * size, 0);
  }
  const start = project(pieces[0]![0]!);
  const end = segments.at(-1)!.to;
  const meets = Math.hypot(end.x - start.x, end.y - start.y) <= MEETING_SHARE * size;
  return closedUp(start, segments, meets || data.isClosed || data.isPeriodic);
}

/** A control point in homogeneous coordinates: w x, w y, w. */
interface Weighted {
  readonly x: number;
  readonly y: number;
  readonly w: number;
}

/**
 * The Bezier pieces of a B-spline between its inner knots, by polar forms: control point k of the piece over [a, b] is the
 * blossom at (a, ..., a, b, ..., b) with k times b (Ramshaw, Blossoms are polar forms, CAGD 6, 1989).
 */
function bezierPieces(
  degree: number,
  knots: readonly number[],
  controls: readonly Point[],
  weights: readonly number[],
): Weighted[][] {
  const points = controls.map(({ x, y }, i) => {
    const w = weights[i] ?? 1;
    return { x: x * w, y: y * w, w };
  });
  const pieces: Weighted[][] = [];
  for (let span = degree; span < controls.length; span++) {
    const a = knots[span]!;
    const b = knots[span + 1]!;
    if (!(b > a)) continue;
    const piece: Weighted[] = [];
    for (let k = 0; k <= degree; k++) piece.push(blossom(degree, knots, points, span, a, b, k));
    pieces.push(piece);
  }
  return pieces;
}

function blossom(
  degree: number,
  knots: readonly number[],
  points: readonly Weighted[],
  span: number,
  a: number,
  b: number,
  times: number,
): Weighted {
  const row = points.slice(span - degree, span + 1);
  for (let level = 1; level <= degree; level++) {
    const u = level <= times ? b : a;
    for (let j = degree; j >= level; j--) {
      const low = knots[span - degree + j]!;
      const high = knots[span + 1 + j - level]!;
      const t = (u - low) / (high - low);
      row[j] = mix(row[j - 1]!, row[j]!, t);
    }
  }
  return row[degree]!;
}

function exactSegment(piece: readonly Weighted[]): Segment {
  const points = piece.map(project);
  const to = points.at(-1)!;
  const [p, q, r] = points as [Point, Point, Point];
  if (points.length === 2) return { kind: 'line', to };
  if (points.length === 4) return { kind: 'cubic', c1: q, c2: r, to };
  // A quadratic as a cubic, which is exact.
  const third = (from: Point, towards: Point): Point => ({
    x: from.x + (2 / 3) * (towards.x - from.x),
    y: from.y + (2 / 3) * (towards.y - from.y),
  });
  return { kind: 'cubic', c1: third(p, q), c2: third(to, q), to };
}

/**
 * The circular arc when the rational quadratic is one: equal legs, equal end weights, and the middle weight the cosine of
 * half the turn (textbook: conics as rational Beziers). Programs write circles and arcs in this way.
 */
function circularArc(piece: readonly Weighted[], size: number): Segment | null {
  const [p, q, r] = piece.map(project) as [Point, Point, Point];
  const [first, middle, last] = piece as readonly [Weighted, Weighted, Weighted];
  const leg = Math.hypot(q.x - p.x, q.y - p.y);
  const otherLeg = Math.hypot(r.x - q.x, r.y - q.y);
  const half = Math.hypot(r.x - p.x, r.y - p.y) / 2;
  const isArc =
    Math.abs(leg - otherLeg) <= SAME_SHARE * size &&
    Math.abs(first.w - last.w) <= SAME_SHARE * first.w &&
    Math.abs((middle.w / first.w) * leg - half) <= SAME_SHARE * size;
  if (!isArc || leg === 0) return null;
  // The tangent at p runs along its leg, so the chord turns off it by half the sweep.
  const turn = Math.atan2(
    (q.x - p.x) * (r.y - p.y) - (q.y - p.y) * (r.x - p.x),
    (q.x - p.x) * (r.x - p.x) + (q.y - p.y) * (r.y - p.y),
  );
  return bulgeSegment(p, r, Math.tan(turn / 2));
}

/** Cubics with the piece's points and derivatives at both ends, halved until they follow it. */
function fitCubics(
  into: Segment[],
  piece: readonly Weighted[],
  from: number,
  to: number,
  tolerance: number,
  depth: number,
): void {
  const a = evaluate(piece, from);
  const b = evaluate(piece, to);
  const third = (to - from) / 3;
  const c1 = { x: a.at.x + a.speed.x * third, y: a.at.y + a.speed.y * third };
  const c2 = { x: b.at.x - b.speed.x * third, y: b.at.y - b.speed.y * third };
  const cubic: CubicSegment = { kind: 'cubic', c1, c2, to: b.at };
  let off = 0;
  for (const share of [0.25, 0.5, 0.75]) {
    const is = cubicAt(a.at, cubic, share);
    const { at } = evaluate(piece, from + (to - from) * share);
    off = Math.max(off, Math.hypot(is.x - at.x, is.y - at.y));
  }
  if (off <= tolerance || depth >= DEEPEST_HALVING) {
    into.push(cubic);
    return;
  }
  const middle = (from + to) / 2;
  fitCubics(into, piece, from, middle, tolerance, depth + 1);
  fitCubics(into, piece, middle, to, tolerance, depth + 1);
}

/** Point and derivative of a (rational) Bezier piece by de Casteljau. */
function evaluate(piece: readonly Weighted[], u: number): { at: Point; speed: Point } {
  const row = [...piece];
  const degree = row.length - 1;
  for (let level = 1; level < degree; level++) {
    for (let j = 0; j <= degree - level; j++) row[j] = mix(row[j]!, row[j + 1]!, u);
  }
  const [a, b] = row as [Weighted, Weighted];
  const c = mix(a, b, u);
  const at = project(c);
  const rate = { x: degree * (b.x - a.x), y: degree * (b.y - a.y), w: degree * (b.w - a.w) };
  return { at, speed: { x: (rate.x - rate.w * at.x) / c.w, y: (rate.y - rate.w * at.y) / c.w } };
}

function project({ x, y, w }: Weighted): Point {
  return { x: x / w, y: y / w };
}

function mix(a: Weighted, b: Weighted, t: number): Weighted {
  return { x: a.x + (b.x - a.x) * t, y: a.y + (b.y - a.y) * t, w: a.w + (b.w - a.w) * t };
}

function cubicAt(from: Point, { c1, c2, to }: CubicSegment, u: number): Point {
  const s = 1 - u;
  const w = [s * s * s, 3 * s * s * u, 3 * s * u * u, u * u * u] as const;
  return {
    x: w[0] * from.x + w[1] * c1.x + w[2] * c2.x + w[3] * to.x,
    y: w[0] * from.y + w[1] * c1.y + w[2] * c2.y + w[3] * to.y,
  };
}
