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

/** At most so many primitives in a row may be too short for the guide to show. */
const MOST_SKIPPED = 4;

/**
 * A joint may lie this far from the guide's nearest vertex, mm, plus this share of the distance: at flat crossings the guide tells
 * the place only roughly, and where edges of a flattened arc meet its vertices slide along the offset by distance * turn / 2.
 */
const JOINT_SLACK_MM = 0.05;
const JOINT_SLACK_SHARE = 0.02;

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
  const primitives = [arcs.outer, ...arcs.holes].flatMap((contour) => linked(offsetPrimitives(contour, distance)));
  const guide = offsetRegions([shapeToRegion(arcs, GUIDE_TOLERANCE_MM)], distance, GUIDE_TOLERANCE_MM);
  const slack = JOINT_SLACK_MM + JOINT_SLACK_SHARE * Math.abs(distance);
  return guide.map((region) => ({
    outer: exactRing(region.outer, primitives, slack),
    holes: region.holes.map((hole) => exactRing(hole, primitives, slack)),
  }));
}

interface LinkedPrimitive extends Primitive {
  readonly box: Bounds;
  /** The primitive that follows in the source, when it begins where this one ends. */
  next: LinkedPrimitive | null;
}

function linked(primitives: readonly Primitive[]): LinkedPrimitive[] {
  const out: LinkedPrimitive[] = primitives.map(({ from, segment }) => ({
    from,
    segment,
    box: grown(segmentBounds(from, segment)),
    next: null,
  }));
  out.forEach((primitive, index) => {
    const after = out[(index + 1) % out.length]!;
    if (distance(primitive.segment.to, after.from) <= SAME_END_MM) primitive.next = after;
  });
  return out;
}

/** Edges first..end-1 of the guide, counted past its length, that follow one primitive. */
interface Stretch {
  readonly first: number;
  readonly end: number;
  readonly primitive: LinkedPrimitive;
}

