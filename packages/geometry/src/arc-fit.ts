import { biarc, distanceToPrimitive } from './biarc.ts';
import type { ArcSegment, Contour, LineSegment } from './curve.ts';
import { GeometryError } from './error.ts';
import type { Point } from './point.ts';
import { assertFiniteRing, type Ring } from './ring.ts';
import { segmentLength } from './segment.ts';

type Primitive = ArcSegment | LineSegment;

/** Vertices this near the line through their neighbours are noise of the whole-number grid of booleans, mm. */
const COLLINEAR_MM = 2e-6;

/** A vertex that turns more than this, and three times more than both neighbours, is a corner, radians (20 degrees). */
const CORNER_TURN = (20 * Math.PI) / 180;

/** Share of the tolerance that vertices and quarter points of edges may use up; the rest covers what lies between them. */
const SAMPLE_SHARE = 0.97;

/** Largest turn of one fitted arc pair, radians: longer ones are joined afterwards where they are the same circle. */
const LONGEST_TURN = 0.9 * Math.PI;

/** A span is fitted by a curve no longer than the polyline by this factor, so that no loop can hide in it. */
const LENGTH_RATIO = 1.01;

/**
 * A dense ring as lines and circular arcs, no point of either farther than `tolerance` from the other. Corners stay corners;
 * where the ring bends smoothly the arcs meet with equal tangents.
 * @param ring - closed, mm; sampled from curves at most `tolerance` away (coarser samples come out as lines).
 * @param tolerance - mm, > 0.
 * @returns a closed contour in the ring's direction.
 * @throws GeometryError `non-finite`, `degenerate` for fewer than three distinct points.
 * @remarks O(n log n): pairs of arcs (biarcs) reach from each vertex as far as the tolerance allows, found by doubling and halving.
 */
export function fitArcs(ring: Ring, tolerance: number): Contour {
  assertFiniteRing(ring, 'the ring');
  if (!(tolerance > 0)) throw new GeometryError('out-of-range', `a fitting tolerance must be positive: ${tolerance}`);
  const points = withoutCollinear(ring, true);
  if (points.length < 3) throw new GeometryError('degenerate', 'a ring needs three distinct points');
  const circle = wholeCircle(points, tolerance);
  if (circle !== null) return circle;
  const runs = new Runs(points, true, tolerance);
  const first = runs.firstBreak();
  return { start: points[first]!, segments: fitRuns(runs, first, first + points.length), closed: true };
}

/** The same for an open polyline; both ends stay where they are. */
export function fitArcsOpen(polyline: Ring, tolerance: number): Contour {
  assertFiniteRing(polyline, 'the polyline');
  if (!(tolerance > 0)) throw new GeometryError('out-of-range', `a fitting tolerance must be positive: ${tolerance}`);
  const points = withoutCollinear(polyline, false);
  if (points.length < 2) throw new GeometryError('degenerate', 'a polyline needs two distinct points');
  const runs = new Runs(points, false, tolerance);
  return { start: points[0]!, segments: fitRuns(runs, 0, points.length - 1), closed: false };
}

/** What is known of the vertices: turns, which edges are straight lines of the source, and which vertices are corners. */
class Runs {
  readonly points: readonly Point[];
  readonly tolerance: number;
  private readonly isClosed: boolean;
  private readonly turns: Float64Array;
  private readonly lengths: Float64Array;

  constructor(points: readonly Point[], isClosed: boolean, tolerance: number) {
    this.points = points;
    this.isClosed = isClosed;
    this.tolerance = tolerance;
    const n = points.length;
    this.turns = new Float64Array(n);
    this.lengths = new Float64Array(n);
    for (let i = 0; i < n; i++) {
      const next = this.point(i + 1);
      this.lengths[i] = Math.hypot(next.x - points[i]!.x, next.y - points[i]!.y);
    }
    for (let i = 0; i < n; i++) {
      if (!isClosed && (i === 0 || i === n - 1)) continue;
      this.turns[i] = turnAt(this.point(i - 1), points[i]!, this.point(i + 1));
    }
  }

  point(index: number): Point {
    return this.points[this.wrap(index)]!;
  }

  wrap(index: number): number {
    const n = this.points.length;
    return ((index % n) + n) % n;
  }

  turn(index: number): number {
    return this.turns[this.wrap(index)]!;
  }

