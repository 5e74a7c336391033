import { distanceToPrimitive } from './biarc.ts';
import type { Primitive } from './carrier.ts';
import type { Contour, Shape } from './curve.ts';
import { approximateByArcs, approximateShapeByArcs } from './curve-to-arcs.ts';
import {
  type EdgeMeasures,
  EXACT_SAME_POINT_MM,
  type ExactEdge,
  edgesMeet,
  exactEdge,
  measureEdges,
  nearestOnEdges,
} from './exact.ts';
import type { Point } from './point.ts';
import type { Bounds } from './ring.ts';
import { segmentBounds, segmentPoint } from './segment.ts';

/** Cubics and ellipses become arcs this near for exact checks, mm; lines and arcs are taken as they are. */
export const EXACT_CURVE_TOLERANCE_MM = 0.001;

/** Edges under one box: distant stretches are skipped together. */
const BUNDLE = 8;

/** How far inside a shape its interior is looked for beside an edge that runs along another shape's edge, mm. */
const INWARD_STEP_MM = 1e-4;

interface OutlineEdge extends Primitive {
  /** Built when first asked for: few edges ever are, and building takes longer than everything else here. */
  exact: ExactEdge | null;
  readonly box: Bounds;
  /** Fractions of the edge at which it turns back in y. */
  readonly turns: readonly number[];
}

/** A shape made ready for exact questions: its edges as lines and arcs, bundled under boxes. */
export interface ExactOutline {
  readonly edges: readonly OutlineEdge[];
  readonly bundles: readonly { readonly box: Bounds; readonly edges: readonly OutlineEdge[] }[];
  readonly box: Bounds;
}

/** The smallest distance between two outlines, and where. */
export interface OutlineGap {
  readonly distance: number;
  readonly onA: Point;
  readonly onB: Point;
}

/** A place where two shapes share area: a point inside both, and how far it is from leaving one of them, mm. */
export interface OutlineOverlap {
  readonly at: Point;
  readonly depth: number;
}

/**
 * Make a shape ready. Its contours are taken as closed; their orientation does not matter.
 * @remarks O(n).
 */
export function exactOutline(shape: Shape): ExactOutline {
  const arcs = approximateShapeByArcs(shape, EXACT_CURVE_TOLERANCE_MM);
  const bundles: { box: Bounds; edges: OutlineEdge[] }[] = [];
  for (const contour of [arcs.outer, ...arcs.holes]) {
    const edges: OutlineEdge[] = [];
    let from = contour.start;
    for (const segment of contour.segments) {
      if (segment.kind === 'arc' ? segment.sweep !== 0 : segment.to.x !== from.x || segment.to.y !== from.y) {
        edges.push(...outlineEdges({ from, segment }));
      }
      from = segment.to;
    }
    for (let i = 0; i < edges.length; i += BUNDLE) {
      const slice = edges.slice(i, i + BUNDLE);
      bundles.push({ box: union(slice.map((edge) => edge.box)), edges: slice });
    }
  }
  return { edges: bundles.flatMap((bundle) => bundle.edges), bundles, box: union(bundles.map((bundle) => bundle.box)) };
}

/** What a contour measures, rebuilt of exact edges; cubics and ellipses within `EXACT_CURVE_TOLERANCE_MM`. O(n). */
export function measureContour(contour: Contour): EdgeMeasures {
  const edges: ExactEdge[] = [];
  let from = contour.start;
  for (const segment of approximateByArcs(contour, EXACT_CURVE_TOLERANCE_MM).segments) {
    if (segment.kind === 'arc' ? segment.sweep !== 0 : segment.to.x !== from.x || segment.to.y !== from.y) {
      edges.push(...outlineEdges({ from, segment }).map(exactEdge));
    }
    from = segment.to;
  }
  return measureEdges(edges);
}

/**
 * The smallest distance between the outlines of two shapes (0 where they meet; a shape inside another has one too).
 * @param upTo - larger distances do not matter, mm: null is returned for them, early.
 * @remarks Best first over bundle boxes; ends of edges give a bound before any exact question is asked. Some hundred edges each: a
 * few exact questions.
 */
