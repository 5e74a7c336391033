import type { ArcSegment, Contour, ContourView, EllipseSegment, Segment, Shape } from './curve.ts';
import { GeometryError } from './error.ts';
import { apply, type Matrix } from './matrix.ts';
import type { Point } from './point.ts';
import type { Bounds, Ring } from './ring.ts';
import { reversedSegment, segmentBounds, segmentLength, segmentSweptArea } from './segment.ts';

export { segmentPoint, segmentTangent, splitSegment } from './segment.ts';

/** Relative difference up to which two scale factors count as equal, so that an arc may stay an arc. */
const SAME_SCALE = 1e-12;

/** Length of the whole contour, mm; lines and arcs exact, other curves within 1e-10 relative. */
export function contourLength(contour: ContourView): number {
  let sum = 0;
  let from = contour.start;
  for (const segment of contour.segments) {
    sum += segmentLength(from, segment);
    from = segment.to;
  }
  return sum;
}

/**
 * Exact signed area of a closed contour by Green's theorem, mm2; measured from its start so that far-away shapes keep their
 * digits. An open contour is closed by a straight line.
 */
export function contourArea(contour: ContourView): number {
  let sum = 0;
  let from = contour.start;
  for (const segment of contour.segments) {
    sum += segmentSweptArea(from, segment, contour.start);
    from = segment.to;
  }
  return sum;
}

/** Net area of a shape, mm2: outer less holes. */
export function shapeArea(shape: Shape): number {
  return shape.holes.reduce((sum, hole) => sum - Math.abs(contourArea(hole)), Math.abs(contourArea(shape.outer)));
}

/** Exact bounding box of the curves (not of their control points), mm. */
export function contourBounds(contour: ContourView): Bounds {
  let { x: minX, y: minY } = contour.start;
  let { x: maxX, y: maxY } = contour.start;
  let from = contour.start;
  for (const segment of contour.segments) {
    // Most segments are lines, whose ends say all.
    const box = segment.kind === 'line' ? null : segmentBounds(from, segment);
    minX = Math.min(minX, box?.minX ?? segment.to.x);
    minY = Math.min(minY, box?.minY ?? segment.to.y);
    maxX = Math.max(maxX, box?.maxX ?? segment.to.x);
    maxY = Math.max(maxY, box?.maxY ?? segment.to.y);
    from = segment.to;
  }
  return { minX, minY, maxX, maxY };
}

/** Where the contour ends. */
export function contourEnd(contour: ContourView): Point {
  return contour.segments.at(-1)?.to ?? contour.start;
}

/** The same curve travelled the other way; its area changes sign. */
export function reversedContour(contour: ContourView): Contour {
  const segments: Segment[] = [];
  let from = contour.start;
  for (const segment of contour.segments) {
    segments.push(reversedSegment(from, segment));
    from = segment.to;
  }
  return { start: from, segments: segments.reverse(), closed: contour.closed };
}

/** The contour itself when its area has the wanted sign, else reversed. */
export function orientedContour(contour: Contour, sign: 1 | -1): Contour {
  return contourArea(contour) * sign >= 0 ? contour : reversedContour(contour);
}

/**
 * The contour under an affine map, exactly: lines stay lines, cubics cubics, arcs stay arcs under similarities (mirrored
 * ones turn the other way) and become ellipses under any other map, ellipses stay ellipses.
 * @throws GeometryError `non-finite`, and `degenerate` when the map flattens the plane to a line while curves must keep an area.
 */
export function transformContour(contour: ContourView, matrix: Matrix): Contour {
  const { a, b, c, d, e, f } = matrix;
  if (![a, b, c, d, e, f].every(Number.isFinite)) {
    throw new GeometryError('non-finite', `a transform is not finite: ${a}, ${b}, ${c}, ${d}, ${e}, ${f}`);
  }
  const segments: Segment[] = [];
  for (const segment of contour.segments) segments.push(transformSegment(segment, matrix));
  return { start: apply(matrix, contour.start), segments, closed: contour.closed };
}

/** The shape under an affine map; when the map mirrors, contours are reversed so that orientations keep their meaning. */
export function transformShape(shape: Shape, matrix: Matrix): Shape {
  const mirrors = matrix.a * matrix.d - matrix.b * matrix.c < 0;
  const map = (contour: Contour) => {
    const moved = transformContour(contour, matrix);
    return mirrors ? reversedContour(moved) : moved;
  };
  return { outer: map(shape.outer), holes: shape.holes.map(map) };
}