  length(edge: number): number {
    return this.lengths[this.wrap(edge)]!;
  }

  /** An edge is a line of the source when an arc that turns as its ends do would bulge beyond the tolerance. */
  isLine(edge: number): boolean {
    const turn = Math.min(Math.abs(this.turn(edge)), Math.abs(this.turn(edge + 1)));
    return (this.length(edge) / 2) * Math.tan(turn / 4) > this.tolerance;
  }

  /** Does the source bend sharply at this vertex? */
  isCorner(index: number): boolean {
    const at = this.wrap(index);
    if (!this.isClosed && (at === 0 || at === this.points.length - 1)) return true;
    const turn = Math.abs(this.turn(at));
    const lineBefore = this.isLine(at - 1);
    const lineAfter = this.isLine(at);
    if (lineBefore && lineAfter) return true;
    if (lineBefore || lineAfter) {
      // A line that runs smoothly into an arc turns by half a step of the arc.
      const step = this.turn(lineBefore ? at + 1 : at - 1);
      return step * this.turn(at) < 0 || turn > 0.9 * Math.abs(step);
    }
    const room = Math.min(this.length(at - 1), this.length(at)) / 2;
    if (room * Math.tan(turn / 4) > this.tolerance) return true;
    const neighbours = Math.max(Math.abs(this.turn(at - 1)), Math.abs(this.turn(at + 1)));
    return turn > CORNER_TURN && turn > 3 * neighbours;
  }

  /** A vertex where a run begins: a corner or an end of a line; 0 on a ring that is smooth all round. */
  firstBreak(): number {
    for (let i = 0; i < this.points.length; i++) if (this.isCorner(i) || this.isLine(i)) return i;
    return 0;
  }

  /** Unit direction of the source at a vertex, seen from the run that leaves (`side` 1) or arrives there (-1). */
  tangent(index: number, side: 1 | -1): Point {
    const before = this.point(index - 1);
    const at = this.point(index);
    const after = this.point(index + 1);
    if (this.isCorner(index)) {
      // The circle through the vertex and the next two of its own side.
      const near = this.point(index + side);
      const far = this.point(index + 2 * side);
      const isAlone = this.isCorner(index + side) || this.isLine(side === 1 ? index + 1 : index - 2);
      const lean = isAlone ? 0 : turnAt(far, near, at) === 0 ? 0 : inscribed(far, at, near);
      return turned(direction(at, near, side), -lean);
    }
    if (this.isLine(index - 1)) return direction(before, at, 1);
    if (this.isLine(index)) return direction(at, after, 1);
    const a = direction(before, at, 1);
    const b = direction(at, after, 1);
    const la = this.length(index - 1);
    const lb = this.length(index);
    return unit(a.x * lb + b.x * la, a.y * lb + b.y * la);
  }
}

function fitRuns(runs: Runs, first: number, last: number): Primitive[] {
  const out: Primitive[] = [];
  let at = first;
  while (at < last) {
    if (runs.isLine(at)) {
      out.push({ kind: 'line', to: runs.point(at + 1) });
      at += 1;
      continue;
    }
    let end = at + 1;
    while (end < last && !runs.isCorner(end) && !runs.isLine(end)) end += 1;
    fitSmooth(runs, at, end, out);
    at = end;
  }
  return joined(runs.point(first), out, runs.tolerance);
}

/** Biarcs from vertex `from` to `to`, each reaching as far as it can. */
function fitSmooth(runs: Runs, from: number, to: number, out: Primitive[]): void {
  let at = from;
  while (at < to) {
    let good = tryBiarc(runs, at, at + 1);
    let goodEnd = at + 1;
    let step = 2;
    let bad = to + 1;
    while (goodEnd < to && good !== null) {
      const end = Math.min(to, at + step);
      const next = tryBiarc(runs, at, end);
      if (next === null) {
        bad = end;
        break;
      }
      good = next;
      goodEnd = end;
      if (end === to) break;
      step *= 2;
    }
    while (good !== null && bad - goodEnd > 1 && bad <= to) {
      const end = (goodEnd + bad) >> 1;
      const next = tryBiarc(runs, at, end);
      if (next === null) bad = end;
      else {
        good = next;
        goodEnd = end;
      }
    }
    if (good === null) out.push({ kind: 'line', to: runs.point(goodEnd) });
    else out.push(...good);
    at = goodEnd;
  }
}

