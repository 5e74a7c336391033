import type { ArcSegment, Contour, LineSegment } from '@underlap/geometry/curve';
import type { Point } from '@underlap/geometry/point';

/** A seam is made of lines and arcs only. */
export type SeamSegment = LineSegment | ArcSegment;

/** Lengths below this are no stretch at all, mm: far above rounding, far below a kerf. */
const NO_LENGTH_MM = 1e-9;

/** A tangent-continuous open curve of lines and arcs that can be asked by the distance along it. */
export interface Spine {
  readonly start: Point;
  readonly segments: readonly SeamSegment[];
  /** Distance along the curve at which each segment starts; the last entry is the length. */
  readonly starts: Float64Array;
  readonly length: number;
}

/** A point of a spine: where it is, where it goes (unit tangent), and how it bends (1/mm, positive = towards the left normal). */
export interface SpinePoint {
  readonly x: number;
  readonly y: number;
  readonly tx: number;
  readonly ty: number;
  readonly bend: number;
}

/** @remarks O(n). Segments without length are dropped. */
export function spineOf(start: Point, segments: readonly SeamSegment[]): Spine {
  const kept: SeamSegment[] = [];
  const starts = [0];
  let from = start;
  let length = 0;
  for (const segment of segments) {
    const size = seamSegmentLength(from, segment);
    if (size <= NO_LENGTH_MM) continue;
    kept.push(segment);
    length += size;
    starts.push(length);
    from = segment.to;
  }
  return { start, segments: kept, starts: Float64Array.from(starts), length };
}

export function seamSegmentLength(from: Point, segment: SeamSegment): number {
  return segment.kind === 'line'
    ? Math.hypot(segment.to.x - from.x, segment.to.y - from.y)
    : segment.radius * Math.abs(segment.sweep);
}

/** The point `s` mm along the spine; beyond the ends it runs on straight. O(log n). */
export function spineAt(spine: Spine, s: number): SpinePoint {
  const index = segmentIndexAt(spine, s);
  const segment = spine.segments[index]!;
  const from = segmentStart(spine, index);
  const local = s - spine.starts[index]!;
  const size = spine.starts[index + 1]! - spine.starts[index]!;
  const inside = Math.min(Math.max(local, 0), size);
  const point = alongSegment(from, segment, inside, size);
  const over = local - inside;
  if (over === 0) return point;
  return { x: point.x + over * point.tx, y: point.y + over * point.ty, tx: point.tx, ty: point.ty, bend: 0 };
}

/** The stretch from `s0` to `s1` (s0 < s1) as segments that start exactly at spineAt(s0); whole segments are kept as they are. */
export function spineStretch(spine: Spine, s0: number, s1: number): { start: Point; segments: SeamSegment[] } {
  const first = segmentIndexAt(spine, s0);
  const segments: SeamSegment[] = [];
  const at = s0 <= 0 ? { x: spine.start.x, y: spine.start.y } : pointOf(spineAt(spine, s0));
  for (let i = first; i < spine.segments.length; i++) {
    const begins = spine.starts[i]!;
    const ends = spine.starts[i + 1]!;
    if (begins >= s1 - NO_LENGTH_MM) break;
    const low = Math.max(s0, begins);
    const high = Math.min(s1, ends);
    if (high - low <= NO_LENGTH_MM) continue;
    const segment = spine.segments[i]!;
    const to = high >= ends - NO_LENGTH_MM ? segment.to : pointOf(spineAt(spine, high));
    if (segment.kind === 'line') segments.push({ kind: 'line', to });
    else segments.push({ ...segment, to, sweep: (segment.sweep * (high - low)) / (ends - begins) });
  }
  return { start: at, segments };
}

/** The spine as an exact open contour. */
export function spineContour(spine: Spine): Contour {
  return { start: spine.start, segments: spine.segments, closed: false };
}

/**
 * Points along the spine at most `step` mm apart, both ends included, as s, x, y triples.
 * @remarks O(length / step).
 */
