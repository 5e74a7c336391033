import type { Point } from './point.ts';
import type { Ring } from './ring.ts';

/** Two rings (or one ring with itself, a = b) that share a point, and one such point, mm. */
export interface Crossing {
  readonly a: number;
  readonly b: number;
  readonly at: Point;
}

/** Consecutive edges bundled under one box: few enough to test pairwise, many enough to keep the sweep short. */
const BUNDLE = 12;

interface Bundle {
  readonly ring: number;
  readonly first: number;
  readonly end: number;
  readonly minX: number;
  readonly minY: number;
  readonly maxX: number;
  readonly maxY: number;
}

/**
 * Which rings share points with which others or with themselves: crossing, touching and overlapping alike. One place is told
 * for each pair. Neighbouring edges of a ring only count when they fold back on each other.
 * @param rings - mm, closed.
 * @remarks A sweep over bundles of edges sorted by x; near O(n log n) for drawings, O((n / 12)^2) box tests at worst.
 */
export function findCrossings(rings: readonly Ring[]): Crossing[] {
  const bundles = rings.flatMap((ring, index) => bundlesOf(ring, index)).sort((p, q) => p.minX - q.minX);
  const found = new Map<number, Crossing>();
  let active: Bundle[] = [];
  for (const bundle of bundles) {
    active = active.filter((other) => other.maxX >= bundle.minX);
    for (const other of active) {
      if (other.maxY < bundle.minY || other.minY > bundle.maxY) continue;
      note(rings, other, bundle, found);
    }
    note(rings, bundle, bundle, found);
    active.push(bundle);
  }
  return [...found.values()].sort((p, q) => p.a - q.a || p.b - q.b);
}

function note(rings: readonly Ring[], p: Bundle, q: Bundle, found: Map<number, Crossing>): void {
  const a = Math.min(p.ring, q.ring);
  const b = Math.max(p.ring, q.ring);
  const key = a * rings.length + b;
  if (found.has(key)) return;
  const at = bundlesMeet(rings[p.ring]!, p, rings[q.ring]!, q);
  if (at !== null) found.set(key, { a, b, at });
}

function bundlesOf(ring: Ring, index: number): Bundle[] {
  const n = ring.length / 2;
  const out: Bundle[] = [];
  for (let first = 0; first < n; first += BUNDLE) {
    const end = Math.min(n, first + BUNDLE);
    let minX = Infinity;
    let minY = Infinity;
    let maxX = -Infinity;
    let maxY = -Infinity;
    for (let vertex = first; vertex <= end; vertex++) {
      const at = 2 * (vertex % n);
      minX = Math.min(minX, ring[at]!);
      maxX = Math.max(maxX, ring[at]!);
      minY = Math.min(minY, ring[at + 1]!);
      maxY = Math.max(maxY, ring[at + 1]!);
    }
    out.push({ ring: index, first, end, minX, minY, maxX, maxY });
  }
  return out;
}

function bundlesMeet(p: Ring, bundleP: Bundle, q: Ring, bundleQ: Bundle): Point | null {
  const np = p.length / 2;
  const nq = q.length / 2;
  const isSameRing = bundleP.ring === bundleQ.ring;
  const isSameBundle = isSameRing && bundleP.first === bundleQ.first;
  for (let i = bundleP.first; i < bundleP.end; i++) {
    const i1 = (i + 1) % np;
    const ax = p[2 * i]!;
    const ay = p[2 * i + 1]!;
    const bx = p[2 * i1]!;
    const by = p[2 * i1 + 1]!;
    if (Math.max(ax, bx) < bundleQ.minX || Math.min(ax, bx) > bundleQ.maxX) continue;
    if (Math.max(ay, by) < bundleQ.minY || Math.min(ay, by) > bundleQ.maxY) continue;
    for (let j = isSameBundle ? i + 1 : bundleQ.first; j < bundleQ.end; j++) {
      const j1 = (j + 1) % nq;
      const cx = q[2 * j]!;
      const cy = q[2 * j + 1]!;
      const dx = q[2 * j1]!;
      const dy = q[2 * j1 + 1]!;
      if (isSameRing && (i1 === j || j1 === i)) {
        const apex = i1 === j ? j : i;
        if (np > 2 && foldsBack(p, apex)) return { x: p[2 * apex]!, y: p[2 * apex + 1]! };
        continue;
      }
      if (Math.max(ax, bx) < Math.min(cx, dx) || Math.max(cx, dx) < Math.min(ax, bx)) continue;
      if (Math.max(ay, by) < Math.min(cy, dy) || Math.max(cy, dy) < Math.min(ay, by)) continue;
      const at = meetingPoint(ax, ay, bx, by, cx, cy, dx, dy);
      if (at !== null) return at;
    }
  }
  return null;
}

/** Does the ring run back along the edge it came by? */
function foldsBack(ring: Ring, apex: number): boolean {
  const n = ring.length / 2;
  const before = 2 * ((apex + n - 1) % n);
  const after = 2 * ((apex + 1) % n);
  const ux = ring[2 * apex]! - ring[before]!;
  const uy = ring[2 * apex + 1]! - ring[before + 1]!;
  const vx = ring[after]! - ring[2 * apex]!;
  const vy = ring[after + 1]! - ring[2 * apex + 1]!;
  return ux * vy - uy * vx === 0 && ux * vx + uy * vy < 0;
}

/** A common point of two segments whose boxes meet, or null. */
function meetingPoint(
  ax: number,
  ay: number,
  bx: number,
  by: number,
  cx: number,
  cy: number,
  dx: number,
  dy: number,
): Point | null {
  const c = (bx - ax) * (cy - ay) - (by - ay) * (cx - ax);
  const d = (bx - ax) * (dy - ay) - (by - ay) * (dx - ax);
  if ((c > 0 && d > 0) || (c < 0 && d < 0)) return null;
  const a = (dx - cx) * (ay - cy) - (dy - cy) * (ax - cx);
  const b = (dx - cx) * (by - cy) - (dy - cy) * (bx - cx);
  if ((a > 0 && b > 0) || (a < 0 && b < 0)) return null;
  if (c !== d) {
    const u = c / (c - d);
    return { x: cx + (dx - cx) * u, y: cy + (dy - cy) * u };
  }
  // All on one line: the boxes meet, so an end of one lies on the other.
  const x = Math.max(Math.min(ax, bx), Math.min(cx, dx));
  const isSteep = Math.abs(by - ay) > Math.abs(bx - ax);
  const y = Math.max(Math.min(ay, by), Math.min(cy, dy));
  if (isSteep) return { x: ax + ((bx - ax) * (y - ay)) / (by - ay), y };
  return bx === ax ? { x: ax, y: ay } : { x, y: ay + ((by - ay) * (x - ax)) / (bx - ax) };
}
