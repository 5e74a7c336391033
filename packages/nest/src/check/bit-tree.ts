import { type Bit, pointToSegment } from './bits.ts';

/** Accuracy of distances, mm: a hundredth of the tolerance of the check. */
const ACCURACY_MM = 1e-5;

/** A binary tree of boxes over the bits of closed curves, in the order of the curves, so that near bits share a branch. */
export interface BitTree {
  readonly minX: number;
  readonly minY: number;
  readonly maxX: number;
  readonly maxY: number;
  readonly bit: Bit | null;
  readonly left: BitTree | null;
  readonly right: BitTree | null;
}

export interface Nearest {
  readonly distance: number;
  /** Where: a point between the two nearest places, mm. */
  readonly x: number;
  readonly y: number;
}

/** @param bits - at least one. O(n). */
export function treeOf(bits: readonly Bit[]): BitTree {
  return build(bits, 0, bits.length);
}

function build(bits: readonly Bit[], from: number, to: number): BitTree {
  if (to - from === 1) return leaf(bits[from]!);
  const middle = (from + to) >> 1;
  const left = build(bits, from, middle);
  const right = build(bits, middle, to);
  return {
    minX: Math.min(left.minX, right.minX),
    minY: Math.min(left.minY, right.minY),
    maxX: Math.max(left.maxX, right.maxX),
    maxY: Math.max(left.maxY, right.maxY),
    bit: null,
    left,
    right,
  };
}

function leaf(bit: Bit): BitTree {
  return {
    minX: Math.min(bit.x0, bit.x1) - bit.stray,
    minY: Math.min(bit.y0, bit.y1) - bit.stray,
    maxX: Math.max(bit.x0, bit.x1) + bit.stray,
    maxY: Math.max(bit.y0, bit.y1) + bit.stray,
    bit,
    left: null,
    right: null,
  };
}

/** Least distance that two boxes can have; 0 when they meet. */
export function boxDistance(a: BitTree, b: BitTree): number {
  const dx = Math.max(0, a.minX - b.maxX, b.minX - a.maxX);
  const dy = Math.max(0, a.minY - b.maxY, b.minY - a.maxY);
  return dx === 0 ? dy : dy === 0 ? dx : Math.hypot(dx, dy);
}

/**
 * Least distance between two sets of curves, 0 when they cross, to 1e-5 mm.
 * @param cutoff - distances above it need not be found.
 * @returns null when the distance is above the cutoff.
 * @remarks Branch and bound over both trees; curved bits are halved until their stray no longer matters.
 */
export function leastDistance(a: BitTree, b: BitTree, cutoff: number): Nearest | null {
  let best: Nearest | null = null;
  let limit = cutoff;
  const visit = (p: BitTree, q: BitTree): void => {
    if ((best !== null && limit === 0) || boxDistance(p, q) > limit) return;
    if (p.bit !== null && q.bit !== null) {
      compare(p.bit, q.bit);
      return;
    }
    const splitP =
      q.bit !== null || (p.bit === null && p.maxX - p.minX + p.maxY - p.minY >= q.maxX - q.minX + q.maxY - q.minY);
    const [first, second] = splitP ? [p.left!, p.right!] : [q.left!, q.right!];
    const other = splitP ? q : p;
    const d1 = boxDistance(first, other);
    const d2 = boxDistance(second, other);
    const [near, far] = d1 <= d2 ? [first, second] : [second, first];
    if (splitP) {
      visit(near, q);
      visit(far, q);
    } else {
      visit(p, near);
      visit(p, far);
    }
  };
  const compare = (p: Bit, q: Bit): void => {
    const chord = segmentDistance(p, q);
    const stray = p.stray + q.stray;
    if (chord.distance - stray > limit) return;
    if (stray <= ACCURACY_MM) {
      if (chord.distance <= limit) {
        best = chord;
        limit = chord.distance;
      }
      return;
    }
    if (p.stray >= q.stray) {
      for (const half of p.halves()) compare(half, q);
    } else {
      for (const half of q.halves()) compare(p, half);
    }
  };
  visit(a, b);
  return best;
}

