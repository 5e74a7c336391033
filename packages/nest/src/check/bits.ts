import type { Contour, Segment, Shape } from '@underlap/geometry/curve';
import type { Point } from '@underlap/geometry/point';
import type { Region } from '@underlap/geometry/region';
import type { Ring } from '@underlap/geometry/ring';
import type { Placement } from '../problem.ts';

/**
 * A short stretch of an exact curve: its end points, how far the curve may stray from the straight line between them, and a
 * way to halve it. Bounds are strict, so distances found by halving are true to the accuracy asked for.
 */
export interface Bit {
  readonly x0: number;
  readonly y0: number;
  readonly x1: number;
  readonly y1: number;
  /** No point of the curve is farther than this from the chord, mm; 0 for straight lines. */
  readonly stray: number;
  readonly halves: () => readonly [Bit, Bit];
}

/** Largest angle of one bit of an arc or ellipse, radians. */
const LARGEST_SWEEP = Math.PI / 4;

/** The placement's own map, written out here so that the check leans on no transform that the search uses. */
export function mapOf(placement: Pick<Placement, 'x' | 'y' | 'turnDeg' | 'mirrored'>): (point: Point) => Point {
  const quarter = placement.turnDeg / 90;
  const radians = (placement.turnDeg * Math.PI) / 180;
  // quarter turns without the rounding of cos(pi / 2)
  const isQuarter = Number.isInteger(quarter);
  const k = ((quarter % 4) + 4) % 4;
  const cos = isQuarter ? [1, 0, -1, 0][k]! : Math.cos(radians);
  const sin = isQuarter ? [0, 1, 0, -1][k]! : Math.sin(radians);
  const flip = placement.mirrored ? -1 : 1;
  return ({ x, y }) => ({ x: cos * flip * x - sin * y + placement.x, y: sin * flip * x + cos * y + placement.y });
}

export function bitsOfShape(shape: Shape, placement: Pick<Placement, 'x' | 'y' | 'turnDeg' | 'mirrored'>): Bit[] {
  const map = mapOf(placement);
  const turn = (placement.turnDeg * Math.PI) / 180;
  return [shape.outer, ...shape.holes].flatMap((contour) => bitsOfContour(contour, map, turn, placement.mirrored));
}

export function bitsOfRegion(region: Region, map: (point: Point) => Point = (point) => point): Bit[] {
  return [region.outer, ...region.holes].flatMap((ring) => bitsOfRing(ring, map));
}

function bitsOfRing(ring: Ring, map: (point: Point) => Point): Bit[] {
  const bits: Bit[] = [];
  const points: Point[] = [];
  for (let i = 0; i < ring.length; i += 2) points.push(map({ x: ring[i]!, y: ring[i + 1]! }));
  points.forEach((point, i) => {
    bits.push(line(point, points[(i + 1) % points.length]!));
  });
  return bits;
}

function bitsOfContour(contour: Contour, map: (point: Point) => Point, turn: number, mirrored: boolean): Bit[] {
  const bits: Bit[] = [];
  let from = map(contour.start);
  const start = from;
  for (const segment of contour.segments) {
    const to = map(segment.to);
    bits.push(...bitsOfSegment(from, segment, to, map, turn, mirrored));
    from = to;
  }
  // the outline is cut as a closed one even where the drawing left a gap
  if (Math.hypot(from.x - start.x, from.y - start.y) > 1e-12) bits.push(line(from, start));
  return bits;
}

