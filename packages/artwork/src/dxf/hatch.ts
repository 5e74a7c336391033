import { contourEnd, reversedContour } from '@underlap/geometry/contour';
import type { Contour, Segment } from '@underlap/geometry/curve';
import type { Point } from '@underlap/geometry/point';
import { type BulgeVertex, bulgeContour } from '../bulge.ts';
import { closedUp, extent, MEETING_SHARE } from './close-curve.ts';
import { type EntityTags, tagNumber } from './entity-tags.ts';
import { splineContour } from './spline.ts';
import type { Tag } from './tags.ts';

const TURN = 2 * Math.PI;
const RADIANS = Math.PI / 180;

/** More loops, edges or vertices than this in one area are a mistake in its counts. */
const MOST = 1_000_000;

/** Corners of a SOLID or TRACE in the order in which they go round: the last two are stored crosswise. */
export function solidContour(tags: EntityTags): Contour | null {
  const corner = (code: number): BulgeVertex => ({ x: tags.number(code, 0), y: tags.number(code + 10, 0), bulge: 0 });
  const [first, second, third] = [corner(10), corner(11), corner(12)];
  const fourth = tags.has(13) ? corner(13) : third;
  const round = [first, second, fourth, third].filter((point, i, all) => {
    const next = all[(i + 1) % all.length]!;
    return point.x !== next.x || point.y !== next.y;
  });
  return round.length < 3 ? null : bulgeContour(round, true);
}

/**
 * The loops that bound a hatch, in its own plane. Source for groups: DXF reference, 'HATCH', 'Boundary path data'.
 * @returns null when its counts and groups do not make loops.
 * @throws BadNumber when a number cannot be used.
 */
export function hatchLoops(tags: EntityTags): Contour[] | null {
  const reader = new GroupReader(tags.all);
  const loopCount = reader.count(91);
  if (loopCount === null) return null;
  const loops: Contour[] = [];
  for (let i = 0; i < loopCount; i++) {
    const flags = reader.number(92);
    if (flags === null) return null;
    const loop = (flags & 2) !== 0 ? polylineLoop(reader) : edgeLoop(reader);
    if (loop === null) return null;
    if (loop.segments.length > 0) loops.push(loop);
  }
  return loops;
}

function polylineLoop(reader: GroupReader): Contour | null {
  const hasBulge = reader.number(72) === 1;
  reader.optional(73);
  const count = reader.count(93);
  if (count === null) return null;
  const vertices: BulgeVertex[] = [];
  for (let i = 0; i < count; i++) {
    const point = reader.point(10);
    if (point === null) return null;
    vertices.push({ ...point, bulge: hasBulge ? (reader.optional(42) ?? 0) : 0 });
  }
  return vertices.length < 2 ? null : bulgeContour(vertices, true);
}

/** Edges in a row; each may be stored either way round. */
function edgeLoop(reader: GroupReader): Contour | null {
  const count = reader.count(93);
  if (count === null) return null;
  const edges: Contour[] = [];
  for (let i = 0; i < count; i++) {
    const edge = edgeOf(reader);
    if (edge === null) return null;
    edges.push(edge);
  }
  const [first, second] = edges;
  if (first === undefined) return null;
  // The first goes on where the second begins or ends.
  const nearness = (to: Point): number =>
    second === undefined ? 0 : Math.min(gapBetween(to, second.start), gapBetween(to, contourEnd(second)));
  const isTurned = second !== undefined && nearness(first.start) < nearness(contourEnd(first));
  const begin = isTurned ? reversedContour(first) : first;
  const segments: Segment[] = [...begin.segments];
  const size = extent(edges.flatMap((edge) => [edge.start, contourEnd(edge)]));
  let at = contourEnd(begin);
  for (const edge of edges.slice(1)) {
    const next = gapBetween(contourEnd(edge), at) < gapBetween(edge.start, at) ? reversedContour(edge) : edge;
    const gap = gapBetween(at, next.start);
    if (gap > MEETING_SHARE * size) segments.push({ kind: 'line', to: next.start });
    else segments[segments.length - 1] = { ...segments[segments.length - 1]!, to: next.start };
    segments.push(...next.segments);
    at = contourEnd(next);
  }
  return closedUp(begin.start, segments, true);
}

function gapBetween(a: Point, b: Point): number {
  return Math.hypot(a.x - b.x, a.y - b.y);
}