/** The points joined by straight lines; a closed one ends on its start with an explicit last line. */
export function polylineContour(ring: Ring, closed: boolean): Contour {
  if (ring.length < 2) throw new GeometryError('degenerate', 'a contour needs at least one point');
  const start = { x: ring[0]!, y: ring[1]! };
  const segments: Segment[] = [];
  for (let i = 2; i < ring.length; i += 2) segments.push({ kind: 'line', to: { x: ring[i]!, y: ring[i + 1]! } });
  if (closed) segments.push({ kind: 'line', to: start });
  return { start, segments, closed };
}

/** One segment under an affine map, as in `transformContour`; the map must be finite. */
export function transformSegment(segment: Segment, matrix: Matrix): Segment {
  const to = apply(matrix, segment.to);
  switch (segment.kind) {
    case 'line':
      return { kind: 'line', to };
    case 'cubic':
      return { kind: 'cubic', c1: apply(matrix, segment.c1), c2: apply(matrix, segment.c2), to };
    case 'arc': {
      const scale = similarityScale(matrix);
      if (scale === null) return transformEllipse(asEllipse(segment), to, matrix);
      const sign = matrix.a * matrix.d - matrix.b * matrix.c < 0 ? -1 : 1;
      const centre = apply(matrix, segment.centre);
      return { kind: 'arc', to, centre, radius: segment.radius * scale, sweep: segment.sweep * sign };
    }
    case 'ellipse':
      return transformEllipse(segment, to, matrix);
  }
}

/** The factor of a similarity (rotation, uniform scale, mirror); null for any other map. */
function similarityScale({ a, b, c, d }: Matrix): number | null {
  const first = Math.hypot(a, b);
  const second = Math.hypot(c, d);
  const size = Math.max(first, second);
  const isSimilar =
    size > 0 && Math.abs(first - second) <= SAME_SCALE * size && Math.abs(a * c + b * d) <= SAME_SCALE * size * size;
  return isSimilar ? Math.sqrt(Math.abs(a * d - b * c)) : null;
}

/** An arc written as an ellipse of equal radii; its start angle is measured back from its end, which the segment holds. */
function asEllipse(arc: ArcSegment): EllipseSegment {
  const end = Math.atan2(arc.to.y - arc.centre.y, arc.to.x - arc.centre.x);
  const { to, centre, radius, sweep } = arc;
  return { kind: 'ellipse', to, centre, rx: radius, ry: radius, axisTurn: 0, from: end - sweep, sweep };
}

/** Singular value decomposition of the map that stretches the unit circle into the mapped ellipse gives its new axes. */
function transformEllipse(segment: EllipseSegment, to: Point, matrix: Matrix): ArcSegment | EllipseSegment {
  const cos = Math.cos(segment.axisTurn);
  const sin = Math.sin(segment.axisTurn);
  const p = (matrix.a * cos + matrix.c * sin) * segment.rx;
  const r = (matrix.b * cos + matrix.d * sin) * segment.rx;
  const q = (-matrix.a * sin + matrix.c * cos) * segment.ry;
  const s = (-matrix.b * sin + matrix.d * cos) * segment.ry;
  // [p q; r s] = R(axisTurn) diag(rx, +-ry) R(lead), closed form for 2 x 2.
  const even = Math.hypot(p + s, r - q) / 2;
  const odd = Math.hypot(p - s, r + q) / 2;
  const rx = even + odd;
  const ry = even - odd;
  const sumAngle = Math.atan2(r - q, p + s);
  const differenceAngle = Math.atan2(r + q, p - s);
  const centre = apply(matrix, segment.centre);
  if (!(Math.abs(ry) > 0)) throw new GeometryError('degenerate', 'a transform flattens an arc to a line');
  const sign = ry < 0 ? -1 : 1;
  const sweep = sign * segment.sweep;
  if (odd <= SAME_SCALE * rx || even <= SAME_SCALE * rx) return { kind: 'arc', to, centre, radius: rx, sweep };
  const axisTurn = (sumAngle + differenceAngle) / 2;
  const lead = (sumAngle - differenceAngle) / 2;
  return { kind: 'ellipse', to, centre, rx, ry: Math.abs(ry), axisTurn, from: sign * (segment.from + lead), sweep };
}
