import type { CubicSegment, EllipseSegment, Segment } from './curve.ts';
import type { Point } from './point.ts';
import type { Bounds } from './ring.ts';

/** Relative accuracy that lengths are integrated to: far below anything measured, cheap with Gauss-Legendre. */
const LENGTH_ACCURACY = 1e-10;

/** Halvings that a length integral may take; reached only at cusps, where the remaining error is below 2^-20 of the length. */
const DEEPEST_HALVING = 20;

/** The point of a segment that begins at `from`; u = 0 is `from`, u = 1 is `to`, uniform in the curve's own parameter. */
export function segmentPoint(from: Point, segment: Segment, u: number): Point {
  if (u <= 0) return from;
  if (u >= 1) return segment.to;
  switch (segment.kind) {
    case 'line':
      return { x: from.x + (segment.to.x - from.x) * u, y: from.y + (segment.to.y - from.y) * u };
    case 'arc': {
      const angle = Math.atan2(from.y - segment.centre.y, from.x - segment.centre.x) + segment.sweep * u;
      return {
        x: segment.centre.x + segment.radius * Math.cos(angle),
        y: segment.centre.y + segment.radius * Math.sin(angle),
      };
    }
    case 'ellipse':
      return ellipsePoint(segment, segment.from + segment.sweep * u);
    case 'cubic': {
      const s = 1 - u;
      const w0 = s * s * s;
      const w1 = 3 * s * s * u;
      const w2 = 3 * s * u * u;
      const w3 = u * u * u;
      return {
        x: w0 * from.x + w1 * segment.c1.x + w2 * segment.c2.x + w3 * segment.to.x,
        y: w0 * from.y + w1 * segment.c1.y + w2 * segment.c2.y + w3 * segment.to.y,
      };
    }
  }
}

/** Unit direction of travel at u in 0..1; where the speed is zero (coincident control points) its limit; 0, 0 for a point. */
export function segmentTangent(from: Point, segment: Segment, u: number): Point {
  switch (segment.kind) {
    case 'line':
      return unit(segment.to.x - from.x, segment.to.y - from.y);
    case 'arc': {
      const angle = Math.atan2(from.y - segment.centre.y, from.x - segment.centre.x) + segment.sweep * u;
      const sign = segment.sweep < 0 ? -1 : 1;
      return { x: -sign * Math.sin(angle), y: sign * Math.cos(angle) };
    }
    case 'ellipse': {
      const speed = ellipseVelocity(segment, segment.from + segment.sweep * u);
      const sign = segment.sweep < 0 ? -1 : 1;
      return unit(sign * speed.x, sign * speed.y);
    }
    case 'cubic':
      return cubicTangent(from, segment, u);
  }
}

/** Both halves of a segment cut at u in 0..1; the first starts at `from`, the second where the first ends. */
export function splitSegment(from: Point, segment: Segment, u: number): [Segment, Segment] {
  const at = segmentPoint(from, segment, u);
  switch (segment.kind) {
    case 'line':
      return [
        { kind: 'line', to: at },
        { kind: 'line', to: segment.to },
      ];
    case 'arc':
      return [
        { ...segment, to: at, sweep: segment.sweep * u },
        { ...segment, sweep: segment.sweep * (1 - u) },
      ];
    case 'ellipse':
      return [
        { ...segment, to: at, sweep: segment.sweep * u },
        { ...segment, from: segment.from + segment.sweep * u, sweep: segment.sweep * (1 - u) },
      ];
    case 'cubic': {
      const a = mix(from, segment.c1, u);
      const b = mix(segment.c1, segment.c2, u);
      const c = mix(segment.c2, segment.to, u);
      return [
        { kind: 'cubic', c1: a, c2: mix(a, b, u), to: at },
        { kind: 'cubic', c1: mix(b, c, u), c2: c, to: segment.to },
      ];
    }
  }
}

/** The same curve travelled from its end to `from`. */
export function reversedSegment(from: Point, segment: Segment): Segment {
  switch (segment.kind) {
    case 'line':
      return { kind: 'line', to: from };
    case 'arc':
      return { ...segment, to: from, sweep: -segment.sweep };
    case 'ellipse':
      return { ...segment, to: from, from: segment.from + segment.sweep, sweep: -segment.sweep };
    case 'cubic':
      return { kind: 'cubic', c1: segment.c2, c2: segment.c1, to: from };
  }
}