/** Distance of a point from the curves, and the straight bit (chord) that is nearest. */
export function nearestBit(tree: BitTree, x: number, y: number): { distance: number; bit: Bit } {
  let distance = Number.POSITIVE_INFINITY;
  let found: Bit | null = null;
  const boxTo = (t: BitTree) => Math.hypot(Math.max(0, t.minX - x, x - t.maxX), Math.max(0, t.minY - y, y - t.maxY));
  const measure = (bit: Bit): void => {
    const d = pointToSegment(x, y, bit.x0, bit.y0, bit.x1, bit.y1);
    if (d - bit.stray >= distance) return;
    if (bit.stray <= ACCURACY_MM) {
      distance = d;
      found = bit;
      return;
    }
    for (const half of bit.halves()) measure(half);
  };
  const visit = (t: BitTree): void => {
    if (boxTo(t) >= distance) return;
    if (t.bit !== null) {
      measure(t.bit);
      return;
    }
    const swap = boxTo(t.right!) < boxTo(t.left!);
    visit(swap ? t.right! : t.left!);
    visit(swap ? t.left! : t.right!);
  };
  visit(tree);
  return { distance, bit: found! };
}

/**
 * Is a point inside the closed curves, by even-odd along a ray to +x? Points within the accuracy of a curve may be told
 * either way; callers look at the distance first.
 */
export function isInside(tree: BitTree, x: number, y: number): boolean {
  let inside = false;
  const cross = (bit: Bit): void => {
    const minY = Math.min(bit.y0, bit.y1) - bit.stray;
    const maxY = Math.max(bit.y0, bit.y1) + bit.stray;
    if (y < minY || y > maxY || x > Math.max(bit.x0, bit.x1) + bit.stray) return;
    if (bit.stray > ACCURACY_MM / 10 && x >= Math.min(bit.x0, bit.x1) - bit.stray) {
      for (const half of bit.halves()) cross(half);
      return;
    }
    // wholly to the right, or straight: the ends decide
    if (bit.y0 > y === bit.y1 > y) return;
    if (bit.x0 + ((y - bit.y0) / (bit.y1 - bit.y0)) * (bit.x1 - bit.x0) > x) inside = !inside;
  };
  const visit = (t: BitTree): void => {
    if (y < t.minY || y > t.maxY || x > t.maxX) return;
    if (t.bit !== null) {
      cross(t.bit);
      return;
    }
    visit(t.left!);
    visit(t.right!);
  };
  visit(tree);
  return inside;
}

function segmentDistance(p: Bit, q: Bit): Nearest {
  const d1 = side(q, p.x0, p.y0);
  const d2 = side(q, p.x1, p.y1);
  const d3 = side(p, q.x0, q.y0);
  const d4 = side(p, q.x1, q.y1);
  if (d1 * d2 < 0 && d3 * d4 < 0) {
    const t = d1 / (d1 - d2);
    return { distance: 0, x: p.x0 + (p.x1 - p.x0) * t, y: p.y0 + (p.y1 - p.y0) * t };
  }
  let best = { distance: Number.POSITIVE_INFINITY, x: 0, y: 0 };
  const take = (x: number, y: number, bit: Bit) => {
    const distance = pointToSegment(x, y, bit.x0, bit.y0, bit.x1, bit.y1);
    if (distance < best.distance) best = { distance, x, y };
  };
  take(p.x0, p.y0, q);
  take(p.x1, p.y1, q);
  take(q.x0, q.y0, p);
  take(q.x1, q.y1, p);
  return best;
}

function side(bit: Bit, x: number, y: number): number {
  return (bit.x1 - bit.x0) * (y - bit.y0) - (bit.y1 - bit.y0) * (x - bit.x0);
}
