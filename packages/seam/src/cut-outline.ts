import { carriersMeet } from '@underlap/geometry/carrier';
import { segmentPoint, segmentTangent, splitSegment } from '@underlap/geometry/contour';
import type { ArcSegment, Contour, LineSegment, Segment, Shape } from '@underlap/geometry/curve';
import { offsetShape } from '@underlap/geometry/offset-shape';
import type { Point } from '@underlap/geometry/point';
import { SeamError } from './error.ts';
import type { EdgeOrigin, SplitPiece } from './task.ts';

/** What the beam takes and what the maker wants between mating edges, mm. */
export interface CutRules {
  readonly kerf: number;
  /** Gap between mating edges after cutting; negative = press fit. */
  readonly fit: number;
  /** `all` (default): every edge is grown by half the kerf; `seams`: seam edges only; `none`: the machine does it. */
  readonly compensate?: 'all' | 'seams' | 'none';
}

/** Edges whose directions differ by less than this run on smoothly, radians. */
const SMOOTH_TURN = 1e-6;

/**
 * The line the beam's centre follows round a piece: half the kerf outside the wood that is wanted, and that wood's seam edges
 * drawn back by half the fit, so that the gap after cutting is the fit and the sign keeps its size.
 * @returns lines and arcs; seam edges are exact (lines shifted, arcs with another radius), cubics and ellipses come out as arcs
 * within 0.01 mm. With no kerf and no fit the shape itself.
 * @throws SeamError `bad-task` when the piece does not survive the kerf or a seam's arcs are tighter than it.
 * @remarks O(segments log segments). Corners where a seam meets the outline differ from the ideal within a kerf's width.
 */
export function cutOutline(piece: Pick<SplitPiece, 'id' | 'shape' | 'edges'>, rules: CutRules): Shape {
  const { kerf, fit } = rules;
  const compensate = rules.compensate ?? 'all';
  // Positive draws seam edges back into the wood.
  const recess = fit / 2 - (compensate === 'seams' ? kerf / 2 : 0);
  const receded: Shape =
    recess === 0
      ? piece.shape
      : {
          outer: recededContour(piece.shape.outer, piece.edges[0]!, recess, piece.id),
          holes: piece.shape.holes.map((hole, index) =>
            recededContour(hole, piece.edges[index + 1]!, recess, piece.id),
          ),
        };
  if (compensate !== 'all' || kerf === 0) return receded;
  const shapes = offsetShape(receded, kerf / 2);
  if (shapes.length !== 1) {
    throw new SeamError('bad-task', `Piece ${piece.id} does not survive a kerf of ${kerf} mm`, piece.id);
  }
  return shapes[0]!;
}

interface Edge {
  from: Point;
  segment: Segment;
  readonly isSeam: boolean;
}

/** Seam edges moved into the material (on the left of travel) by `recess`; outline edges trimmed or extended to meet them. */
function recededContour(contour: Contour, origins: readonly EdgeOrigin[], recess: number, piece: string): Contour {
  if (!origins.some((origin) => origin !== null)) return contour;
  const edges: Edge[] = [];
  let from = contour.start;
  contour.segments.forEach((segment, index) => {
    const isSeam = origins[index] !== null && origins[index] !== undefined;
    edges.push({ from, segment, isSeam });
    from = segment.to;
  });
  const moved = edges.map((edge) => (edge.isSeam ? movedIn(edge, recess, piece) : { ...edge }));
  const n = edges.length;
  for (let i = 0; i < n; i++) {
    const next = (i + 1) % n;
    if (!edges[i]!.isSeam && !edges[next]!.isSeam) continue;
    const isSmooth = edges[i]!.isSeam && edges[next]!.isSeam && turnBetween(edges[i]!, edges[next]!) < SMOOTH_TURN;
    if (isSmooth) {
      // Shifted ends of a smooth join agree up to rounding.
      moved[next]!.from = moved[i]!.segment.to;
      continue;
    }
    joinAt(moved[i]!, moved[next]!);
  }
  const segments = moved.map((edge) => edge.segment);
  return { start: moved[0]!.from, segments: withJoints(moved, segments), closed: true };
}

/** The segment as it is, with a short line wherever an edge had to be left out of the chain. */
function withJoints(edges: readonly Edge[], segments: readonly Segment[]): Segment[] {
  const out: Segment[] = [];
  edges.forEach((edge, index) => {
    out.push(segments[index]!);
    const next = edges[(index + 1) % edges.length]!;
    const end = edge.segment.to;
    if (Math.hypot(next.from.x - end.x, next.from.y - end.y) > 1e-9) out.push({ kind: 'line', to: next.from });
  });
  return out;
}

function movedIn(edge: Edge, recess: number, piece: string): Edge {
  const { from, segment } = edge;
  if (segment.kind === 'line') {
    const dx = segment.to.x - from.x;
    const dy = segment.to.y - from.y;
    const size = Math.hypot(dx, dy);
    const nx = (-dy / size) * recess;
    const ny = (dx / size) * recess;
    return {
      from: { x: from.x + nx, y: from.y + ny },
      segment: { kind: 'line', to: { x: segment.to.x + nx, y: segment.to.y + ny } },
      isSeam: true,
    };
  }
  if (segment.kind !== 'arc') throw new SeamError('internal', 'a seam edge is neither line nor arc', piece);
  const radius = segment.radius - Math.sign(segment.sweep) * recess;
  if (!(radius > 0)) {
    throw new SeamError('bad-task', `A seam of piece ${piece} bends tighter than kerf and fit allow`, piece);
  }
  const scaled = (point: Point): Point => ({
    x: segment.centre.x + ((point.x - segment.centre.x) / segment.radius) * radius,
    y: segment.centre.y + ((point.y - segment.centre.y) / segment.radius) * radius,
  });
  return { from: scaled(from), segment: { ...segment, to: scaled(segment.to), radius }, isSeam: true };
}