/** Length, mm: closed form for lines and arcs, adaptive Gauss-Legendre within 1e-10 relative for ellipses and cubics. */
export function segmentLength(from: Point, segment: Segment): number {
  switch (segment.kind) {
    case 'line':
      return Math.hypot(segment.to.x - from.x, segment.to.y - from.y);
    case 'arc':
      return Math.abs(segment.sweep) * segment.radius;
    case 'ellipse': {
      const rate = (u: number) => {
        const velocity = ellipseVelocity(segment, u);
        return Math.hypot(velocity.x, velocity.y);
      };
      const low = Math.min(segment.from, segment.from + segment.sweep);
      return integral(rate, low, low + Math.abs(segment.sweep));
    }
    case 'cubic': {
      const rate = (u: number) => {
        const velocity = cubicVelocity(from, segment, u);
        return Math.hypot(velocity.x, velocity.y);
      };
      return integral(rate, 0, 1);
    }
  }
}

/**
 * Half the integral of x dy - y dx along the segment, seen from `origin` (Green's theorem, closed form): the signed area
 * between the origin and the curve, mm2. Summed round a closed contour it is the contour's area.
 */
export function segmentSweptArea(from: Point, segment: Segment, origin: Point): number {
  const ax = from.x - origin.x;
  const ay = from.y - origin.y;
  const bx = segment.to.x - origin.x;
  const by = segment.to.y - origin.y;
  switch (segment.kind) {
    case 'line':
      return (ax * by - ay * bx) / 2;
    case 'arc':
    case 'ellipse': {
      const cx = segment.centre.x - origin.x;
      const cy = segment.centre.y - origin.y;
      const product = segment.kind === 'arc' ? segment.radius * segment.radius : segment.rx * segment.ry;
      return (product * segment.sweep + cx * (by - ay) - cy * (bx - ax)) / 2;
    }
    case 'cubic': {
      const px = segment.c1.x - origin.x;
      const py = segment.c1.y - origin.y;
      const qx = segment.c2.x - origin.x;
      const qy = segment.c2.y - origin.y;
      const ap = ax * py - ay * px;
      const aq = ax * qy - ay * qx;
      const ab = ax * by - ay * bx;
      const pq = px * qy - py * qx;
      const pb = px * by - py * bx;
      const qb = qx * by - qy * bx;
      return (6 * ap + 3 * aq + ab + 3 * pq + 3 * pb + 6 * qb) / 20;
    }
  }
}

/** Exact bounds of the curve, both ends included. */
export function segmentBounds(from: Point, segment: Segment): Bounds {
  let minX = Math.min(from.x, segment.to.x);
  let minY = Math.min(from.y, segment.to.y);
  let maxX = Math.max(from.x, segment.to.x);
  let maxY = Math.max(from.y, segment.to.y);
  for (const u of extremeParameters(from, segment)) {
    const point = segmentPoint(from, segment, u);
    minX = Math.min(minX, point.x);
    minY = Math.min(minY, point.y);
    maxX = Math.max(maxX, point.x);
    maxY = Math.max(maxY, point.y);
  }
  return { minX, minY, maxX, maxY };
}

/** Where inside 0..1 the curve runs exactly along an axis. */
function extremeParameters(from: Point, segment: Segment): number[] {
  switch (segment.kind) {
    case 'line':
      return [];
    case 'arc': {
      const start = Math.atan2(from.y - segment.centre.y, from.x - segment.centre.x);
      return [0, 1, 2, 3].flatMap((quarter) => turnsWithin((quarter * Math.PI) / 2, start, segment.sweep));
    }
    case 'ellipse': {
      const cos = Math.cos(segment.axisTurn);
      const sin = Math.sin(segment.axisTurn);
      const alongX = Math.atan2(-segment.ry * sin, segment.rx * cos);
      const alongY = Math.atan2(segment.ry * cos, segment.rx * sin);
      return [alongX, alongX + Math.PI, alongY, alongY + Math.PI].flatMap((angle) =>
        turnsWithin(angle, segment.from, segment.sweep),
      );
    }
    case 'cubic':
      return [
        ...cubicTurningPoints(from.x, segment.c1.x, segment.c2.x, segment.to.x),
        ...cubicTurningPoints(from.y, segment.c1.y, segment.c2.y, segment.to.y),
      ];
  }
}

/** The parameters u in 0..1 at which start + sweep u equals `angle` up to whole turns. */
function turnsWithin(angle: number, start: number, sweep: number): number[] {
  if (sweep === 0) return [];
  const whole = 2 * Math.PI;
  const found: number[] = [];
  const distance = sweep > 0 ? angle - start : start - angle;
  const size = Math.abs(sweep);
  for (let at = ((distance % whole) + whole) % whole; at < size; at += whole) if (at > 0) found.push(at / size);
  return found;
}

