import type { Ring } from './ring.ts';

/** Edges are bundled this many at a time under one box, so that far-apart stretches are skipped together. */
const BUNDLE = 8;

/** Distance from point p to the segment a-b, mm. */
export function distancePointToSegment(px: number, py: number, ax: number, ay: number, bx: number, by: number): number {
  const dx = bx - ax;
  const dy = by - ay;
  const squared = dx * dx + dy * dy;
  const along = squared > 0 ? ((px - ax) * dx + (py - ay) * dy) / squared : 0;
  const t = Math.max(0, Math.min(1, along));
  return Math.hypot(px - ax - t * dx, py - ay - t * dy);
}

/** Distance from a point to the outline of a ring (not to its area: 0 only on the edge), mm. O(n). */
export function distancePointToRing(px: number, py: number, ring: Ring): number {
  let best = Infinity;
  const n = ring.length;
  for (let i = 0; i < n; i += 2) {
    const j = (i + 2) % n;
    best = Math.min(best, distancePointToSegment(px, py, ring[i]!, ring[i + 1]!, ring[j]!, ring[j + 1]!));
  }
  return best;
}

/** Distance between the segments a-b and c-d, mm; 0 when they share a point. */
export function distanceBetweenSegments(
  ax: number,
  ay: number,
  bx: number,
  by: number,
  cx: number,
  cy: number,
  dx: number,
  dy: number,
): number {
  if (segmentsMeet(ax, ay, bx, by, cx, cy, dx, dy)) return 0;
  return Math.min(
    distancePointToSegment(ax, ay, cx, cy, dx, dy),
    distancePointToSegment(bx, by, cx, cy, dx, dy),
    distancePointToSegment(cx, cy, ax, ay, bx, by),
    distancePointToSegment(dx, dy, ax, ay, bx, by),
  );
}

/**
 * Smallest distance between the outlines of two rings, mm; 0 when they share a point. A ring inside another has a distance too.
 * @remarks Worst case O(n m); edges are bundled under boxes and pairs of bundles farther than the best so far are skipped,
 * which makes separate outlines nearly linear.
 */
export function distanceBetweenRings(a: Ring, b: Ring): number {
  return outlineDistance(a, b, -1);
}

/** Do the outlines share a point (crossing, touching or overlapping)? A ring wholly inside another does not cross it. */
export function ringsCross(a: Ring, b: Ring): boolean {
  return outlineDistance(a, b, 0) === 0;
}

/** `enough`: pairs of bundles farther apart than this are never looked at when it is 0 or more. */
function outlineDistance(a: Ring, b: Ring, enough: number): number {
  const boxesA = bundleBoxes(a);
  const boxesB = bundleBoxes(b);
  let best = enough >= 0 ? enough + Number.MIN_VALUE : Infinity;
  const order: { gap: number; i: number; j: number }[] = [];
  const nearA = bundlesNear(boxesA, boxAround(boxesB), best);
  const nearB = bundlesNear(boxesB, boxAround(boxesA), best);
  for (const i of nearA) {
    for (const j of nearB) {
      const gap = boxGap(boxesA, i, boxesB, j);
      if (gap < best) order.push({ gap, i: i >> 2, j: j >> 2 });
    }
  }
  order.sort((p, q) => p.gap - q.gap);
  for (const { gap, i, j } of order) {
    if (gap >= best) break;
    best = Math.min(best, bundleDistance(a, i, b, j, best));
    if (best === 0) return 0;
  }
  return best;
}

