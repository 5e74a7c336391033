import { reversedContour, segmentTangent, splitSegment } from '@underlap/geometry/contour';
import type { Contour, Segment, Shape } from '@underlap/geometry/curve';
import { flattenContour } from '@underlap/geometry/flatten';
import type { Point } from '@underlap/geometry/point';
import type { Region } from '@underlap/geometry/region';
import { isInRing, type Ring, ringArea } from '@underlap/geometry/ring';

/** Largest gap between an edge and its chords while planning, mm. */
const PLANNING_FLATTEN_MM = 0.02;

/** Where a cut begins or ends: on the part's own contours (0 = outer, then holes), or on an earlier cut. */
export type CutEnd =
  | { readonly kind: 'outline'; readonly contour: number; readonly segment: number; readonly u: number }
  | { readonly kind: 'cut'; readonly cut: number; readonly s: number };

/** A cut as the arrangement needs it: its ends, its length, and its exact path between two distances along its spine. */
export interface ArrangedCut {
  readonly from: CutEnd;
  readonly to: CutEnd;
  readonly length: number;
  readonly stretch: (s0: number, s1: number) => { readonly start: Point; readonly segments: readonly Segment[] };
}

/** A stretch of a contour or cut between two places where cuts meet. */
export interface ArrangedEdge {
  readonly id: number;
  readonly curve: Contour;
  /** Index of the cut, or -1 on the part's own contours. */
  readonly cut: number;
  /** On cuts: the stretch of the spine. */
  readonly s0: number;
  readonly s1: number;
  /** On contours: which contour, and where each segment of `curve` comes from. */
  readonly contour: number;
  readonly origins: readonly { readonly segment: number; readonly u0: number; readonly u1: number }[];
  /** Flattened, both ends included. */
  readonly line: Ring;
}

/** One piece of the part: its outer loop as directed edges, its ring, and the holes that lie in it whole. */
export interface Face {
  readonly loop: readonly { readonly edge: ArrangedEdge; readonly forward: boolean }[];
  readonly outer: Ring;
  /** Indices of whole contours (>= 1) that are holes of this face. */
  readonly holes: readonly number[];
  readonly holeRings: readonly Ring[];
}

interface Vertex {
  readonly leaving: { edge: ArrangedEdge; forward: boolean; angle: number }[];
}

/**
 * Cut a shape along curves and walk the faces: exact contours are only split, never recomputed, and every cut appears forward
 * in one face and reversed in another, so that areas add up to rounding.
 * @param shape - outer contour of positive area, holes of negative area.
 * @param cuts - each ends on a contour or on a cut with a smaller or larger index; cuts do not cross.
 * @returns faces; their number is one more than the number of closing cuts.
 * @remarks O(segments + cuts). Method: planar map traversal, next edge = first one clockwise from the reversed arrival
 * (de Berg et al., Computational Geometry, ch. 2).
 */
export function arrange(shape: Shape, cuts: readonly ArrangedCut[]): Face[] {
  const contours = [shape.outer, ...shape.holes];
  const marksOnContour = new Map<number, { segment: number; u: number; key: string }[]>();
  const marksOnCut = new Map<number, { s: number; key: string }[]>();
  cuts.forEach((cut, index) => {
    for (const [end, key] of [
      [cut.from, `${index}a`],
      [cut.to, `${index}b`],
    ] as const) {
      if (end.kind === 'outline') {
        const list = marksOnContour.get(end.contour) ?? [];
        list.push({ segment: end.segment, u: end.u, key });
        marksOnContour.set(end.contour, list);
      } else {
        const list = marksOnCut.get(end.cut) ?? [];
        list.push({ s: end.s, key });
        marksOnCut.set(end.cut, list);
      }
    }
  });

  const vertices = new Map<string, Vertex>();
  const ends = new Map<ArrangedEdge, { from: string; to: string }>();
  const connect = (edge: ArrangedEdge, from: string, to: string) => {
    ends.set(edge, { from, to });
    vertexOf(vertices, from).leaving.push({ edge, forward: true, angle: leavingAngle(edge.curve) });
    if (edge.cut >= 0) {
      const back = reversedContour(edge.curve);
      vertexOf(vertices, to).leaving.push({ edge, forward: false, angle: leavingAngle(back) });
    }
  };
  let nextId = 0;
  const free: number[] = [];
  contours.forEach((contour, index) => {
    const marks = marksOnContour.get(index);
    if (marks === undefined) {
      free.push(index);
      return;
    }
    for (const { edge, from, to } of contourEdges(contour, index, marks, () => nextId++)) connect(edge, from, to);
  });
  cuts.forEach((cut, index) => {
    const stops = [
      { s: 0, key: `${index}a` },
      ...(marksOnCut.get(index) ?? []).sort((a, b) => a.s - b.s),
      { s: cut.length, key: `${index}b` },
    ];
    for (let i = 0; i + 1 < stops.length; i++) {
      const a = stops[i]!;
      const b = stops[i + 1]!;
      const stretch = cut.stretch(a.s, b.s);
      const curve: Contour = { start: stretch.start, segments: stretch.segments, closed: false };
      const line = flattenContour(curve, PLANNING_FLATTEN_MM);
      const edge: ArrangedEdge = { id: nextId++, curve, cut: index, s0: a.s, s1: b.s, contour: -1, origins: [], line };
      connect(edge, a.key, b.key);
    }
  });

  const faces = walkFaces(vertices, ends);
  if (faces.length === 0) faces.push(wholeFace(contours[0]!));
  return withHoles(faces, contours, free);
}

