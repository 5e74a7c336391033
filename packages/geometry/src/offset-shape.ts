import { fitArcs } from './arc-fit.ts';
import { distanceToPrimitive } from './biarc.ts';
import { carriersMeet, type Primitive } from './carrier.ts';
import { contourArea, orientedContour, polylineContour } from './contour.ts';
import { findCrossings } from './crossings.ts';
import type { ArcSegment, Contour, LineSegment, Shape } from './curve.ts';
import { approximateShapeByArcs } from './curve-to-arcs.ts';
import { GeometryError } from './error.ts';
import { flattenContour, shapeToRegion } from './flatten.ts';
import { offsetRegions } from './offset.ts';
import { offsetPrimitives } from './offset-primitives.ts';
import type { Point } from './point.ts';
import { type Bounds, type Ring, ringArea, ringPerimeter } from './ring.ts';
import { segmentBounds } from './segment.ts';

/** No point of an offset outline is farther than this from where it belongs, mm, all steps taken together. */
export const OFFSET_FIT_TOLERANCE_MM = 0.01;

/** Share of the tolerance for turning cubics and ellipses into arcs. */
const CURVE_TOLERANCE_MM = 0.004;

/** How finely the guiding polygon is flattened and rounded, mm. */
const GUIDE_TOLERANCE_MM = 0.001;

/** An edge of the guiding polygon follows a primitive when its middle is this near, mm: both errors of the guide and rounding. */
const MATCH_MM = 0.0025;

/** Ends of neighbouring primitives this near are one point, mm. */
const SAME_END_MM = 1e-6;

/** A junction may lie this far from the guide's vertex, mm: at flat crossings the guide tells the place only roughly. */
const JUNCTION_MM = 0.05;

/**
 * Grow (positive) or shrink (negative) an exact shape by a constant distance, as for kerf: the outer contour moves out and holes
 * close, with round outward corners.
 * @param shape - mm; orientation by convention or not.
 * @param distance - mm, finite; 0 returns the shape as it is.
 * @returns shapes of lines and arcs within OFFSET_FIT_TOLERANCE_MM of the true offset: lines are shifted lines, arcs keep their
 * centres; cubics and ellipses come out as arcs with equal tangents where the source was smooth. Empty when consumed, several
 * when split.
 * @throws GeometryError `non-finite`, `open-contour`, `degenerate`.
 * @remarks A fine polygon offset gives the topology; each stretch of it is then replaced by the exact primitive it follows, and
 * neighbouring primitives are trimmed where they meet. A ring for which that fails is fitted with arcs instead. O(n log n + e p) for
 * e edges of the polygon and p primitives (box tests only).
 */
export function offsetShape(shape: Shape, distance: number): Shape[] {
  if (!Number.isFinite(distance)) throw new GeometryError('non-finite', `an offset distance is ${distance}`);
  if (distance === 0) return [shape];
  const arcs = approximateShapeByArcs(
    { outer: orientedContour(shape.outer, 1), holes: shape.holes.map((hole) => orientedContour(hole, -1)) },
    CURVE_TOLERANCE_MM,
  );
  const primitives = [arcs.outer, ...arcs.holes].flatMap((contour) => offsetPrimitives(contour, distance));
  const guide = offsetRegions([shapeToRegion(arcs, GUIDE_TOLERANCE_MM)], distance, GUIDE_TOLERANCE_MM);
  const boxed = primitives.map((primitive) => ({
    ...primitive,
    box: grown(segmentBounds(primitive.from, primitive.segment)),
  }));
  return guide.map((region) => ({
    outer: exactRing(region.outer, boxed),
    holes: region.holes.map((hole) => exactRing(hole, boxed)),
  }));
}

interface BoxedPrimitive extends Primitive {
  readonly box: Bounds;
}

/** A stretch of the guide, edges first..end-1 counted past its length, that follows one primitive. */
interface Stretch {
  readonly first: number;
  readonly end: number;
  readonly primitive: number;
}

/** The guide's ring on exact primitives; fitted with arcs where it does not follow them. */
function exactRing(ring: Ring, primitives: readonly BoxedPrimitive[]): Contour {
  const traced = traceRing(ring, primitives);
  if (traced !== null && isSound(traced, ring)) return traced;
  for (const tolerance of [OFFSET_FIT_TOLERANCE_MM * 0.5, OFFSET_FIT_TOLERANCE_MM * 0.2]) {
    const fitted = fitArcs(ring, tolerance);
    if (isSound(fitted, ring)) return fitted;
  }
  return polylineContour(ring, true);
}