function tryBiarc(runs: Runs, i: number, j: number): Primitive[] | null {
  const p = runs.point(i);
  const q = runs.point(j);
  let turn = 0;
  let length = 0;
  for (let k = i; k < j; k++) {
    length += runs.length(k);
    if (k > i) turn += Math.abs(runs.turn(k));
  }
  if (turn > LONGEST_TURN) return null;
  const t = runs.tangent(i, 1);
  const u = runs.tangent(j, -1);
  const pair = biarc(p, t, q, u);
  if (pair === null) return null;
  const [a, b] = pair;
  const middle = a.to;
  if (segmentLength(p, a) + segmentLength(middle, b) > length * LENGTH_RATIO + 2 * runs.tolerance) return null;
  const limit = runs.tolerance * SAMPLE_SHARE;
  const isNear = (x: number, y: number) =>
    Math.min(distanceToPrimitive(x, y, p, a), distanceToPrimitive(x, y, middle, b)) <= limit;
  for (let k = i; k < j; k++) {
    const from = runs.point(k);
    const to = runs.point(k + 1);
    if (k > i && !isNear(from.x, from.y)) return null;
    for (const u of [0.25, 0.5, 0.75]) {
      if (!isNear(from.x + (to.x - from.x) * u, from.y + (to.y - from.y) * u)) return null;
    }
  }
  return [a, b];
}

/** Neighbouring arcs of one circle become one, neighbouring lines of one direction too. */
function joined(start: Point, parts: readonly Primitive[], tolerance: number): Primitive[] {
  const out: Primitive[] = [];
  let from = start;
  const starts: Point[] = [];
  for (const part of parts) {
    if (segmentLength(from, part) === 0) continue;
    const last = out.at(-1);
    const lastStart = starts.at(-1);
    if (last?.kind === 'arc' && part.kind === 'arc' && lastStart && isSameCircle(last, part, tolerance)) {
      out[out.length - 1] = spanning(lastStart, last, part);
    } else if (last?.kind === 'line' && part.kind === 'line' && lastStart && runsOn(lastStart, last.to, part.to)) {
      out[out.length - 1] = part;
    } else {
      out.push(part);
      starts.push(from);
    }
    from = part.to;
  }
  return out;
}

function runsOn(a: Point, b: Point, c: Point): boolean {
  return Math.abs(turnAt(a, b, c)) < Math.PI / 2 && offLine(a, b, c) <= COLLINEAR_MM / 4;
}

function isSameCircle(a: ArcSegment, b: ArcSegment, tolerance: number): boolean {
  const gap = Math.hypot(a.centre.x - b.centre.x, a.centre.y - b.centre.y) + Math.abs(a.radius - b.radius);
  return a.sweep * b.sweep > 0 && gap <= tolerance / 20 && Math.abs(a.sweep + b.sweep) < 1.9 * Math.PI;
}

/** One arc in place of two of nearly the same circle: through both ends, with their sweeps added. */
function spanning(start: Point, a: ArcSegment, b: ArcSegment): ArcSegment {
  const sweep = a.sweep + b.sweep;
  const vx = b.to.x - start.x;
  const vy = b.to.y - start.y;
  const chord = Math.hypot(vx, vy);
  const half = sweep / 2;
  if (Math.abs(Math.sin(half)) < 0.05) {
    // Near a full or no turn the chord says little; keep the first circle.
    return { ...a, to: b.to, sweep };
  }
  const height = chord / 2 / Math.tan(half);
  const centre = {
    x: (start.x + b.to.x) / 2 - (vy / chord) * height,
    y: (start.y + b.to.y) / 2 + (vx / chord) * height,
  };
  return { kind: 'arc', to: b.to, centre, radius: chord / 2 / Math.abs(Math.sin(half)), sweep };
}

