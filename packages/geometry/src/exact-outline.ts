import type { Primitive } from './carrier.ts';
import type { Contour, Shape } from './curve.ts';
import { approximateByArcs, approximateShapeByArcs } from './curve-to-arcs.ts';
import { type EdgeMeasures, type ExactEdge, exactEdge, measureEdges, nearestOnEdges } from './exact.ts';
import type { Point } from './point.ts';
import type { Bounds } from './ring.ts';
import { segmentBounds, segmentPoint } from './segment.ts';

/** Cubics and ellipses become arcs this near for exact checks, mm; lines and arcs are taken as they are. */
export const EXACT_CURVE_TOLERANCE_MM = 0.001;

/** Edges under one box: distant stretches are skipped together. */
const BUNDLE = 8;

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

function exactOf(edge: OutlineEdge): ExactEdge {
  edge.exact ??= exactEdge(edge);
  return edge.exact;
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