/** Does the contour enclose what the guide does, without meeting itself? */
function isSound(contour: Contour, ring: Ring): boolean {
  const allowed = ringPerimeter(ring) * OFFSET_FIT_TOLERANCE_MM;
  if (Math.abs(contourArea(contour) - ringArea(ring)) > allowed) return false;
  return findCrossings([flattenContour(contour, GUIDE_TOLERANCE_MM)]).length === 0;
}

function traceRing(ring: Ring, primitives: readonly BoxedPrimitive[]): Contour | null {
  const stretches = stretchesOf(ring, primitives);
  if (stretches === null) return null;
  const count = stretches.length;
  if (count === 1) return wholeCircle(primitives[stretches[0]!.primitive]!, ring);
  const joints: Joint[] = [];
  for (let i = 0; i < count; i++) {
    const next = stretches[(i + 1) % count]!;
    const at = vertex(ring, next.first);
    const joint = jointOf(primitives, stretches[i]!.primitive, next.primitive, at);
    if (joint === null) return null;
    joints.push(joint);
  }
  const segments: (ArcSegment | LineSegment)[] = [];
  const start = joints[count - 1]!.enter;
  let from = start;
  for (let i = 0; i < count; i++) {
    const { leave, enter, between } = joints[i]!;
    const piece = trimmed(primitives[stretches[i]!.primitive]!, from, leave);
    if (piece === null) return null;
    if (!follows(piece, from, ring, stretches[i]!)) return null;
    if (piece !== 'nothing') segments.push(piece);
    if (between !== null) segments.push(between);
    from = enter;
  }
  return segments.length < 2 ? null : { start, segments, closed: true };
}

function vertex(ring: Ring, index: number): Point {
  const at = (2 * index) % ring.length;
  return { x: ring[at]!, y: ring[at + 1]! };
}

/** Cut the ring into the fewest stretches that each follow one primitive; null when some edge follows none. */
function stretchesOf(ring: Ring, primitives: readonly BoxedPrimitive[]): Stretch[] | null {
  const n = ring.length / 2;
  const candidates: number[][] = [];
  for (let edge = 0; edge < n; edge++) {
    const found = candidatesOf(vertex(ring, edge), vertex(ring, edge + 1), primitives);
    if (found.length === 0) return null;
    candidates.push(found);
  }
  const reach = (first: number, limit: number): { end: number; common: number[] } => {
    let common = candidates[first % n]!;
    let end = first + 1;
    while (end < limit) {
      const next = common.filter((primitive) => candidates[end % n]!.includes(primitive));
      if (next.length === 0) break;
      common = next;
      end += 1;
    }
    return { end, common };
  };
  const whole = reach(0, n);
  if (whole.end === n) {
    const nearest = nearestOf(ring, 0, n, whole.common, primitives);
    return [{ first: 0, end: n, primitive: nearest }];
  }
  const stretches: Stretch[] = [];
  const begin = whole.end;
  let at = begin;
  while (at < begin + n) {
    const { end, common } = reach(at, begin + n);
    stretches.push({ first: at, end, primitive: nearestOf(ring, at, end, common, primitives) });
    at = end;
  }
  return stretches;
}

function candidatesOf(a: Point, b: Point, primitives: readonly BoxedPrimitive[]): number[] {
  const x = (a.x + b.x) / 2;
  const y = (a.y + b.y) / 2;
  const found: number[] = [];
  primitives.forEach(({ box, from, segment }, index) => {
    if (x < box.minX || x > box.maxX || y < box.minY || y > box.maxY) return;
    if (distanceToPrimitive(x, y, from, segment) > MATCH_MM) return;
    // The edge must run the primitive's way.
    const along =
      segment.kind === 'line'
        ? (b.x - a.x) * (segment.to.x - from.x) + (b.y - a.y) * (segment.to.y - from.y)
        : ((x - segment.centre.x) * (b.y - a.y) - (y - segment.centre.y) * (b.x - a.x)) * segment.sweep;
    if (along > 0) found.push(index);
  });
  return found;
}

