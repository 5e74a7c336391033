import { contourBounds, transformContour } from '@underlap/geometry/contour';
import type { ArcSegment, Contour, EllipseSegment } from '@underlap/geometry/curve';
import type { Matrix } from '@underlap/geometry/matrix';
import type { Point } from '@underlap/geometry/point';
import { type BulgeVertex, bulgeContour } from '../bulge.ts';
import { type EntityTags, tagNumber } from './entity-tags.ts';
import { splineContour } from './spline.ts';

/** How an entity reads: a curve, or the reason why there is none. `warning` is told although the curve is used. */
export type CurveReading =
  | { readonly kind: 'curve'; readonly contour: Contour; readonly warning: CurveFault | null }
  | { readonly kind: 'fault'; readonly fault: CurveFault };

export interface CurveFault {
  readonly code: string;
  readonly message: string;
}

const TURN = 2 * Math.PI;
const RADIANS = Math.PI / 180;

/** Height differences up to this share of the entity's size are rounding, not a third dimension. */
const FLAT_SHARE = 1e-6;

/** Entities in their own plane look from behind when its normal points down: x runs the other way. */
const FROM_BEHIND: Matrix = { a: -1, b: 0, c: 0, d: 1, e: 0, f: 0 };

/** The entity types that are read as curves. */
export const CURVE_TYPES: ReadonlySet<string> = new Set([
  'LINE',
  'ARC',
  'CIRCLE',
  'ELLIPSE',
  'LWPOLYLINE',
  'POLYLINE',
  'SPLINE',
]);

/**
 * The exact curve of one entity, drawing units, y up. Source for groups and meanings: DXF reference, ENTITIES section.
 * @param vertices - the VERTEX entities of a POLYLINE, none for others.
 * @throws BadNumber when a number cannot be used.
 */
export function readCurve(tags: EntityTags, vertices: readonly EntityTags[]): CurveReading {
  switch (tags.type) {
    case 'LINE':
      return readLine(tags);
    case 'ARC':
    case 'CIRCLE':
      return inPlane(tags, readArc(tags));
    case 'ELLIPSE':
      return readEllipse(tags);
    case 'LWPOLYLINE':
      return inPlane(tags, readLightPolyline(tags));
    case 'POLYLINE':
      return readPolyline(tags, vertices);
    default:
      return readSpline(tags);
  }
}

/** Which side of the drawing plane an entity's own plane shows: null when it is tilted. */
export function planeOf(tags: EntityTags): 'front' | 'behind' | null {
  const { x, y, z } = normalOf(tags);
  if (Math.abs(x) > 1e-6 * Math.abs(z) || Math.abs(y) > 1e-6 * Math.abs(z)) return null;
  return z < 0 ? 'behind' : 'front';
}

function normalOf(tags: EntityTags): { x: number; y: number; z: number } {
  return { x: tags.number(210, 0), y: tags.number(220, 0), z: tags.number(230, 1) };
}

export const TILTED: CurveFault = {
  code: 'tilted',
  message: 'it is drawn in a tilted plane and is left out: flatten the drawing to the plane of the sheet',
};

const NOT_FLAT: CurveFault = {
  code: 'not-flat',
  message: 'its points lie at different heights; it is read as seen from above: flatten the drawing if that is wrong',
};

const NOTHING: CurveFault = { code: 'nothing-drawn', message: 'it has no extent and is left out' };

const broken = (message: string): CurveReading => ({ kind: 'fault', fault: { code: 'broken-shape', message } });
const curve = (contour: Contour, warning: CurveFault | null = null): CurveReading =>
  contour.segments.length === 0 ? { kind: 'fault', fault: NOTHING } : { kind: 'curve', contour, warning };

function inPlane(tags: EntityTags, reading: CurveReading): CurveReading {
  if (reading.kind === 'fault') return reading;
  const plane = planeOf(tags);
  if (plane === 'front') return reading;
  if (plane === 'behind') return { ...reading, contour: transformContour(reading.contour, FROM_BEHIND) };
  return seenFromAbove(tags, reading);
}

/** Least cosine of the angle between the entity's plane and the sheet's at which it counts as flat: a thousandth is lost in length. */
const NEARLY_FLAT = 0.999;

/**
 * An entity in a tilted plane: what is level all the same (a straight line along the slope's foot) is exact, what is tilted by
 * rounding is read as seen from above and told, anything else is left out.
 */