function cubicTurningPoints(p0: number, p1: number, p2: number, p3: number): number[] {
  // Derivative / 3 = a t^2 + 2 b t + c.
  const a = p3 - 3 * p2 + 3 * p1 - p0;
  const b = p2 - 2 * p1 + p0;
  const c = p1 - p0;
  const roots: number[] = [];
  const root = b * b - a * c;
  if (root >= 0) {
    // The stable form: never subtracts nearly equal numbers, and also serves a = 0.
    const q = -(b + (b < 0 ? -1 : 1) * Math.sqrt(root));
    if (a !== 0) roots.push(q / a);
    if (q !== 0) roots.push(c / q);
  }
  return roots.filter((t) => t > 0 && t < 1);
}

function ellipsePoint(segment: EllipseSegment, u: number): Point {
  const cos = Math.cos(segment.axisTurn);
  const sin = Math.sin(segment.axisTurn);
  const x = segment.rx * Math.cos(u);
  const y = segment.ry * Math.sin(u);
  return { x: segment.centre.x + cos * x - sin * y, y: segment.centre.y + sin * x + cos * y };
}

function ellipseVelocity(segment: EllipseSegment, u: number): Point {
  const cos = Math.cos(segment.axisTurn);
  const sin = Math.sin(segment.axisTurn);
  const x = -segment.rx * Math.sin(u);
  const y = segment.ry * Math.cos(u);
  return { x: cos * x - sin * y, y: sin * x + cos * y };
}

function cubicVelocity(from: Point, cubic: CubicSegment, u: number): Point {
  const s = 1 - u;
  const w0 = 3 * s * s;
  const w1 = 6 * s * u;
  const w2 = 3 * u * u;
  return {
    x: w0 * (cubic.c1.x - from.x) + w1 * (cubic.c2.x - cubic.c1.x) + w2 * (cubic.to.x - cubic.c2.x),
    y: w0 * (cubic.c1.y - from.y) + w1 * (cubic.c2.y - cubic.c1.y) + w2 * (cubic.to.y - cubic.c2.y),
  };
}

function cubicTangent(from: Point, cubic: CubicSegment, u: number): Point {
  const { c1, c2, to } = cubic;
  const size = Math.max(
    Math.hypot(c1.x - from.x, c1.y - from.y),
    Math.hypot(c2.x - from.x, c2.y - from.y),
    Math.hypot(to.x - from.x, to.y - from.y),
  );
  const velocity = cubicVelocity(from, cubic, u);
  if (Math.hypot(velocity.x, velocity.y) > 1e-9 * size) return unit(velocity.x, velocity.y);
  // The speed vanishes here: the direction is that of the next derivative, seen backwards at the end.
  const sx = (1 - u) * (c2.x - 2 * c1.x + from.x) + u * (to.x - 2 * c2.x + c1.x);
  const sy = (1 - u) * (c2.y - 2 * c1.y + from.y) + u * (to.y - 2 * c2.y + c1.y);
  const sign = u >= 1 ? -1 : 1;
  if (Math.hypot(sx, sy) > 1e-9 * size) return unit(sign * sx, sign * sy);
  return unit(to.x - from.x, to.y - from.y);
}

function mix(a: Point, b: Point, u: number): Point {
  return { x: a.x + (b.x - a.x) * u, y: a.y + (b.y - a.y) * u };
}

function unit(x: number, y: number): Point {
  const length = Math.hypot(x, y);
  return length > 0 ? { x: x / length, y: y / length } : { x: 0, y: 0 };
}

/** Abscissae and weights of the 8-point Gauss-Legendre rule on -1..1 (Abramowitz and Stegun, table 25.4). */
const GAUSS: readonly (readonly [number, number])[] = [
  [0.1834346424956498, 0.362683783378362],
  [0.525532409916329, 0.3137066458778873],
  [0.7966664774136267, 0.2223810344533745],
  [0.9602898564975363, 0.1012285362903763],
];

function gauss(rate: (u: number) => number, low: number, high: number): number {
  const half = (high - low) / 2;
  const middle = (high + low) / 2;
  let sum = 0;
  for (const [at, weight] of GAUSS) sum += weight * (rate(middle - half * at) + rate(middle + half * at));
  return sum * half;
}

function integral(rate: (u: number) => number, low: number, high: number): number {
  const whole = gauss(rate, low, high);
  return refined(rate, low, high, whole, LENGTH_ACCURACY * Math.abs(whole), DEEPEST_HALVING);
}

function refined(
  rate: (u: number) => number,
  low: number,
  high: number,
  whole: number,
  accuracy: number,
  halvings: number,
): number {
  const middle = (low + high) / 2;
  const left = gauss(rate, low, middle);
  const right = gauss(rate, middle, high);
  if (halvings <= 0 || Math.abs(left + right - whole) <= accuracy) return left + right;
  return (
    refined(rate, low, middle, left, accuracy / 2, halvings - 1) +
    refined(rate, middle, high, right, accuracy / 2, halvings - 1)
  );
}
