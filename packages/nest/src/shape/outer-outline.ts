import { segmentPoint, segmentTangent, splitSegment } from '@underlap/geometry/contour';
import type { Contour, Segment, Shape } from '@underlap/geometry/curve';
import type { Point } from '@underlap/geometry/point';
import { type Ring, reversedRing, ringArea } from '@underlap/geometry/ring';

/** How far a search outline may lie outside the exact one, mm: what a laser positions to, and enough to spare vertices. */
export const SEARCH_TOLERANCE_MM = 0.16;

/** Halvings of one curve; 2^12 spans of one segment are beyond any artwork. */
const DEEPEST_HALVING = 12;

/** Largest change of direction that one tangent pair may bridge, radians. */
const LARGEST_TURN = Math.PI / 4;

/**
 * Rings that contain an exact shape: outward bends are replaced by tangents, inward bends by chords, straight lines stay as
 * they are. So whatever keeps its distance from the rings keeps it from the shape.
 * @param shape - mm; material lies left of every contour (outer positive, holes negative area).
 * @param tolerance - how far the rings may lie outside the shape, mm, > 0.
 * @returns outer ring first, then the holes.
 * @remarks O(segments x spans).
 */
export function outerRings(shape: Shape, tolerance: number): Ring[] {
  return [shape.outer, ...shape.holes].map((contour, index) => outerRing(contour, tolerance, index === 0 ? 1 : -1));
}

function outerRing(contour: Contour, tolerance: number, sign: 1 | -1): Ring {
  const ring = trace(contour, tolerance, 1);
  // a contour drawn the wrong way round has its bends the other way round as well
  return ringArea(ring) * sign >= 0 ? ring : reversedRing(trace(contour, tolerance, -1));
}

function trace(contour: Contour, tolerance: number, side: 1 | -1): Ring {
  const points: Point[] = [];
  let from = contour.start;
  points.push(from);
  for (const segment of contour.segments) {
    if (segment.kind === 'line') points.push(segment.to);
    else for (const piece of inflectionFree(from, segment)) bend(piece.from, piece.segment, tolerance, side, points, 0);
    from = segment.to;
  }
  return tidyRing(points);
}

/** Cut a cubic where its curvature changes sign; other segments bend one way. */
function inflectionFree(from: Point, segment: Segment): { from: Point; segment: Segment }[] {
  if (segment.kind !== 'cubic') return [{ from, segment }];
  const { c1, c2, to } = segment;
  const ax = c1.x - from.x;
  const ay = c1.y - from.y;
  const bx = c2.x - c1.x - ax;
  const by = c2.y - c1.y - ay;
  const cx = to.x - c2.x - ax - 2 * bx;
  const cy = to.y - c2.y - ay - 2 * by;
  // cross(B', B'') / 18 = (b x c) u^2 + (a x c) u + (a x b)
  const cuts = quadraticRoots(bx * cy - by * cx, ax * cy - ay * cx, ax * by - ay * bx).filter(
    (u) => u > 1e-6 && u < 1 - 1e-6,
  );
  const pieces: { from: Point; segment: Segment }[] = [];
  let start = from;
  let rest: Segment = segment;
  let done = 0;
  for (const u of cuts) {
    const [first, second] = splitSegment(start, rest, (u - done) / (1 - done));
    pieces.push({ from: start, segment: first });
    start = first.to;
    rest = second;
    done = u;
  }
  pieces.push({ from: start, segment: rest });
  return pieces;
}

function quadraticRoots(a: number, b: number, c: number): number[] {
  if (Math.abs(a) < 1e-12 * (Math.abs(b) + Math.abs(c))) return b === 0 ? [] : [-c / b];
  const root = b * b - 4 * a * c;
  if (root <= 0) return [];
  const q = -0.5 * (b + (b < 0 ? -1 : 1) * Math.sqrt(root));
  return (q === 0 ? [0] : [q / a, c / q]).sort((x, y) => x - y);
}