function bitsOfSegment(
  from: Point,
  segment: Segment,
  to: Point,
  map: (point: Point) => Point,
  turn: number,
  mirrored: boolean,
): Bit[] {
  switch (segment.kind) {
    case 'line':
      return [line(from, to)];
    case 'cubic':
      return [cubic(from, map(segment.c1), map(segment.c2), to)];
    case 'arc': {
      const centre = map(segment.centre);
      const begin = Math.atan2(from.y - centre.y, from.x - centre.x);
      const sweep = mirrored ? -segment.sweep : segment.sweep;
      return sweeps(centre, segment.radius, segment.radius, 0, begin, sweep, from, to);
    }
    case 'ellipse': {
      // x -> -x turns (axis, u) into (pi - axis, -u)
      const axis = mirrored ? Math.PI - segment.axisTurn : segment.axisTurn;
      const begin = mirrored ? -segment.from : segment.from;
      const sweep = mirrored ? -segment.sweep : segment.sweep;
      return sweeps(map(segment.centre), segment.rx, segment.ry, axis + turn, begin, sweep, from, to);
    }
  }
}

function line(a: Point, b: Point): Bit {
  return {
    x0: a.x,
    y0: a.y,
    x1: b.x,
    y1: b.y,
    stray: 0,
    halves: () => {
      const middle = { x: (a.x + b.x) / 2, y: (a.y + b.y) / 2 };
      return [line(a, middle), line(middle, b)];
    },
  };
}

function cubic(a: Point, b: Point, c: Point, d: Point): Bit {
  // a Bezier curve lies in the hull of its control points
  const stray = Math.max(pointToSegment(b.x, b.y, a.x, a.y, d.x, d.y), pointToSegment(c.x, c.y, a.x, a.y, d.x, d.y));
  return {
    x0: a.x,
    y0: a.y,
    x1: d.x,
    y1: d.y,
    stray,
    halves: () => {
      const ab = middleOf(a, b);
      const bc = middleOf(b, c);
      const cd = middleOf(c, d);
      const abc = middleOf(ab, bc);
      const bcd = middleOf(bc, cd);
      const m = middleOf(abc, bcd);
      return [cubic(a, ab, abc, m), cubic(m, bcd, cd, d)];
    },
  };
}

function sweeps(
  centre: Point,
  rx: number,
  ry: number,
  axis: number,
  begin: number,
  sweep: number,
  from: Point,
  to: Point,
): Bit[] {
  const count = Math.max(1, Math.ceil(Math.abs(sweep) / LARGEST_SWEEP));
  const cos = Math.cos(axis);
  const sin = Math.sin(axis);
  const at = (u: number): Point => {
    const x = rx * Math.cos(u);
    const y = ry * Math.sin(u);
    return { x: centre.x + cos * x - sin * y, y: centre.y + sin * x + cos * y };
  };
  const piece = (u0: number, du: number, a: Point, b: Point): Bit => ({
    x0: a.x,
    y0: a.y,
    x1: b.x,
    y1: b.y,
    // image of a circle's sagitta under a map that stretches by at most the longer half-axis
    stray: Math.max(rx, ry) * 2 * Math.sin(du / 4) ** 2,
    halves: () => {
      const middle = at(u0 + du / 2);
      return [piece(u0, du / 2, a, middle), piece(u0 + du / 2, du / 2, middle, b)];
    },
  });
  const bits: Bit[] = [];
  let a = from;
  for (let k = 0; k < count; k++) {
    const b = k === count - 1 ? to : at(begin + (sweep * (k + 1)) / count);
    bits.push(piece(begin + (sweep * k) / count, sweep / count, a, b));
    a = b;
  }
  return bits;
}

function middleOf(a: Point, b: Point): Point {
  return { x: (a.x + b.x) / 2, y: (a.y + b.y) / 2 };
}

/** Distance of a point from a segment, mm. */
export function pointToSegment(x: number, y: number, x0: number, y0: number, x1: number, y1: number): number {
  const dx = x1 - x0;
  const dy = y1 - y0;
  const square = dx * dx + dy * dy;
  const t = square === 0 ? 0 : Math.min(1, Math.max(0, ((x - x0) * dx + (y - y0) * dy) / square));
  return Math.hypot(x - x0 - t * dx, y - y0 - t * dy);
}