export function outlineGap(a: ExactOutline, b: ExactOutline, upTo = Infinity): OutlineGap | null {
  let limit = upTo;
  let best: OutlineGap | null = null;
  const queue: { gap: number; p: readonly OutlineEdge[]; q: readonly OutlineEdge[] }[] = [];
  for (const p of a.bundles) {
    if (boxGap(p.box, b.box) > limit) continue;
    for (const q of b.bundles) {
      const gap = boxGap(p.box, q.box);
      if (gap <= limit) queue.push({ gap, p: p.edges, q: q.edges });
    }
  }
  queue.sort((s, t) => s.gap - t.gap);
  for (const { gap, p, q } of queue) {
    if (gap > limit || (best !== null && best.distance === 0)) break;
    const pairs: { gap: number; e: OutlineEdge; f: OutlineEdge }[] = [];
    for (const e of p) {
      for (const f of q) {
        const ends = Math.hypot(e.from.x - f.from.x, e.from.y - f.from.y);
        if (ends < limit) {
          limit = ends;
          best = { distance: ends, onA: e.from, onB: f.from };
        }
        const between = boxGap(e.box, f.box);
        if (between <= limit) pairs.push({ gap: between, e, f });
      }
    }
    pairs.sort((s, t) => s.gap - t.gap);
    for (const pair of pairs) {
      if (pair.gap > limit) break;
      const { distance, onA, onB } = nearestOnEdges(exactOf(pair.e), exactOf(pair.f));
      if (distance <= limit && (best === null || distance < best.distance)) {
        limit = distance;
        best = { distance, onA, onB };
      }
    }
  }
  return best;
}

/**
 * Do two shapes share area? Touching along edges or at points is not an overlap.
 * @returns the deepest place found, or null. The depth is exact at the place told; a deeper place may exist.
 */
export function outlineOverlap(a: ExactOutline, b: ExactOutline): OutlineOverlap | null {
  if (boxGap(a.box, b.box) > 0) return null;
  const cutsA = new Map<OutlineEdge, Point[]>();
  const cutsB = new Map<OutlineEdge, Point[]>();
  for (const p of a.bundles) {
    for (const q of b.bundles) {
      if (boxGap(p.box, q.box) > EXACT_SAME_POINT_MM) continue;
      for (const e of p.edges) {
        for (const f of q.edges) {
          if (boxGap(e.box, f.box) > EXACT_SAME_POINT_MM) continue;
          const points = edgesMeet(exactOf(e), exactOf(f));
          if (points.length === 0) continue;
          cutsA.set(e, [...(cutsA.get(e) ?? []), ...points]);
          cutsB.set(f, [...(cutsB.get(f) ?? []), ...points]);
        }
      }
    }
  }
  const probesA = cutsA.size > 0 ? middles(cutsA) : a.edges.map(middleOf);
  const probesB = cutsB.size > 0 ? middles(cutsB) : b.edges.map(middleOf);
  const first = deepest(probesA, a, b);
  const second = deepest(probesB, b, a);
  return first !== null && (second === null || first.depth >= second.depth) ? first : second;
}

/** Is the point inside the shape? Points on the outline may be told either way. O(n). */
export function isInOutline(outline: ExactOutline, { x, y }: Point): boolean {
  const { box } = outline;
  if (x < box.minX || x > box.maxX || y < box.minY || y > box.maxY) return false;
  let inside = false;
  for (const edge of outline.edges) {
    if (edge.box.minY > y || edge.box.maxY < y || edge.box.maxX < x) continue;
    if (crossesRay(edge, x, y)) inside = !inside;
  }
  return inside;
}

/** Distance from a point to the outline (not to the area), mm. O(n). */
export function distanceToOutline(outline: ExactOutline, { x, y }: Point): number {
  let best = Infinity;
  const point = { minX: x, minY: y, maxX: x, maxY: y };
  for (const bundle of outline.bundles) {
    if (boxGap(bundle.box, point) >= best) continue;
    for (const { from, segment } of bundle.edges) best = Math.min(best, distanceToPrimitive(x, y, from, segment));
  }
  return best;
}

function exactOf(edge: OutlineEdge): ExactEdge {
  edge.exact ??= exactEdge(edge);
  return edge.exact;
}

interface Probe {
  readonly at: Point;
  /** Unit direction of travel there. */
  readonly along: Point;
}

/** The deepest probe of one outline that lies inside the other shape. */
function deepest(probes: readonly Probe[], own: ExactOutline, other: ExactOutline): OutlineOverlap | null {
  let best: OutlineOverlap | null = null;
  for (const { at, along } of probes) {
    const depth = distanceToOutline(other, at);
    if (best !== null && depth <= best.depth) continue;
    if (depth > EXACT_SAME_POINT_MM) {
      if (isInOutline(other, at)) best = { at, depth };
    } else if (best === null) {
      // The edges run together here: the interiors may lie on the same side.
      for (const side of [1, -1]) {
        const step = side * INWARD_STEP_MM;
        const inward = { x: at.x - along.y * step, y: at.y + along.x * step };
        if (isInOutline(own, inward) && isInOutline(other, inward)) best = { at: inward, depth: INWARD_STEP_MM };
      }
    }
  }
  return best;
}

/** The middles of the stretches into which edges are cut. */
function middles(cuts: ReadonlyMap<OutlineEdge, readonly Point[]>): Probe[] {
  const probes: Probe[] = [];
  for (const [edge, points] of cuts) {
    const places = [0, 1, ...points.map((point) => fractionOf(edge, point))].sort((s, t) => s - t);
    for (let i = 1; i < places.length; i++) {
      if (places[i]! - places[i - 1]! > 1e-9) probes.push(probeAt(edge, (places[i]! + places[i - 1]!) / 2));
    }
  }
  return probes;
}