function edgeOf(reader: GroupReader): Contour | null {
  switch (reader.number(72)) {
    case 1: {
      const [start, to] = [reader.point(10), reader.point(11)];
      return start === null || to === null ? null : { start, segments: [{ kind: 'line', to }], closed: false };
    }
    case 2: {
      const centre = reader.point(10);
      const radius = reader.number(40);
      return centre === null || radius === null ? null : arcEdge(centre, { x: radius, y: 0 }, 1, reader);
    }
    case 3: {
      const [centre, major] = [reader.point(10), reader.point(11)];
      const ratio = reader.number(40);
      return centre === null || major === null || ratio === null ? null : arcEdge(centre, major, ratio, reader);
    }
    case 4:
      return splineEdge(reader);
    default:
      return null;
  }
}

/** Clockwise arcs measure their angles the other way. */
function arcEdge(centre: Point, major: Point, ratio: number, reader: GroupReader): Contour | null {
  const [first, last] = [reader.number(50), reader.number(51)];
  const isForward = reader.number(73) !== 0;
  if (first === null || last === null) return null;
  const rx = Math.hypot(major.x, major.y);
  const ry = rx * Math.abs(ratio);
  if (!(rx > 0 && ry > 0)) return null;
  const sign = isForward ? 1 : -1;
  const turn = (last - first) * RADIANS;
  const size = Math.abs(turn) >= TURN - 1e-9 || turn === 0 ? TURN : ((turn % TURN) + TURN) % TURN;
  const from = sign * first * RADIANS;
  const sweep = sign * size;
  const axisTurn = Math.atan2(major.y, major.x);
  const at = (u: number): Point => {
    const [x, y] = [rx * Math.cos(u), ry * Math.sin(u)];
    const [cos, sin] = [Math.cos(axisTurn), Math.sin(axisTurn)];
    return { x: centre.x + cos * x - sin * y, y: centre.y + sin * x + cos * y };
  };
  const start = at(from);
  const to = size === TURN ? start : at(from + sweep);
  const segment: Segment =
    rx === ry
      ? { kind: 'arc', to, centre, radius: rx, sweep }
      : { kind: 'ellipse', to, centre, rx, ry, axisTurn, from, sweep };
  return { start, segments: [segment], closed: false };
}

function splineEdge(reader: GroupReader): Contour | null {
  const degree = reader.number(94);
  const isRational = reader.number(73) === 1;
  const isPeriodic = reader.number(74) === 1;
  const [knotCount, controlCount] = [reader.count(95), reader.count(96)];
  if (degree === null || knotCount === null || controlCount === null) return null;
  const knots: number[] = [];
  const controls: Point[] = [];
  const weights: number[] = [];
  for (let i = 0; i < knotCount; i++) {
    const knot = reader.number(40);
    if (knot === null) return null;
    knots.push(knot);
  }
  for (let i = 0; i < controlCount; i++) {
    const point = reader.point(10);
    if (point === null) return null;
    controls.push(point);
    if (isRational) weights.push(reader.optional(42) ?? 1);
  }
  return splineContour({
    ...{ degree, isClosed: false, isPeriodic, knots, controls, weights },
    ...{ fits: [], startTangent: null, endTangent: null },
  });
}

/** Reads groups in their order; codes that are not asked for are passed over only up to what comes next in a boundary. */
class GroupReader {
  private at = 0;
  private readonly groups: readonly Tag[];

  constructor(groups: readonly Tag[]) {
    this.groups = groups;
  }

  /** The next value with the code; null, and nothing passed over, when there is none left. */
  number(code: number): number | null {
    for (let i = this.at; i < this.groups.length; i++) {
      if (this.groups[i]!.code !== code) continue;
      this.at = i + 1;
      return tagNumber(this.groups[i]!);
    }
    return null;
  }

  /** The value when it comes right next. */
  optional(code: number): number | null {
    return this.groups[this.at]?.code === code ? this.number(code) : null;
  }

  count(code: number): number | null {
    const value = this.number(code);
    return value !== null && Number.isInteger(value) && value >= 0 && value <= MOST ? value : null;
  }

  point(code: number): Point | null {
    const x = this.number(code);
    const y = x === null ? null : this.number(code + 10);
    return x === null || y === null ? null : { x, y };
  }
}