function turnBetween(a: Edge, b: Edge): number {
  const out = segmentTangent(a.from, a.segment, 1);
  const into = segmentTangent(b.from, b.segment, 0);
  return Math.abs(Math.atan2(out.x * into.y - out.y * into.x, out.x * into.x + out.y * into.y));
}

/** Make the end of one edge and the start of the next one point: where their curves meet. */
function joinAt(before: Edge, after: Edge): void {
  const isPlain = (segment: Segment): segment is LineSegment | ArcSegment =>
    segment.kind === 'line' || segment.kind === 'arc';
  if (isPlain(before.segment) && isPlain(after.segment)) {
    const wanted = middle(before.segment.to, after.from);
    const meets = carriersMeet(
      { from: before.from, segment: before.segment },
      { from: after.from, segment: after.segment },
    );
    const corner = nearest(meets, wanted);
    if (corner !== null && Math.hypot(corner.x - wanted.x, corner.y - wanted.y) < 5) {
      before.segment = endedAt(before.from, before.segment, corner);
      after.segment = startedAt(after.from, after.segment, corner);
      after.from = corner;
      return;
    }
  }
  // A drawn curve meets a seam: seams end in straight or gently bent run-ups, so their line decides where the curve stops.
  if (before.isSeam) {
    const line = lineAt(before, 1);
    const u = crossing(after, line, 0);
    if (u === null) return;
    const [, rest] = splitSegment(after.from, after.segment, u);
    const corner = segmentPoint(after.from, after.segment, u);
    if (isPlain(before.segment)) before.segment = endedAt(before.from, before.segment, corner);
    after.from = corner;
    after.segment = rest;
  } else {
    const line = lineAt(after, 0);
    const u = crossing(before, line, 1);
    if (u === null) return;
    const [head] = splitSegment(before.from, before.segment, u);
    const corner = head.to;
    before.segment = head;
    if (isPlain(after.segment)) after.segment = startedAt(after.from, after.segment, corner);
    after.from = corner;
  }
}

function lineAt(edge: Edge, u: 0 | 1): { at: Point; x: number; y: number } {
  const tangent = segmentTangent(edge.from, edge.segment, u);
  return { at: u === 0 ? edge.from : edge.segment.to, x: tangent.x, y: tangent.y };
}

/** Parameter at which a curve crosses a line, searched from one end; null when it does not (the curve would have to grow). */
function crossing(edge: Edge, line: { at: Point; x: number; y: number }, end: 0 | 1): number | null {
  const side = (u: number) => {
    const point = segmentPoint(edge.from, edge.segment, u);
    return (point.x - line.at.x) * line.y - (point.y - line.at.y) * line.x;
  };
  const first = side(end);
  for (let k = 1; k <= 32; k++) {
    const u = end === 0 ? k / 32 : 1 - k / 32;
    if (side(u) * first > 0) continue;
    let near = end === 0 ? (k - 1) / 32 : 1 - (k - 1) / 32;
    let far = u;
    for (let step = 0; step < 60; step++) {
      const half = (near + far) / 2;
      if (side(half) * first > 0) near = half;
      else far = half;
    }
    return Math.min(1, Math.max(0, far));
  }
  return null;
}

function endedAt(from: Point, segment: LineSegment | ArcSegment, to: Point): LineSegment | ArcSegment {
  return segment.kind === 'line' ? { kind: 'line', to } : { ...segment, to, sweep: sweepTo(segment, from, to) };
}

function startedAt(from: Point, segment: LineSegment | ArcSegment, at: Point): LineSegment | ArcSegment {
  if (segment.kind === 'line') return segment;
  return { ...segment, sweep: segment.sweep - angleBetween(segment.centre, from, at) };
}

/** The arc's sweep when it ends at `to` instead, which lies close to its old end. */
function sweepTo(arc: ArcSegment, _from: Point, to: Point): number {
  return arc.sweep + angleBetween(arc.centre, arc.to, to);
}

/** Signed small angle from a to b seen from the centre. */
function angleBetween(centre: Point, a: Point, b: Point): number {
  const ax = a.x - centre.x;
  const ay = a.y - centre.y;
  const bx = b.x - centre.x;
  const by = b.y - centre.y;
  return Math.atan2(ax * by - ay * bx, ax * bx + ay * by);
}

function nearest(points: readonly Point[], to: Point): Point | null {
  let best: Point | null = null;
  let least = Infinity;
  for (const point of points) {
    const distance = Math.hypot(point.x - to.x, point.y - to.y);
    if (distance < least) {
      least = distance;
      best = point;
    }
  }
  return best;
}

function middle(a: Point, b: Point): Point {
  return { x: (a.x + b.x) / 2, y: (a.y + b.y) / 2 };
}