export function spineSamples(spine: Spine, step: number): Float64Array {
  const count = Math.max(1, Math.ceil(spine.length / step));
  const out = new Float64Array(3 * (count + 1));
  for (let i = 0; i <= count; i++) {
    const s = (spine.length * i) / count;
    const point = spineAt(spine, s);
    out[3 * i] = s;
    out[3 * i + 1] = point.x;
    out[3 * i + 2] = point.y;
  }
  return out;
}

/**
 * A polyline with its corners rounded.
 * @param points - at least two; consecutive ones apart.
 * @param radius - wanted radius; less where the legs are short (each corner may use half of a leg, the outer legs less `endLead`).
 * @returns the spine and the smallest radius that had to be used (Infinity without corners).
 */
export function roundedPolyline(
  points: readonly Point[],
  radius: number,
  endLead: number,
): { spine: Spine; leastRadius: number } {
  const segments: SeamSegment[] = [];
  let leastRadius = Infinity;
  const last = points.length - 1;
  for (let i = 1; i < last; i++) {
    const before = points[i - 1]!;
    const corner = points[i]!;
    const after = points[i + 1]!;
    const inLength = Math.hypot(corner.x - before.x, corner.y - before.y);
    const outLength = Math.hypot(after.x - corner.x, after.y - corner.y);
    const ix = (corner.x - before.x) / inLength;
    const iy = (corner.y - before.y) / inLength;
    const ox = (after.x - corner.x) / outLength;
    const oy = (after.y - corner.y) / outLength;
    const turn = Math.atan2(ix * oy - iy * ox, ix * ox + iy * oy);
    if (Math.abs(turn) < 1e-7) continue;
    const roomIn = i === 1 ? inLength - endLead : inLength / 2;
    const roomOut = i === last - 1 ? outLength - endLead : outLength / 2;
    const half = Math.tan(Math.abs(turn) / 2);
    const used = Math.min(radius, Math.max(0, Math.min(roomIn, roomOut)) / half);
    leastRadius = Math.min(leastRadius, used);
    const cut = used * half;
    const side = turn > 0 ? 1 : -1;
    const from = { x: corner.x - cut * ix, y: corner.y - cut * iy };
    const to = { x: corner.x + cut * ox, y: corner.y + cut * oy };
    segments.push({ kind: 'line', to: from });
    if (used <= NO_LENGTH_MM) continue;
    // The mean of both ways to the centre halves the rounding error at either tangent point.
    const centre = {
      x: (from.x - side * used * iy + to.x - side * used * oy) / 2,
      y: (from.y + side * used * ix + to.y + side * used * ox) / 2,
    };
    segments.push({ kind: 'arc', to, centre, radius: used, sweep: turn });
  }
  segments.push({ kind: 'line', to: points[last]! });
  return { spine: spineOf(points[0]!, segments), leastRadius };
}

function segmentStart(spine: Spine, index: number): Point {
  return index === 0 ? spine.start : spine.segments[index - 1]!.to;
}

function segmentIndexAt(spine: Spine, s: number): number {
  let low = 0;
  let high = spine.segments.length - 1;
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if (spine.starts[middle]! <= s) low = middle;
    else high = middle - 1;
  }
  return low;
}

function alongSegment(from: Point, segment: SeamSegment, local: number, size: number): SpinePoint {
  if (segment.kind === 'line') {
    const tx = (segment.to.x - from.x) / size;
    const ty = (segment.to.y - from.y) / size;
    return { x: from.x + local * tx, y: from.y + local * ty, tx, ty, bend: 0 };
  }
  const turn = (segment.sweep * local) / size;
  const cos = Math.cos(turn);
  const sin = Math.sin(turn);
  const dx = from.x - segment.centre.x;
  const dy = from.y - segment.centre.y;
  const rx = dx * cos - dy * sin;
  const ry = dx * sin + dy * cos;
  const side = segment.sweep > 0 ? 1 : -1;
  const reach = Math.hypot(rx, ry);
  return {
    x: segment.centre.x + rx,
    y: segment.centre.y + ry,
    tx: (-side * ry) / reach,
    ty: (side * rx) / reach,
    bend: side / segment.radius,
  };
}

function pointOf(point: SpinePoint): Point {
  return { x: point.x, y: point.y };
}