/** Add the outer polyline of a segment that bends one way. */
function bend(from: Point, segment: Segment, tolerance: number, side: 1 | -1, points: Point[], depth: number): void {
  const t0 = segmentTangent(from, segment, 0);
  const t1 = segmentTangent(from, segment, 1);
  const middle = segmentPoint(from, segment, 0.5);
  const chordX = segment.to.x - from.x;
  const chordY = segment.to.y - from.y;
  const length = Math.hypot(chordX, chordY);
  // a full circle ends where it starts: its middle tells its size
  const size = Math.max(length, Math.hypot(middle.x - from.x, middle.y - from.y));
  const isShort = depth >= DEEPEST_HALVING || size < tolerance * 1e-3;
  const turn = Math.atan2(t0.x * t1.y - t0.y * t1.x, t0.x * t1.x + t0.y * t1.y);
  const goesAround = length === 0 || t0.x * chordX + t0.y * chordY <= 0 || t1.x * chordX + t1.y * chordY <= 0;
  if (!isShort && (Math.abs(turn) > LARGEST_TURN || goesAround)) {
    halve(from, segment, tolerance, side, points, depth);
    return;
  }
  const sagitta = length === 0 ? 0 : ((middle.x - from.x) * chordY - (middle.y - from.y) * chordX) / length;
  if (sagitta * side > 0) {
    // the middle lies right of the chord: the curve bends towards the material and bulges outwards
    const corner = tangentCorner(from, t0, segment.to, t1);
    const height =
      corner === null
        ? Math.abs(sagitta)
        : Math.abs((corner.x - from.x) * chordY - (corner.y - from.y) * chordX) / length;
    // the corner stands as far from the curve as the sagitta, about half its own height
    if (!isShort && height - Math.abs(sagitta) > tolerance) {
      halve(from, segment, tolerance, side, points, depth);
      return;
    }
    if (corner !== null) points.push(corner);
  } else if (!isShort && Math.abs(sagitta) > tolerance) {
    halve(from, segment, tolerance, side, points, depth);
    return;
  }
  points.push(segment.to);
}

function halve(from: Point, segment: Segment, tolerance: number, side: 1 | -1, points: Point[], depth: number): void {
  const [first, second] = splitSegment(from, segment, 0.5);
  bend(from, first, tolerance, side, points, depth + 1);
  bend(first.to, second, tolerance, side, points, depth + 1);
}

function tangentCorner(a: Point, ta: Point, b: Point, tb: Point): Point | null {
  const cross = ta.x * tb.y - ta.y * tb.x;
  if (Math.abs(cross) < 1e-9) return null;
  const u = ((b.x - a.x) * tb.y - (b.y - a.y) * tb.x) / cross;
  return u <= 0 ? null : { x: a.x + ta.x * u, y: a.y + ta.y * u };
}

/** A ring without repeated points and without vertices in the middle of a straight line. */
export function tidyRing(points: readonly Point[]): Ring {
  let kept = points.filter((point, i) => {
    const next = points[(i + 1) % points.length]!;
    return Math.hypot(next.x - point.x, next.y - point.y) > 1e-9;
  });
  for (let changed = true; changed && kept.length > 3; ) {
    const before = kept.length;
    kept = kept.filter((point, i) => {
      const p = kept[(i + kept.length - 1) % kept.length]!;
      const n = kept[(i + 1) % kept.length]!;
      const ux = point.x - p.x;
      const uy = point.y - p.y;
      const vx = n.x - point.x;
      const vy = n.y - point.y;
      const straight = Math.abs(ux * vy - uy * vx) <= 1e-9 * Math.hypot(ux, uy) * Math.hypot(vx, vy);
      return !(straight && ux * vx + uy * vy > 0);
    });
    changed = kept.length !== before;
  }
  const ring = new Float64Array(2 * kept.length);
  kept.forEach((point, i) => {
    ring[2 * i] = point.x;
    ring[2 * i + 1] = point.y;
  });
  return ring;
}