function bundleDistance(a: Ring, bundleA: number, b: Ring, bundleB: number, limit: number): number {
  let best = limit;
  const na = a.length;
  const nb = b.length;
  const endA = Math.min(na, 2 * BUNDLE * (bundleA + 1));
  const endB = Math.min(nb, 2 * BUNDLE * (bundleB + 1));
  for (let i = 2 * BUNDLE * bundleA; i < endA; i += 2) {
    const ax = a[i]!;
    const ay = a[i + 1]!;
    const bx = a[(i + 2) % na]!;
    const by = a[(i + 3) % na]!;
    for (let j = 2 * BUNDLE * bundleB; j < endB; j += 2) {
      const cx = b[j]!;
      const cy = b[j + 1]!;
      const dx = b[(j + 2) % nb]!;
      const dy = b[(j + 3) % nb]!;
      if (
        Math.min(ax, bx) - Math.max(cx, dx) > best ||
        Math.min(cx, dx) - Math.max(ax, bx) > best ||
        Math.min(ay, by) - Math.max(cy, dy) > best ||
        Math.min(cy, dy) - Math.max(ay, by) > best
      )
        continue;
      best = Math.min(best, distanceBetweenSegments(ax, ay, bx, by, cx, cy, dx, dy));
      if (best === 0) return 0;
    }
  }
  return best;
}

/** minX, minY, maxX, maxY of every bundle of edges. */
function bundleBoxes(ring: Ring): Float64Array {
  const n = ring.length / 2;
  const count = Math.ceil(n / BUNDLE);
  const boxes = new Float64Array(4 * count);
  for (let bundle = 0; bundle < count; bundle++) {
    let minX = Infinity;
    let minY = Infinity;
    let maxX = -Infinity;
    let maxY = -Infinity;
    const last = Math.min(n, BUNDLE * (bundle + 1));
    for (let vertex = BUNDLE * bundle; vertex <= last; vertex++) {
      const at = 2 * (vertex % n);
      minX = Math.min(minX, ring[at]!);
      maxX = Math.max(maxX, ring[at]!);
      minY = Math.min(minY, ring[at + 1]!);
      maxY = Math.max(maxY, ring[at + 1]!);
    }
    boxes.set([minX, minY, maxX, maxY], 4 * bundle);
  }
  return boxes;
}

/** One box around all bundles. */
function boxAround(boxes: Float64Array): Float64Array {
  const around = Float64Array.of(Infinity, Infinity, -Infinity, -Infinity);
  for (let i = 0; i < boxes.length; i += 4) {
    around[0] = Math.min(around[0]!, boxes[i]!);
    around[1] = Math.min(around[1]!, boxes[i + 1]!);
    around[2] = Math.max(around[2]!, boxes[i + 2]!);
    around[3] = Math.max(around[3]!, boxes[i + 3]!);
  }
  return around;
}

/** Offsets of the bundles that come nearer than `limit` to the box: a small ring in a large one is far from most of it. */
function bundlesNear(boxes: Float64Array, box: Float64Array, limit: number): number[] {
  const near: number[] = [];
  for (let i = 0; i < boxes.length; i += 4) if (boxGap(boxes, i, box, 0) < limit) near.push(i);
  return near;
}

function boxGap(a: Float64Array, i: number, b: Float64Array, j: number): number {
  const dx = Math.max(0, a[i]! - b[j + 2]!, b[j]! - a[i + 2]!);
  const dy = Math.max(0, a[i + 1]! - b[j + 3]!, b[j + 1]! - a[i + 3]!);
  return Math.hypot(dx, dy);
}

function segmentsMeet(
  ax: number,
  ay: number,
  bx: number,
  by: number,
  cx: number,
  cy: number,
  dx: number,
  dy: number,
): boolean {
  const c = side(ax, ay, bx, by, cx, cy);
  const d = side(ax, ay, bx, by, dx, dy);
  const a = side(cx, cy, dx, dy, ax, ay);
  const b = side(cx, cy, dx, dy, bx, by);
  // Touching and collinear cases come out as a zero distance of an end point.
  return ((c > 0 && d < 0) || (c < 0 && d > 0)) && ((a > 0 && b < 0) || (a < 0 && b > 0));
}

function side(ax: number, ay: number, bx: number, by: number, px: number, py: number): number {
  return (bx - ax) * (py - ay) - (by - ay) * (px - ax);
}
