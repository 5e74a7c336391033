import type { Contour, ContourView, Segment } from './curve.ts';
import { GeometryError } from './error.ts';
import { flattenContour } from './flatten.ts';
import type { Point } from './point.ts';
import type { Ring } from './ring.ts';
import { reversedSegment, segmentPoint, splitSegment } from './segment.ts';

/** Vertices nearer than this to a chord lie on it, table units: some steps of the whole-number grid that polygons are cut on. */
const ON_CHORD = 4e-6;

/** A crossing may lie this many tolerances from where its chords met. */
const REFINE_REACH = 8;

/** Chords looked at for one result before it counts as too costly. */
const MOST_CHORD_TESTS = 20_000_000;

/** Height of the strips that chords are looked up by, table units: shapes are about a thousand high. */
const ROW = 4;

/** Parameters this near an end of their segment are that end. */
const SAME_PARAMETER = 1e-9;

/** A place on a curve of the table. */
interface OnCurve {
  readonly curve: number;
  readonly u: number;
}

interface TableCurve {
  readonly from: Point;
  readonly segment: Segment;
}

/** A stretch of one curve, or a straight line (`curve` -1) where none fits. */
interface Run {
  readonly curve: number;
  u0: number;
  u1: number;
  readonly start: Point;
  end: Point;
}

/**
 * Remembers which curve every vertex of a flattened contour came from, so that polygons which were cut or united can be turned
 * back into the curves they are made of: an untouched segment comes back as it was, a cut one as a stretch of itself, and
 * where two curves cross their true crossing is found.
 * @remarks Flattening and looking up are O(n); a vertex that is new costs as much as there are chords in a strip of the plane.
 */
export class CurveTable {
  private readonly scale: number;
  private readonly tolerance: number;
  private readonly curves: TableCurve[] = [];
  private readonly known = new Map<string, OnCurve[]>();
  /** Chords, seven numbers each: ends in table units, curve and parameters. */
  private readonly chords: number[] = [];
  /** Where the chords begin that a strip of the plane holds. */
  private readonly rows = new Map<number, number[]>();
  private tests = 0;

  /**
   * @param scale - table units for one unit of the contours; a power of two keeps every digit.
   * @param tolerance - largest gap between a curve and its chords, table units.
   */
  constructor(scale: number, tolerance: number) {
    this.scale = scale;
    this.tolerance = tolerance;
  }

  /**
   * The contour flattened, in table units: a ring when it is closed, else a polyline with both ends.
   * @throws GeometryError `non-finite`, `out-of-range`.
   */
  add(contour: ContourView): Ring {
    const points: number[] = [];
    let from = contour.start;
    for (const segment of contour.segments) {
      const chords = flattenContour({ start: from, segments: [segment], closed: false }, this.tolerance / this.scale);
      const count = chords.length / 2 - 1;
      if (count > 0) this.addCurve({ from, segment }, count, points);
      from = segment.to;
    }
    if (!contour.closed) points.push(from.x * this.scale, from.y * this.scale);
    return Float64Array.from(points);
  }

  /**
   * A polygon or line that was made from rings of this table, as curves, in the contours' own units.
   * @throws GeometryError `out-of-range` when there are too many new vertices to look up.
   */
  contour(ring: Ring, closed: boolean): Contour {
    const count = ring.length / 2;
    const point = (i: number): Point => ({ x: ring[2 * i]! / this.scale, y: ring[2 * i + 1]! / this.scale });
    const known = (i: number): readonly OnCurve[] => this.known.get(keyOf(ring[2 * i]!, ring[2 * i + 1]!)) ?? [];
    // Looked up when first needed: most edges lie between vertices of one curve.
    const places: (readonly OnCurve[] | undefined)[] = new Array(count);
    const allPlaces = (i: number): readonly OnCurve[] => {
      places[i] ??= [...known(i), ...this.onChords(ring[2 * i]!, ring[2 * i + 1]!)];
      return places[i];
    };
    const edges = closed ? count : count - 1;
    let runs: Run[] = [];
    for (let i = 0; i < edges; i++) {
      const j = (i + 1) % count;
      const along =
        this.along(point(i), known(i), point(j), known(j)) ??
        this.along(point(i), allPlaces(i), point(j), allPlaces(j));
      const last = runs.at(-1);
      if (last !== undefined && along !== null && continues(last, along)) {
        last.u1 = along.u1;
        last.end = point(j);
      } else
        runs.push({
          curve: along?.curve ?? -1,
          u0: along?.u0 ?? 0,
          u1: along?.u1 ?? 1,
          start: point(i),
          end: point(j),
        });
    }
    if (closed) runs = joinedAround(runs);
    return this.joined(runs, closed);
  }

  private addCurve(curve: TableCurve, count: number, points: number[]): void {
    const index = this.curves.length;
    this.curves.push(curve);
    let before: Point | null = null;
    for (let i = 0; i <= count; i++) {
      const u = i / count;
      const at = segmentPoint(curve.from, curve.segment, u);
      const [x, y] = [at.x * this.scale, at.y * this.scale];
      if (i < count) points.push(x, y);
      const key = keyOf(x, y);
      const here = this.known.get(key);
      if (here === undefined) this.known.set(key, [{ curve: index, u }]);
      else here.push({ curve: index, u });
      if (before !== null) this.addChord(before, { x, y }, index, (i - 1) / count, u);
      before = { x, y };
    }
  }

