import { type BitTree, isInside, nearestBit } from './bit-tree.ts';
import { type Bit, pointToSegment } from './bits.ts';

export interface Depth {
  readonly depth: number;
  readonly x: number;
  readonly y: number;
}

/** Halvings after which a bit is given up as touching; 2^-30 of any outline is below every tolerance. */
const DEEPEST_HALVING = 30;

/** Measurements for one pair of outlines; overlaps are found within a few hundred, and jigsaw contact needs some more. */
const MOST_MEASUREMENTS = 20_000;

/**
 * How deep the outline of one set reaches into another.
 * @param outline - the curves that may reach in.
 * @param other - the set; `inside` true asks for depth in its material, false for depth outside of it.
 * @param tolerance - depths up to it are not told apart, mm.
 * @returns the deepest place found and its distance from the other's outline; depth 0 when none is deeper than the tolerance.
 * @remarks Depth changes by no more than one moves along the outline, and along a straight bit the distance to one straight
 * edge is convex: both bound what a bit can hide, so bits are halved only where an answer is open.
 */
export function deepestPoint(outline: BitTree, other: BitTree, inside: boolean, tolerance: number): Depth {
  let best: Depth = { depth: 0, x: 0, y: 0 };
  let measured = 0;
  const measure = (bit: Bit, halvings: number): void => {
    if (measured++ > MOST_MEASUREMENTS) return;
    const x = (bit.x0 + bit.x1) / 2;
    const y = (bit.y0 + bit.y1) / 2;
    const near = nearestBit(other, x, y);
    const deep = isInside(other, x, y) === inside ? near.distance : -near.distance;
    // the true middle of a curved bit lies within the stray of the chord's middle
    if (deep - bit.stray > Math.max(tolerance, best.depth)) best = { depth: deep - bit.stray, x, y };
    const floor = Math.max(tolerance, best.depth * 1.05);
    const half = Math.hypot(bit.x1 - bit.x0, bit.y1 - bit.y0) / 2;
    if (deep + half + bit.stray <= floor) return;
    const edge = near.bit;
    const ends = Math.max(
      pointToSegment(bit.x0, bit.y0, edge.x0, edge.y0, edge.x1, edge.y1),
      pointToSegment(bit.x1, bit.y1, edge.x0, edge.y0, edge.x1, edge.y1),
    );
    if (ends + bit.stray + edge.stray <= floor || halvings >= DEEPEST_HALVING) return;
    for (const piece of bit.halves()) measure(piece, halvings + 1);
  };
  const visit = (t: BitTree): void => {
    if (inside && (t.minX > other.maxX || t.maxX < other.minX || t.minY > other.maxY || t.maxY < other.minY)) return;
    if (t.bit !== null) {
      measure(t.bit, 0);
      return;
    }
    visit(t.left!);
    visit(t.right!);
  };
  visit(outline);
  return best;
}

/** Bits whose inner side is looked at for coincidence; outlines that coincide do so along every bit. */
const MOST_SIDES = 64;
/** How far beside an outline its material is looked for, mm: ten times the check's tolerance. */
const BESIDE_MM = 0.01;
/** Cells per side of the grid that the depth of coinciding pieces is read from. */
const GRID = 9;

/**
 * Do two sets whose outlines run along one another share material? Pieces laid exactly on each other have no outline inside
 * the other, so the material beside the outline is looked at.
 * @returns a deep place of the common material, found on a grid; depth 0 when there is none.
 */
export function commonMaterial(a: BitTree, b: BitTree, tolerance: number): Depth {
  const bits: Bit[] = [];
  const collect = (t: BitTree): void => {
    if (t.bit !== null) bits.push(t.bit);
    else {
      collect(t.left!);
      collect(t.right!);
    }
  };
  collect(a);
  const step = Math.max(1, Math.floor(bits.length / MOST_SIDES));
  for (let i = 0; i < bits.length; i += step) {
    const bit = bits[i]!;
    const length = Math.hypot(bit.x1 - bit.x0, bit.y1 - bit.y0);
    if (length < BESIDE_MM || bit.stray > 10 * BESIDE_MM) continue;
    for (const side of [1, -1]) {
      const beside = (BESIDE_MM + bit.stray) * side;
      const x = (bit.x0 + bit.x1) / 2 - ((bit.y1 - bit.y0) / length) * beside;
      const y = (bit.y0 + bit.y1) / 2 + ((bit.x1 - bit.x0) / length) * beside;
      const depth = commonDepth(a, b, x, y);
      if (depth > tolerance) return deepestOnGrid(a, b, { depth, x, y });
    }
  }
  return { depth: 0, x: 0, y: 0 };
}

function commonDepth(a: BitTree, b: BitTree, x: number, y: number): number {
  if (!isInside(a, x, y) || !isInside(b, x, y)) return 0;
  return Math.min(nearestBit(a, x, y).distance, nearestBit(b, x, y).distance);
}

function deepestOnGrid(a: BitTree, b: BitTree, known: Depth): Depth {
  let best = known;
  for (let i = 0; i < GRID * GRID; i++) {
    const x = a.minX + ((a.maxX - a.minX) * ((i % GRID) + 0.5)) / GRID;
    const y = a.minY + ((a.maxY - a.minY) * (Math.floor(i / GRID) + 0.5)) / GRID;
    const depth = commonDepth(a, b, x, y);
    if (depth > best.depth) best = { depth, x, y };
  }
  return best;
}