function middleOf(edge: OutlineEdge): Probe {
  return probeAt(edge, 0.5);
}

function probeAt({ from, segment }: OutlineEdge, u: number): Probe {
  const at = segmentPoint(from, segment, u);
  if (segment.kind === 'line') {
    const dx = segment.to.x - from.x;
    const dy = segment.to.y - from.y;
    const length = Math.hypot(dx, dy);
    return { at, along: { x: dx / length, y: dy / length } };
  }
  const sign = Math.sign(segment.sweep) / segment.radius;
  return { at, along: { x: -sign * (at.y - segment.centre.y), y: sign * (at.x - segment.centre.x) } };
}

function fractionOf({ from, segment }: Primitive, { x, y }: Point): number {
  if (segment.kind === 'line') {
    const dx = segment.to.x - from.x;
    const dy = segment.to.y - from.y;
    return Math.max(0, Math.min(1, ((x - from.x) * dx + (y - from.y) * dy) / (dx * dx + dy * dy)));
  }
  const ax = from.x - segment.centre.x;
  const ay = from.y - segment.centre.y;
  const bx = x - segment.centre.x;
  const by = y - segment.centre.y;
  const turn = Math.atan2(ax * by - ay * bx, ax * bx + ay * by) * Math.sign(segment.sweep);
  const size = Math.abs(segment.sweep);
  const forward = turn < -1e-9 ? turn + 2 * Math.PI : Math.max(0, turn);
  return Math.min(1, forward / size);
}

/** Arcs are halved beyond a half turn: the library takes a full turn for nothing at all. */
function outlineEdges(primitive: Primitive): OutlineEdge[] {
  const { from, segment } = primitive;
  const count = segment.kind === 'arc' ? Math.ceil(Math.abs(segment.sweep) / (Math.PI * 0.75)) : 1;
  const out: OutlineEdge[] = [];
  let start = from;
  for (let i = 1; i <= count; i++) {
    const to = segmentPoint(from, segment, i / count);
    const part: Primitive = {
      from: start,
      segment: segment.kind === 'arc' ? { ...segment, to, sweep: segment.sweep / count } : segment,
    };
    out.push({
      ...part,
      exact: null,
      box: segmentBounds(start, part.segment),
      turns: turnsInY(part),
    });
    start = to;
  }
  return out;
}

/** Where an arc passes its highest or lowest point, as fractions of it. */
function turnsInY({ from, segment }: Primitive): number[] {
  if (segment.kind === 'line') return [];
  const start = Math.atan2(from.y - segment.centre.y, from.x - segment.centre.x);
  const size = Math.abs(segment.sweep);
  const found: number[] = [];
  for (const extreme of [Math.PI / 2, -Math.PI / 2]) {
    const distance = (extreme - start) * Math.sign(segment.sweep);
    const forward = ((distance % (2 * Math.PI)) + 2 * Math.PI) % (2 * Math.PI);
    if (forward > 0 && forward < size) found.push(forward / size);
  }
  return found.sort((s, t) => s - t);
}

/** Does the ray from the point towards +x cross the edge an odd number of times? Lower ends count, upper ends do not. */
function crossesRay(edge: OutlineEdge, x: number, y: number): boolean {
  const { from, segment } = edge;
  if (segment.kind === 'line') {
    if (from.y > y === segment.to.y > y) return false;
    return x < from.x + ((y - from.y) * (segment.to.x - from.x)) / (segment.to.y - from.y);
  }
  let odd = false;
  let before = from;
  for (const turn of [...edge.turns, 1]) {
    const after = segmentPoint(from, segment, turn);
    if (before.y > y !== after.y > y) {
      const dy = y - segment.centre.y;
      const reach = Math.sqrt(Math.max(0, (segment.radius - dy) * (segment.radius + dy)));
      // A stretch that never turns back in y lies on one side of the centre.
      const side = before.x + after.x >= 2 * segment.centre.x ? 1 : -1;
      if (x < segment.centre.x + side * reach) odd = !odd;
    }
    before = after;
  }
  return odd;
}

function union(boxes: readonly Bounds[]): Bounds {
  return {
    minX: boxes.reduce((least, box) => Math.min(least, box.minX), Infinity),
    minY: boxes.reduce((least, box) => Math.min(least, box.minY), Infinity),
    maxX: boxes.reduce((most, box) => Math.max(most, box.maxX), -Infinity),
    maxY: boxes.reduce((most, box) => Math.max(most, box.maxY), -Infinity),
  };
}

function boxGap(a: Bounds, b: Bounds): number {
  const dx = Math.max(0, a.minX - b.maxX, b.minX - a.maxX);
  const dy = Math.max(0, a.minY - b.maxY, b.minY - a.maxY);
  return Math.hypot(dx, dy);
}