  private addChord(a: Point, b: Point, curve: number, u0: number, u1: number): void {
    const at = this.chords.length;
    this.chords.push(a.x, a.y, b.x, b.y, curve, u0, u1);
    const last = Math.floor((Math.max(a.y, b.y) + ON_CHORD) / ROW);
    for (let row = Math.floor((Math.min(a.y, b.y) - ON_CHORD) / ROW); row <= last; row++) {
      const list = this.rows.get(row);
      if (list === undefined) this.rows.set(row, [at]);
      else list.push(at);
    }
  }

  private onChords(x: number, y: number): OnCurve[] {
    const { chords } = this;
    const near = this.rows.get(Math.floor(y / ROW)) ?? [];
    this.tests += near.length;
    if (this.tests > MOST_CHORD_TESTS)
      throw new GeometryError('out-of-range', 'too many crossings to follow their curves');
    const found: OnCurve[] = [];
    for (const i of near) {
      const [ax, ay, bx, by] = [chords[i]!, chords[i + 1]!, chords[i + 2]!, chords[i + 3]!];
      if (x < Math.min(ax, bx) - ON_CHORD || x > Math.max(ax, bx) + ON_CHORD) continue;
      if (y < Math.min(ay, by) - ON_CHORD || y > Math.max(ay, by) + ON_CHORD) continue;
      const [dx, dy] = [bx - ax, by - ay];
      const square = dx * dx + dy * dy;
      const t = square === 0 ? 0 : Math.min(1, Math.max(0, ((x - ax) * dx + (y - ay) * dy) / square));
      if (Math.hypot(ax + t * dx - x, ay + t * dy - y) > ON_CHORD) continue;
      const [curve, u, v] = [chords[i + 4]!, chords[i + 5]!, chords[i + 6]!];
      // A vertex moved by a step of the grid is still that vertex, so that stretches go on over it.
      const length = Math.sqrt(square);
      const end = t * length <= ON_CHORD ? u : (1 - t) * length <= ON_CHORD ? v : u + (v - u) * t;
      if (!found.some((place) => place.curve === curve && place.u === end)) found.push({ curve, u: end });
    }
    return found;
  }

  /** The curve that an edge runs along: the shortest way on one that both ends lie on, never far from the edge. */
  private along(
    a: Point,
    atA: readonly OnCurve[],
    b: Point,
    atB: readonly OnCurve[],
  ): { curve: number; u0: number; u1: number } | null {
    let best: { curve: number; u0: number; u1: number } | null = null;
    const reach = (4 * this.tolerance) / this.scale;
    for (const { curve, u: u0 } of atA) {
      for (const { curve: other, u: u1 } of atB) {
        if (curve !== other || u0 === u1) continue;
        if (best !== null && Math.abs(u1 - u0) >= Math.abs(best.u1 - best.u0)) continue;
        const { from, segment } = this.curves[curve]!;
        const middle = segmentPoint(from, segment, (u0 + u1) / 2);
        if (distanceToLine(middle, a, b) <= reach) best = { curve, u0, u1 };
      }
    }
    return best;
  }

  /** Runs as segments that meet: at true crossings where two curves cross. */
  private joined(runs: readonly Run[], closed: boolean): Contour {
    const meets: Point[] = runs.map((run, i) => {
      const before = i > 0 ? runs[i - 1]! : closed ? runs[runs.length - 1]! : null;
      return before === null || runs.length === 1 ? this.endOf(run, 'start') : this.meeting(before, run);
    });
    const last = runs[runs.length - 1]!;
    const end = closed ? meets[0]! : this.endOf(last, 'end');
    const segments: Segment[] = [];
    runs.forEach((run, i) => {
      const to = meets[i + 1] ?? end;
      const next = run.curve < 0 ? { kind: 'line' as const, to } : { ...this.stretchOf(run), to };
      const last = segments.at(-1);
      const both = last === undefined ? null : oneArc(last, next);
      if (both === null) segments.push(next);
      else segments[segments.length - 1] = both;
    });
    return { start: meets[0]!, segments, closed };
  }

  private stretchOf({ curve, u0, u1 }: Run): Segment {
    const { from, segment } = this.curves[curve]!;
    return stretch(from, segment, u0, u1);
  }

  private endOf(run: Run, which: 'start' | 'end'): Point {
    if (run.curve < 0) return run[which];
    const { from, segment } = this.curves[run.curve]!;
    return segmentPoint(from, segment, which === 'start' ? run.u0 : run.u1);
  }