/** Of several primitives that a stretch follows, the one nearest to the middle of its middle edge. */
function nearestOf(
  ring: Ring,
  first: number,
  end: number,
  common: readonly number[],
  primitives: readonly BoxedPrimitive[],
): number {
  const edge = (first + end - 1) >> 1;
  const a = vertex(ring, edge);
  const b = vertex(ring, edge + 1);
  let best = common[0]!;
  let least = Infinity;
  for (const candidate of common) {
    const { from, segment } = primitives[candidate]!;
    const gap = distanceToPrimitive((a.x + b.x) / 2, (a.y + b.y) / 2, from, segment);
    if (gap < least) {
      least = gap;
      best = candidate;
    }
  }
  return best;
}

/** Where one primitive is left and the next entered; they differ only when a corner's arc too small for the guide lies between. */
interface Joint {
  readonly leave: Point;
  readonly enter: Point;
  readonly between: ArcSegment | LineSegment | null;
}

function jointOf(primitives: readonly Primitive[], p: number, q: number, at: Point): Joint | null {
  const before = primitives[p]!;
  const after = primitives[q]!;
  const end = before.segment.to;
  if (distance(end, after.from) <= SAME_END_MM && distance(end, at) <= JUNCTION_MM) {
    return { leave: end, enter: end, between: null };
  }
  const corner = primitives[(p + 1) % primitives.length]!;
  const skipsCorner = (p + 2) % primitives.length === q && distance(corner.from, end) <= SAME_END_MM;
  if (skipsCorner && distance(corner.segment.to, after.from) <= SAME_END_MM && distance(end, at) <= JUNCTION_MM) {
    if (distance(end, after.from) <= JUNCTION_MM) return { leave: end, enter: after.from, between: corner.segment };
  }
  let best: Point | null = null;
  for (const point of carriersMeet(before, after)) {
    if (best === null || distance(point, at) < distance(best, at)) best = point;
  }
  return best !== null && distance(best, at) <= JUNCTION_MM ? { leave: best, enter: best, between: null } : null;
}

/** The primitive between two points on it; 'nothing' when they are one, null when that would run backwards. */
function trimmed({ from: start, segment }: Primitive, from: Point, to: Point): ArcSegment | LineSegment | 'nothing' | null {
  if (distance(from, to) <= SAME_END_MM / 10) return 'nothing';
  if (segment.kind === 'line') {
    const along = (to.x - from.x) * (segment.to.x - start.x) + (to.y - from.y) * (segment.to.y - start.y);
    return along > 0 ? { kind: 'line', to } : null;
  }
  const ax = from.x - segment.centre.x;
  const ay = from.y - segment.centre.y;
  const bx = to.x - segment.centre.x;
  const by = to.y - segment.centre.y;
  const sign = Math.sign(segment.sweep);
  const turn = Math.atan2(ax * by - ay * bx, ax * bx + ay * by) * sign;
  const forward = turn < 0 ? turn + 2 * Math.PI : turn;
  if (forward > Math.abs(segment.sweep) + JUNCTION_MM / segment.radius + 1e-6) return null;
  return { ...segment, to, sweep: sign * forward };
}

/** Do the guide's vertices along the stretch lie on the trimmed piece? */
function follows(piece: ArcSegment | LineSegment | 'nothing', from: Point, ring: Ring, stretch: Stretch): boolean {
  for (let index = stretch.first; index <= stretch.end; index++) {
    const { x, y } = vertex(ring, index);
    const gap = piece === 'nothing' ? distance({ x, y }, from) : distanceToPrimitive(x, y, from, piece);
    if (gap > OFFSET_FIT_TOLERANCE_MM / 2) return false;
  }
  return true;
}

function wholeCircle({ segment }: Primitive, ring: Ring): Contour | null {
  if (segment.kind !== 'arc') return null;
  const { centre, radius } = segment;
  const first = vertex(ring, 0);
  const reach = distance(first, centre);
  const dx = ((first.x - centre.x) / reach) * radius;
  const dy = ((first.y - centre.y) / reach) * radius;
  const start = { x: centre.x + dx, y: centre.y + dy };
  const opposite = { x: centre.x - dx, y: centre.y - dy };
  const sweep = Math.sign(segment.sweep) * Math.PI;
  return {
    start,
    segments: [
      { kind: 'arc', to: opposite, centre, radius, sweep },
      { kind: 'arc', to: start, centre, radius, sweep },
    ],
    closed: true,
  };
}

function distance(a: Point, b: Point): number {
  return Math.hypot(a.x - b.x, a.y - b.y);
}

function grown(box: Bounds): Bounds {
  return {
    minX: box.minX - MATCH_MM,
    minY: box.minY - MATCH_MM,
    maxX: box.maxX + MATCH_MM,
    maxY: box.maxY + MATCH_MM,
  };
}
