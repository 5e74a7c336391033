import type { ArcSegment, ContourView, CubicSegment, EllipseSegment, Segment, Shape } from './curve.ts';
import { GeometryError } from './error.ts';
import type { Point } from './point.ts';
import { segmentPoint } from './segment.ts';

/** Decimals of a millimetre that are written unless asked otherwise: 0.1 micrometre. */
const PATH_DECIMALS = 4;

/**
 * Longest arc written as one `A` command; a longer one is cut in equal parts. The command gives ends and radius only, and the
 * centre that follows from them is sharp up to a quarter turn; at a half turn a rounding of 0.0001 mm moves it by 0.1 mm.
 */
const LONGEST_ARC = (Math.PI / 2) * (1 + 1e-9);

/** Radii and axis turns get more digits than places, because the whole arc hangs on them. */
const EXTRA_DECIMALS = 2;

/**
 * SVG path data of a contour: M, L, A (arcs and elliptical arcs), C and Z, absolute, numbers without exponents.
 * @param decimals - digits after the point, 0..12.
 * @remarks The closing straight line is left to Z. Grammar and arc flags: SVG 2, chapter 9.
 */
export function contourToPathData(contour: ContourView, decimals: number = PATH_DECIMALS): string {
  const write = writerOf(decimals);
  const parts = [`M${pair(contour.start, write)}`];
  let from = contour.start;
  let left = contour.segments.length;
  for (const segment of contour.segments) {
    const closes = contour.closed && --left === 0 && segment.kind === 'line';
    const returns = segment.to.x === contour.start.x && segment.to.y === contour.start.y;
    if (!(closes && returns)) parts.push(segmentToPathData(from, segment, write));
    from = segment.to;
  }
  if (contour.closed) parts.push('Z');
  return parts.join('');
}

/** Outer contour and holes as one path, each a closed subpath. */
export function shapeToPathData(shape: Shape, decimals: number = PATH_DECIMALS): string {
  return [shape.outer, ...shape.holes].map((contour) => contourToPathData(contour, decimals)).join('');
}

type WriteNumber = (value: number) => string;

interface Writer {
  readonly place: WriteNumber;
  readonly radius: WriteNumber;
}

function writerOf(decimals: number): Writer {
  return { place: numberWriter(decimals), radius: numberWriter(Math.min(20, decimals + EXTRA_DECIMALS)) };
}

/** The shortest decimal form: no exponent, no trailing zeros, no negative zero. */
function numberWriter(decimals: number): WriteNumber {
  return (value) => {
    if (!Number.isFinite(value)) throw new GeometryError('non-finite', `a path cannot hold the number ${value}`);
    const text = value.toFixed(decimals);
    const short = text.includes('.') ? text.replace(/\.?0+$/, '') : text;
    return short === '-0' ? '0' : short;
  };
}

function pair(point: Point, write: Writer): string {
  return `${write.place(point.x)} ${write.place(point.y)}`;
}

function segmentToPathData(from: Point, segment: Segment, write: Writer): string {
  switch (segment.kind) {
    case 'line':
      return `L${pair(segment.to, write)}`;
    case 'cubic':
      return cubicToPathData(segment, write);
    case 'arc':
      return arcToPathData(from, segment, segment.radius, segment.radius, 0, write);
    case 'ellipse':
      return arcToPathData(from, segment, segment.rx, segment.ry, (segment.axisTurn * 180) / Math.PI, write);
  }
}

function cubicToPathData(cubic: CubicSegment, write: Writer): string {
  return `C${pair(cubic.c1, write)} ${pair(cubic.c2, write)} ${pair(cubic.to, write)}`;
}

function arcToPathData(
  from: Point,
  segment: ArcSegment | EllipseSegment,
  rx: number,
  ry: number,
  turnDeg: number,
  write: Writer,
): string {
  const count = Math.max(1, Math.ceil(Math.abs(segment.sweep) / LONGEST_ARC));
  const sweepFlag = segment.sweep > 0 ? 1 : 0;
  const parts: string[] = [];
  for (let i = 1; i <= count; i++) {
    const to = segmentPoint(from, segment, i / count);
    parts.push(`A${write.radius(rx)} ${write.radius(ry)} ${write.radius(turnDeg)} 0 ${sweepFlag} ${pair(to, write)}`);
  }
  return parts.join('');
}