/** The face's exact contours. */
export function faceShape(face: Face, shape: Shape): Shape {
  const segments: Segment[] = [];
  let start: Point | null = null;
  for (const { edge, forward } of face.loop) {
    const curve = forward ? edge.curve : reversedContour(edge.curve);
    start ??= curve.start;
    segments.push(...curve.segments);
  }
  return {
    outer: { start: start!, segments, closed: true },
    holes: face.holes.map((index) => shape.holes[index - 1]!),
  };
}

export function faceRegion(face: Face): Region {
  return { outer: face.outer, holes: face.holeRings };
}

function vertexOf(vertices: Map<string, Vertex>, key: string): Vertex {
  let vertex = vertices.get(key);
  if (vertex === undefined) {
    vertex = { leaving: [] };
    vertices.set(key, vertex);
  }
  return vertex;
}

function leavingAngle(curve: Contour): number {
  const tangent = segmentTangent(curve.start, curve.segments[0]!, 0);
  return Math.atan2(tangent.y, tangent.x);
}

function contourEdges(
  contour: Contour,
  index: number,
  marks: { segment: number; u: number; key: string }[],
  newId: () => number,
): { edge: ArrangedEdge; from: string; to: string }[] {
  const sorted = [...marks].sort((a, b) => a.segment - b.segment || a.u - b.u);
  const out: { edge: ArrangedEdge; from: string; to: string }[] = [];
  for (let i = 0; i < sorted.length; i++) {
    const a = sorted[i]!;
    const b = sorted[(i + 1) % sorted.length]!;
    const wraps = i === sorted.length - 1;
    const { curve, origins } = contourStretch(contour, a, b, wraps);
    const line = flattenContour(curve, PLANNING_FLATTEN_MM);
    out.push({
      edge: { id: newId(), curve, cut: -1, s0: 0, s1: 0, contour: index, origins, line },
      from: a.key,
      to: b.key,
    });
  }
  return out;
}

/** The contour from mark a to mark b, round its start when `wraps`; split exactly at both. */
function contourStretch(
  contour: Contour,
  a: { segment: number; u: number },
  b: { segment: number; u: number },
  wraps: boolean,
): { curve: Contour; origins: { segment: number; u0: number; u1: number }[] } {
  const n = contour.segments.length;
  const starts: Point[] = [contour.start];
  for (let i = 0; i + 1 < n; i++) starts.push(contour.segments[i]!.to);
  const segments: Segment[] = [];
  const origins: { segment: number; u0: number; u1: number }[] = [];
  let start: Point | null = null;
  const steps = wraps ? n - a.segment + b.segment : b.segment - a.segment;
  for (let k = 0; k <= steps; k++) {
    const i = (a.segment + k) % n;
    const u0 = k === 0 ? a.u : 0;
    const u1 = k === steps ? b.u : 1;
    if (u1 <= u0) {
      if (k === 0) start = splitSegment(starts[i]!, contour.segments[i]!, u0)[0].to;
      continue;
    }
    const piece = segmentPart(starts[i]!, contour.segments[i]!, u0, u1);
    start ??= piece.start;
    segments.push(piece.segment);
    origins.push({ segment: i, u0, u1 });
  }
  return { curve: { start: start!, segments, closed: false }, origins };
}