  /** Where one run ends and the next begins; their parameters are set to it. */
  private meeting(before: Run, after: Run): Point {
    if (before.curve < 0) return this.endOf(after, 'start');
    if (after.curve < 0) return this.endOf(before, 'end');
    const p = this.curves[before.curve]!;
    const q = this.curves[after.curve]!;
    let [u, v] = [before.u1, after.u0];
    const first = this.endOf(before, 'end');
    const gap = distance(first, this.endOf(after, 'start'));
    if (gap > 0 && before.curve !== after.curve) {
      const found = crossing(p, u, q, v);
      if (found !== null && distance(found.at, first) <= (REFINE_REACH * this.tolerance) / this.scale)
        [u, v] = [found.u, found.v];
    }
    before.u1 = atEnd(u);
    after.u0 = atEnd(v);
    return this.endOf(
      before.u1 === 0 || before.u1 === 1 ? before : after,
      before.u1 === 0 || before.u1 === 1 ? 'end' : 'start',
    );
  }
}

/** The whole-number grid of polygons: a millionth. */
function keyOf(x: number, y: number): string {
  return `${Math.round(x * 1e6)},${Math.round(y * 1e6)}`;
}

function continues(run: Run, next: { curve: number; u0: number; u1: number }): boolean {
  return (
    run.curve === next.curve && Math.abs(run.u1 - next.u0) <= SAME_PARAMETER && run.u1 > run.u0 === next.u1 > next.u0
  );
}

/** The run over the ring's first vertex is one run, not two. */
function joinedAround(runs: Run[]): Run[] {
  const [first, last] = [runs[0]!, runs[runs.length - 1]!];
  if (runs.length < 2 || first.curve < 0 || !continues(last, first)) return runs;
  return [{ ...last, u1: first.u1, end: first.end }, ...runs.slice(1, -1)];
}

/** Neighbouring arcs of one circle that were drawn as several; null for any others. */
function oneArc(first: Segment, next: Segment): Segment | null {
  if (first.kind !== 'arc' || next.kind !== 'arc' || first.radius !== next.radius) return null;
  const { centre } = first;
  const sweep = first.sweep + next.sweep;
  const isSame = centre.x === next.centre.x && centre.y === next.centre.y && first.sweep * next.sweep > 0;
  return isSame && Math.abs(sweep) < 1.9 * Math.PI ? { ...next, sweep } : null;
}

function atEnd(u: number): number {
  return u < SAME_PARAMETER ? 0 : u > 1 - SAME_PARAMETER ? 1 : u;
}

/** The part of a segment from one parameter to another, which may lie before it. */
function stretch(from: Point, segment: Segment, u0: number, u1: number): Segment {
  const [low, high] = [Math.min(u0, u1), Math.max(u0, u1)];
  const head = high === 1 ? segment : splitSegment(from, segment, high)[0];
  const part = low === 0 ? head : splitSegment(from, head, low / high)[1];
  return u0 <= u1 ? part : reversedSegment(segmentPoint(from, segment, low), part);
}

/** Newton's method for the crossing of two curves near parameters u and v; null where they only touch or it leads astray. */
function crossing(p: TableCurve, u: number, q: TableCurve, v: number): { u: number; v: number; at: Point } | null {
  for (let round = 0; round < 20; round++) {
    const a = segmentPoint(p.from, p.segment, u);
    const b = segmentPoint(q.from, q.segment, v);
    const [dx, dy] = [b.x - a.x, b.y - a.y];
    if (dx === 0 && dy === 0) return { u, v, at: a };
    const s = slope(p, u);
    const t = slope(q, v);
    const det = s.y * t.x - s.x * t.y;
    if (Math.abs(det) <= 1e-9 * Math.hypot(s.x, s.y) * Math.hypot(t.x, t.y)) return null;
    const [du, dv] = [(dy * t.x - dx * t.y) / det, (s.x * dy - s.y * dx) / det];
    const [nextU, nextV] = [Math.min(1, Math.max(0, u + du)), Math.min(1, Math.max(0, v + dv))];
    const isStill = Math.abs(nextU - u) + Math.abs(nextV - v) < 1e-15;
    [u, v] = [nextU, nextV];
    if (isStill) return { u, v, at: segmentPoint(p.from, p.segment, u) };
  }
  return { u, v, at: segmentPoint(p.from, p.segment, u) };
}

/** Change of the point with the parameter, from two points near by: Newton's method mends what is lost of its digits. */
function slope({ from, segment }: TableCurve, u: number): Point {
  const [low, high] = [Math.max(0, u - 1e-5), Math.min(1, u + 1e-5)];
  const a = segmentPoint(from, segment, low);
  const b = segmentPoint(from, segment, high);
  return { x: (b.x - a.x) / (high - low), y: (b.y - a.y) / (high - low) };
}

function distance(a: Point, b: Point): number {
  return Math.hypot(a.x - b.x, a.y - b.y);
}

function distanceToLine(p: Point, a: Point, b: Point): number {
  const [dx, dy] = [b.x - a.x, b.y - a.y];
  const square = dx * dx + dy * dy;
  const t = square === 0 ? 0 : Math.min(1, Math.max(0, ((p.x - a.x) * dx + (p.y - a.y) * dy) / square));
  return Math.hypot(a.x + t * dx - p.x, a.y + t * dy - p.y);
}