/** The guide's ring on exact primitives; fitted with arcs where it does not follow them. */
function exactRing(ring: Ring, primitives: readonly LinkedPrimitive[], slack: number): Contour {
  const traced = traceRing(ring, primitives, slack);
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

function traceRing(ring: Ring, primitives: readonly LinkedPrimitive[], slack: number): Contour | null {
  const stretches = stretchesOf(ring, primitives);
  if (stretches === null) return null;
  const count = stretches.length;
  if (count === 1) return wholeCircle(stretches[0]!.primitive, ring);
  const joints: Joint[] = [];
  for (let i = 0; i < count; i++) {
    const joint = jointOf(ring, stretches[i]!, stretches[(i + 1) % count]!, slack);
    if (joint === null) return null;
    joints.push(joint);
  }
  const segments: (ArcSegment | LineSegment)[] = [];
  const n = ring.length / 2;
  let { enter: from, at: first } = joints[count - 1]!;
  const start = from;
  for (let i = 0; i < count; i++) {
    const joint = joints[i]!;
    const piece = trimmed(stretches[i]!.primitive, from, joint.leave, slack);
    if (piece === null) return null;
    const steps = (((joint.at - first) % n) + n) % n;
    if (!follows(piece, from, ring, first, first + steps)) return null;
    if (piece !== 'nothing') segments.push(piece);
    segments.push(...joint.between);
    ({ enter: from, at: first } = joint);
  }
  return segments.length < 2 ? null : { start, segments, closed: true };
}

function vertex(ring: Ring, index: number): Point {
  const at = (((2 * index) % ring.length) + ring.length) % ring.length;
  return { x: ring[at]!, y: ring[at + 1]! };
}

/** Cut the ring into the fewest stretches that each follow one primitive; null when some edge follows none. */
function stretchesOf(ring: Ring, primitives: readonly LinkedPrimitive[]): Stretch[] | null {
  const n = ring.length / 2;
  const candidates: LinkedPrimitive[][] = [];
  for (let edge = 0; edge < n; edge++) {
    const found = candidatesOf(vertex(ring, edge), vertex(ring, edge + 1), primitives);
    if (found.length === 0) return null;
    candidates.push(found);
  }
  const reach = (first: number, limit: number): Stretch => {
    let common = candidates[first % n]!;
    let end = first + 1;
    for (; end < limit; end++) {
      const next = common.filter((primitive) => candidates[end % n]!.includes(primitive));
      if (next.length === 0) break;
      common = next;
    }
    // A stretch also begins earlier where the edges before follow its primitive too.
    const primitive = nearestOf(ring, first, end, common);
    let early = first;
    while (early > first - n && candidates[(early + n - 1) % n]!.includes(primitive)) early -= 1;
    return { first: early, end, primitive };
  };
  const whole = reach(0, n);
  if (whole.end === n) return [whole];
  const stretches: Stretch[] = [];
  for (let at = whole.end; at < whole.end + n; ) {
    const stretch = reach(at, whole.end + n);
    stretches.push(stretch);
    at = stretch.end;
  }
  return stretches;
}

function candidatesOf(a: Point, b: Point, primitives: readonly LinkedPrimitive[]): LinkedPrimitive[] {
  const x = (a.x + b.x) / 2;
  const y = (a.y + b.y) / 2;
  return primitives.filter(({ box, from, segment }) => {
    if (x < box.minX || x > box.maxX || y < box.minY || y > box.maxY) return false;
    if (distanceToPrimitive(x, y, from, segment) > MATCH_MM) return false;
    // The edge must run the primitive's way.
    const along =
      segment.kind === 'line'
        ? (b.x - a.x) * (segment.to.x - from.x) + (b.y - a.y) * (segment.to.y - from.y)
        : ((x - segment.centre.x) * (b.y - a.y) - (y - segment.centre.y) * (b.x - a.x)) * segment.sweep;
    return along > 0;
  });
}

/** Of several primitives that a stretch follows, the one nearest to the middle of its middle edge. */
function nearestOf(ring: Ring, first: number, end: number, common: readonly LinkedPrimitive[]): LinkedPrimitive {
  const edge = (first + end - 1) >> 1;
  const a = vertex(ring, edge);
  const b = vertex(ring, edge + 1);
  let best = common[0]!;
  let least = Infinity;
  for (const candidate of common) {
    const gap = distanceToPrimitive((a.x + b.x) / 2, (a.y + b.y) / 2, candidate.from, candidate.segment);
    if (gap < least) {
      least = gap;
      best = candidate;
    }
  }
  return best;
}

/** Where one primitive is left and the next entered; between them only primitives too short for the guide to follow. */
interface Joint {
  readonly leave: Point;
  readonly enter: Point;
  readonly between: readonly (ArcSegment | LineSegment)[];
  /** The guide's vertex at the joint. */
  readonly at: number;
}

function jointOf(ring: Ring, before: Stretch, after: Stretch, slack: number): Joint | null {
  const n = ring.length / 2;
  // The guide follows both primitives between these vertices.
  const last = before.end;
  const span = (((last - after.first) % n) + n) % n;
  const first = last - Math.min(span, before.end - before.first - 1);
  const nearest = (point: Point) => {
    let at = last;
    let least = Infinity;
    for (let index = first; index <= last; index++) {
      const gap = distance(point, vertex(ring, index));
      if (gap < least) {
        least = gap;
        at = index;
      }
    }
    return { at, gap: least };
  };
  const between: (ArcSegment | LineSegment)[] = [];
  let step = before.primitive.next;
  for (let hops = 0; step !== null && hops <= MOST_SKIPPED; hops++) {
    if (step === after.primitive) {
      const leave = before.primitive.segment.to;
      const near = nearest(leave);
      if (near.gap > slack || nearest(step.from).gap > slack) break;
      return { leave, enter: step.from, between, at: near.at };
    }
    between.push(step.segment);
    step = step.next;
  }
  let best: Joint | null = null;
  let least = slack;
  for (const point of carriersMeet(before.primitive, after.primitive)) {
    const near = nearest(point);
    if (near.gap > least) continue;
    least = near.gap;
    best = { leave: point, enter: point, between: [], at: near.at };
  }
  return best;
}

/** The primitive between two points on it; 'nothing' when they are one, null when that would run backwards. */
function trimmed(
  { from: start, segment }: Primitive,
  from: Point,
  to: Point,
  slack: number,
): ArcSegment | LineSegment | 'nothing' | null {
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
  if (forward > Math.abs(segment.sweep) + slack / segment.radius + 1e-6) return null;
  return { ...segment, to, sweep: sign * forward };
}

/** Do the guide's vertices along the stretch lie on the trimmed piece? */
function follows(
  piece: ArcSegment | LineSegment | 'nothing',
  from: Point,
  ring: Ring,
  first: number,
  end: number,
): boolean {
  // The vertices at the joints themselves were accepted with them.
  for (let index = first + 1; index < end; index++) {
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