function segmentPart(from: Point, segment: Segment, u0: number, u1: number): { start: Point; segment: Segment } {
  let head: Segment = segment;
  if (u1 < 1) head = splitSegment(from, segment, u1)[0];
  if (u0 <= 0) return { start: from, segment: head };
  const [first, rest] = splitSegment(from, head, u1 < 1 ? u0 / u1 : u0);
  return { start: first.to, segment: rest };
}

function walkFaces(
  vertices: Map<string, Vertex>,
  ends: Map<ArrangedEdge, { from: string; to: string }>,
): { loop: Face['loop']; outer: Ring }[] {
  const faces: { loop: Face['loop']; outer: Ring }[] = [];
  const used = new Set<string>();
  const nameOf = (edge: ArrangedEdge, forward: boolean) => `${edge.id}${forward ? '+' : '-'}`;
  for (const edge of ends.keys()) {
    for (const forward of edge.cut >= 0 ? [true, false] : [true]) {
      if (used.has(nameOf(edge, forward))) continue;
      const loop: { edge: ArrangedEdge; forward: boolean }[] = [];
      let at = { edge, forward };
      while (!used.has(nameOf(at.edge, at.forward))) {
        used.add(nameOf(at.edge, at.forward));
        loop.push({ edge: at.edge, forward: at.forward });
        const { from, to } = ends.get(at.edge)!;
        at = nextLeaving(vertices.get(at.forward ? to : from)!, at);
      }
      faces.push({ loop, outer: loopRing(loop) });
    }
  }
  return faces;
}

function nextLeaving(
  vertex: Vertex,
  arrived: { edge: ArrangedEdge; forward: boolean },
): { edge: ArrangedEdge; forward: boolean } {
  const curve = arrived.forward ? arrived.edge.curve : reversedContour(arrived.edge.curve);
  const before = curve.segments.length > 1 ? curve.segments[curve.segments.length - 2]!.to : curve.start;
  const tangent = segmentTangent(before, curve.segments[curve.segments.length - 1]!, 1);
  const back = Math.atan2(-tangent.y, -tangent.x);
  let best: { edge: ArrangedEdge; forward: boolean } | null = null;
  let least = Infinity;
  for (const candidate of vertex.leaving) {
    if (candidate.edge === arrived.edge && candidate.forward !== arrived.forward) continue;
    let clockwise = back - candidate.angle;
    while (clockwise <= 1e-9) clockwise += 2 * Math.PI;
    while (clockwise > 2 * Math.PI + 1e-9) clockwise -= 2 * Math.PI;
    if (clockwise < least) {
      least = clockwise;
      best = candidate;
    }
  }
  return best ?? { edge: arrived.edge, forward: !arrived.forward };
}

function loopRing(loop: Face['loop']): Ring {
  const out: number[] = [];
  for (const { edge, forward } of loop) {
    const line = edge.line;
    const n = line.length;
    // The last point of every edge is the first of the next one.
    if (forward) for (let i = 0; i + 2 < n; i += 2) out.push(line[i]!, line[i + 1]!);
    else for (let i = n - 2; i > 0; i -= 2) out.push(line[i]!, line[i + 1]!);
  }
  return Float64Array.from(out);
}

function wholeFace(outer: Contour): { loop: Face['loop']; outer: Ring } {
  const origins = outer.segments.map((_, segment) => ({ segment, u0: 0, u1: 1 }));
  const line = flattenContour({ ...outer, closed: false }, PLANNING_FLATTEN_MM);
  const edge: ArrangedEdge = { id: 0, curve: outer, cut: -1, s0: 0, s1: 0, contour: 0, origins, line };
  const loop = [{ edge, forward: true }];
  return { loop, outer: loopRing(loop) };
}

function withHoles(
  faces: { loop: Face['loop']; outer: Ring }[],
  contours: readonly Contour[],
  free: readonly number[],
): Face[] {
  const held: number[][] = faces.map(() => []);
  for (const index of free) {
    if (index === 0) continue;
    const at = contours[index]!.start;
    let owner = 0;
    let smallest = Infinity;
    faces.forEach((face, k) => {
      const area = ringArea(face.outer);
      if (area > 0 && area < smallest && isInRing(face.outer, at.x, at.y)) {
        owner = k;
        smallest = area;
      }
    });
    held[owner]!.push(index);
  }
  return faces.map((face, k) => ({
    ...face,
    holes: held[k]!,
    holeRings: held[k]!.map((index) => flattenContour(contours[index]!, PLANNING_FLATTEN_MM)),
  }));
}