function seenFromAbove(tags: EntityTags, reading: CurveReading & { readonly kind: 'curve' }): CurveReading {
  const { x, y, z } = normalOf(tags);
  const length = Math.hypot(x, y, z);
  if (!(length > 0)) return { kind: 'fault', fault: TILTED };
  const n = { x: x / length, y: y / length, z: z / length };
  // DXF reference, 'Arbitrary Axis Algorithm': the entity's own x runs across world y, or world z when the normal is far from that.
  const isNearZ = Math.abs(n.x) < 1 / 64 && Math.abs(n.y) < 1 / 64;
  const across = isNearZ ? { x: n.z, y: 0, z: -n.x } : { x: -n.y, y: n.x, z: 0 };
  const size = Math.hypot(across.x, across.y, across.z);
  const u = { x: across.x / size, y: across.y / size, z: across.z / size };
  const v = { x: n.y * u.z - n.z * u.y, y: n.z * u.x - n.x * u.z, z: n.x * u.y - n.y * u.x };
  const elevation = tags.number(tags.type === 'LWPOLYLINE' ? 38 : 30, 0);
  const map: Matrix = { a: u.x, b: u.y, c: v.x, d: v.y, e: n.x * elevation, f: n.y * elevation };
  const { contour } = reading;
  const heights = [contour.start, ...contour.segments.map(({ to }) => to)].map(
    (point) => point.x * u.z + point.y * v.z,
  );
  const isStraight = contour.segments.every(({ kind }) => kind === 'line');
  const rise = Math.max(...heights) - Math.min(...heights);
  const box = contourBounds(contour);
  const isLevel = isStraight && rise <= FLAT_SHARE * Math.max(box.maxX - box.minX, box.maxY - box.minY);
  if (!isLevel && Math.abs(n.z) < NEARLY_FLAT) return { kind: 'fault', fault: TILTED };
  const placed = transformContour(contour, map);
  return { ...reading, contour: placed, warning: isLevel ? reading.warning : NOT_FLAT };
}

/** A contour of an area in its entity's plane, in that of the drawing; the fault when the plane is tilted. */
export function areaInPlane(tags: EntityTags, contour: Contour): CurveReading {
  return inPlane(tags, { kind: 'curve', contour, warning: null });
}

function pointAt(tags: EntityTags, code: number): Point {
  return { x: tags.number(code, 0), y: tags.number(code + 10, 0) };
}

function readLine(tags: EntityTags): CurveReading {
  const start = pointAt(tags, 10);
  const to = pointAt(tags, 11);
  const length = Math.hypot(to.x - start.x, to.y - start.y);
  if (length === 0) return { kind: 'fault', fault: NOTHING };
  const rise = Math.abs(tags.number(31, 0) - tags.number(30, 0));
  return curve(
    { start, segments: [{ kind: 'line', to }], closed: false },
    rise > FLAT_SHARE * length ? NOT_FLAT : null,
  );
}

function readArc(tags: EntityTags): CurveReading {
  const centre = pointAt(tags, 10);
  const radius = tags.number(40, 0);
  if (!(radius > 0)) return { kind: 'fault', fault: NOTHING };
  const isCircle = tags.type === 'CIRCLE';
  const from = isCircle ? 0 : tags.number(50, 0) * RADIANS;
  const sweep = isCircle ? TURN : turnBetween(from, tags.number(51, 360) * RADIANS);
  if (sweep === 0) return { kind: 'fault', fault: NOTHING };
  const at = (angle: number): Point => ({
    x: centre.x + radius * Math.cos(angle),
    y: centre.y + radius * Math.sin(angle),
  });
  const start = at(from);
  const closed = sweep >= TURN - 1e-12;
  const segment: ArcSegment = { kind: 'arc', to: closed ? start : at(from + sweep), centre, radius, sweep };
  return curve({ start, segments: [segment], closed });
}

/** Counter-clockwise from one angle to the next, in 0..2 pi; whole turns that are written as such stay whole. */
function turnBetween(from: number, to: number): number {
  const turn = to - from;
  if (Math.abs(Math.abs(turn) - TURN) < 1e-9) return TURN;
  return ((turn % TURN) + TURN) % TURN;
}

function readEllipse(tags: EntityTags): CurveReading {
  const centre = pointAt(tags, 10);
  const major = pointAt(tags, 11);
  const rx = Math.hypot(major.x, major.y);
  const ry = rx * Math.abs(tags.number(40, 1));
  if (!(rx > 0 && ry > FLAT_SHARE * rx)) return { kind: 'fault', fault: NOTHING };
  const plane = planeOf(tags);
  if (plane === null) return { kind: 'fault', fault: TILTED };
  const first = tags.number(41, 0);
  const turn = turnBetween(first, tags.number(42, TURN));
  // Equal parameters are a whole ellipse: nobody draws an empty one.
  const size = turn === 0 ? TURN : turn;
  // Seen from behind the minor axis points the other way, so the parameter runs backwards.
  const sign = plane === 'behind' ? -1 : 1;
  const from = sign * first;
  const sweep = sign * size;
  const axisTurn = Math.atan2(major.y, major.x);
  const at = (u: number): Point => {
    const cos = Math.cos(axisTurn);
    const sin = Math.sin(axisTurn);
    const x = rx * Math.cos(u);
    const y = ry * Math.sin(u);
    return { x: centre.x + cos * x - sin * y, y: centre.y + sin * x + cos * y };
  };
  const start = at(from);
  const closed = size >= TURN - 1e-9;
  const to = closed ? start : at(from + sweep);
  const segment: ArcSegment | EllipseSegment =
    rx === ry
      ? { kind: 'arc', to, centre, radius: rx, sweep }
      : { kind: 'ellipse', to, centre, rx, ry, axisTurn, from, sweep };
  return curve({ start, segments: [segment], closed });
}