/** Two half circles when all vertices lie on one circle and go round it once. */
function wholeCircle(points: readonly Point[], tolerance: number): Contour | null {
  const n = points.length;
  if (n < 8) return null;
  const a = points[0]!;
  const b = points[Math.floor(n / 3)]!;
  const c = points[Math.floor((2 * n) / 3)]!;
  const centre = circumcentre(a, b, c);
  if (centre === null) return null;
  const radius = Math.hypot(a.x - centre.x, a.y - centre.y);
  let total = 0;
  for (let i = 0; i < n; i++) {
    const p = points[i]!;
    const q = points[(i + 1) % n]!;
    if (Math.abs(Math.hypot(p.x - centre.x, p.y - centre.y) - radius) > tolerance / 2) return null;
    if (Math.abs(Math.hypot((p.x + q.x) / 2 - centre.x, (p.y + q.y) / 2 - centre.y) - radius) > tolerance) return null;
    const px = p.x - centre.x;
    const py = p.y - centre.y;
    total += Math.atan2(px * (q.y - centre.y) - py * (q.x - centre.x), px * (q.x - centre.x) + py * (q.y - centre.y));
  }
  if (Math.abs(Math.abs(total) - 2 * Math.PI) > 1e-6) return null;
  const opposite = { x: 2 * centre.x - a.x, y: 2 * centre.y - a.y };
  const sweep = Math.sign(total) * Math.PI;
  return {
    start: a,
    segments: [
      { kind: 'arc', to: opposite, centre, radius, sweep },
      { kind: 'arc', to: a, centre, radius, sweep },
    ],
    closed: true,
  };
}

function circumcentre(a: Point, b: Point, c: Point): Point | null {
  const bx = b.x - a.x;
  const by = b.y - a.y;
  const cx = c.x - a.x;
  const cy = c.y - a.y;
  const twice = 2 * (bx * cy - by * cx);
  if (Math.abs(twice) < 1e-12) return null;
  const bb = bx * bx + by * by;
  const cc = cx * cx + cy * cy;
  return { x: a.x + (cy * bb - by * cc) / twice, y: a.y + (bx * cc - cx * bb) / twice };
}

/** Vertices without doubles and without those that lie on the line through their neighbours. */
function withoutCollinear(ring: Ring, isClosed: boolean): Point[] {
  const all: Point[] = [];
  for (let i = 0; i < ring.length; i += 2) {
    const point = { x: ring[i]!, y: ring[i + 1]! };
    const last = all.at(-1);
    if (!last || Math.hypot(point.x - last.x, point.y - last.y) > COLLINEAR_MM) all.push(point);
  }
  const first = all[0];
  while (
    isClosed &&
    first &&
    all.length > 1 &&
    Math.hypot(all.at(-1)!.x - first.x, all.at(-1)!.y - first.y) <= COLLINEAR_MM
  )
    all.pop();
  const out: Point[] = [];
  all.forEach((point, index) => {
    if (!isClosed && (index === 0 || index === all.length - 1)) {
      out.push(point);
      return;
    }
    const before = out.at(-1) ?? all[all.length - 1]!;
    const after = all[(index + 1) % all.length]!;
    if (Math.abs(turnAt(before, point, after)) < Math.PI / 2 && offLine(before, point, after) <= COLLINEAR_MM / 4)
      return;
    out.push(point);
  });
  return out;
}

function offLine(a: Point, p: Point, b: Point): number {
  const dx = b.x - a.x;
  const dy = b.y - a.y;
  const length = Math.hypot(dx, dy);
  return length > 0 ? Math.abs(dx * (p.y - a.y) - dy * (p.x - a.x)) / length : Math.hypot(p.x - a.x, p.y - a.y);
}

/** Signed turn from a-b to b-c, radians. */
function turnAt(a: Point, b: Point, c: Point): number {
  const ux = b.x - a.x;
  const uy = b.y - a.y;
  const vx = c.x - b.x;
  const vy = c.y - b.y;
  return Math.atan2(ux * vy - uy * vx, ux * vx + uy * vy);
}

/** Signed angle at `apex` from the ray to `a` to the ray to `b`. */
function inscribed(apex: Point, a: Point, b: Point): number {
  const ux = a.x - apex.x;
  const uy = a.y - apex.y;
  const vx = b.x - apex.x;
  const vy = b.y - apex.y;
  return Math.atan2(ux * vy - uy * vx, ux * vx + uy * vy);
}

function direction(a: Point, b: Point, side: 1 | -1): Point {
  return unit(side * (b.x - a.x), side * (b.y - a.y));
}

function turned(vector: Point, angle: number): Point {
  const cos = Math.cos(angle);
  const sin = Math.sin(angle);
  return { x: cos * vector.x - sin * vector.y, y: sin * vector.x + cos * vector.y };
}

function unit(x: number, y: number): Point {
  const length = Math.hypot(x, y);
  return length > 0 ? { x: x / length, y: y / length } : { x: 1, y: 0 };
}