function readLightPolyline(tags: EntityTags): CurveReading {
  const vertices: { x: number; y: number; bulge: number }[] = [];
  let isWide = tags.number(43, 0) > 0;
  for (const tag of tags.all) {
    const last = vertices.at(-1);
    if (tag.code === 10) vertices.push({ x: tagNumber(tag), y: 0, bulge: 0 });
    else if (tag.code === 20 && last) last.y = tagNumber(tag);
    else if (tag.code === 42 && last) last.bulge = tagNumber(tag);
    else if ((tag.code === 40 || tag.code === 41) && tagNumber(tag) > 0) isWide = true;
  }
  return fromVertices(vertices, (tags.integer(70, 0) & 1) !== 0, isWide ? WIDE : null);
}

const WIDE: CurveFault = {
  code: 'wide-line',
  message: 'it is drawn as a wide band; only its middle line is read: draw its outline if the band is meant',
};

function readPolyline(tags: EntityTags, vertexTags: readonly EntityTags[]): CurveReading {
  const flags = tags.integer(70, 0);
  if ((flags & (16 | 64)) !== 0) {
    return {
      kind: 'fault',
      fault: { code: 'three-d', message: 'it is a mesh in space and is left out: draw its outline flat' },
    };
  }
  const vertices: BulgeVertex[] = [];
  const heights: number[] = [];
  let isWide = tags.number(40, 0) > 0 || tags.number(41, 0) > 0;
  for (const vertex of vertexTags) {
    // 16: control point of a spline frame, drawn in the editor only.
    if ((vertex.integer(70, 0) & 16) !== 0) continue;
    vertices.push({ x: vertex.number(10, 0), y: vertex.number(20, 0), bulge: vertex.number(42, 0) });
    heights.push(vertex.number(30, 0));
    isWide ||= vertex.number(40, 0) > 0 || vertex.number(41, 0) > 0;
  }
  const isSpatial = (flags & 8) !== 0;
  const reading = fromVertices(vertices, (flags & 1) !== 0, isWide ? WIDE : null);
  if (!isSpatial) return inPlane(tags, reading);
  return flatness(reading, heights, vertices);
}

function flatness(reading: CurveReading, heights: readonly number[], points: readonly Point[]): CurveReading {
  if (reading.kind === 'fault') return reading;
  const range = (values: readonly number[]): number => {
    let [low, high] = [Infinity, -Infinity];
    for (const value of values) [low, high] = [Math.min(low, value), Math.max(high, value)];
    return values.length === 0 ? 0 : high - low;
  };
  const size = Math.max(range(points.map(({ x }) => x)), range(points.map(({ y }) => y)));
  return range(heights) > FLAT_SHARE * size ? { ...reading, warning: NOT_FLAT } : reading;
}

function fromVertices(vertices: readonly BulgeVertex[], closed: boolean, warning: CurveFault | null): CurveReading {
  if (vertices.length === 0) return broken('it has no vertices and is left out: draw it again');
  return curve(bulgeContour(vertices, closed), warning);
}

function readSpline(tags: EntityTags): CurveReading {
  const flags = tags.integer(70, 0);
  const controls: { x: number; y: number }[] = [];
  const fits: { x: number; y: number }[] = [];
  const knots: number[] = [];
  const weights: number[] = [];
  const heights: number[] = [];
  for (const tag of tags.all) {
    if (tag.code === 10) controls.push({ x: tagNumber(tag), y: 0 });
    else if (tag.code === 20) setY(controls, tagNumber(tag));
    else if (tag.code === 11) fits.push({ x: tagNumber(tag), y: 0 });
    else if (tag.code === 21) setY(fits, tagNumber(tag));
    else if (tag.code === 30 || tag.code === 31) heights.push(tagNumber(tag));
    else if (tag.code === 40) knots.push(tagNumber(tag));
    else if (tag.code === 41) weights.push(tagNumber(tag));
  }
  const tangent = (code: number): Point | null => (tags.has(code) ? pointAt(tags, code) : null);
  const contour = splineContour({
    degree: tags.integer(71, 3),
    isClosed: (flags & 1) !== 0,
    isPeriodic: (flags & 2) !== 0,
    knots,
    controls,
    weights,
    fits,
    startTangent: tangent(12),
    endTangent: tangent(13),
  });
  if (contour === null) {
    return broken('its knots, weights and points do not make a spline, so it is left out: draw it again');
  }
  return flatness(curve(contour), heights, [...controls, ...fits]);
}

function setY(points: { x: number; y: number }[], y: number): void {
  const last = points.at(-1);
  if (last) last.y = y;
}
