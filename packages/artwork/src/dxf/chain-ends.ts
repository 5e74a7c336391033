import { IntList } from '@underlap/geometry/growing-list';
import type { MeasuredCurves } from './measured-curves.ts';

/** Most ends of a bucket that one end is compared with: where thousands of ends meet, the next ones in order do. */
const MOST_LOOKS = 32;

/** The neighbours of a cell that come after it; the others come before it and have looked at it themselves. */
const FORWARD = [
  [1, 0],
  [-1, 1],
  [0, 1],
  [1, 1],
] as const;

/** Pairs of ends, the lower one first. */
interface Pairs {
  readonly a: IntList;
  readonly b: IntList;
}

/**
 * The ends of open curves and which of them are joined. End 2 i is the start of curve i, end 2 i + 1 its end.
 */
export class ChainEnds {
  /** The end each end is joined to, or -1. */
  readonly mate: Int32Array;
  readonly #curves: MeasuredCurves;
  readonly #isLeftOut: (curve: number) => boolean;
  /** For a free end the free end at the other side of its chain. */
  readonly #far: Int32Array;

  constructor(curves: MeasuredCurves, isLeftOut: (curve: number) => boolean) {
    this.#curves = curves;
    this.#isLeftOut = isLeftOut;
    this.mate = new Int32Array(curves.x.length).fill(-1);
    this.#far = this.mate.map((_, end) => end ^ 1);
  }

  /**
   * Joins ends that are equal up to `rounding`. Ends with one possible partner first; where more meet, a chain whose own
   * ends meet is closed, then curves drawn one after the other are joined, and chains are closed as soon as they can be:
   * so two outlines that touch in a corner stay two.
   */
  joinEqual(rounding: number): void {
    const { a, b } = this.#pairsWithin(rounding);
    // Counted to two: more is no different.
    const partners = new Uint8Array(this.mate.length);
    for (let i = 0; i < a.length; i++) {
      for (const end of [a.get(i), b.get(i)]) if (partners[end]! < 2) partners[end]!++;
    }
    const crowded: number[] = [];
    for (let i = 0; i < a.length; i++) {
      if (partners[a.get(i)] === 1 && partners[b.get(i)] === 1) this.#join(a.get(i), b.get(i));
      else crowded.push(i);
    }
    for (const i of crowded) if (this.#far[a.get(i)] === b.get(i)) this.#join(a.get(i), b.get(i));
    crowded.sort(
      (p, q) =>
        stepsApart(a.get(p), b.get(p)) - stepsApart(a.get(q), b.get(q)) || a.get(p) - a.get(q) || b.get(p) - b.get(q),
    );
    for (const i of crowded) {
      const [one, other] = [a.get(i), b.get(i)];
      if (!this.#join(one, other)) continue;
      const [c, d] = [this.#far[one]!, this.#far[other]!];
      if (c !== d && this.#distance(c, d) <= rounding) this.#join(c, d);
    }
  }

  #join(a: number, b: number): boolean {
    if (this.mate[a] !== -1 || this.mate[b] !== -1) return false;
    this.mate[a] = b;
    this.mate[b] = a;
    const [c, d] = [this.#far[a]!, this.#far[b]!];
    this.#far[c] = d;
    this.#far[d] = c;
    // Kept for the caller, who asks what became the chain's ends.
    this.#far[a] = c;
    this.#far[b] = d;
    return true;
  }

  #distance(a: number, b: number): number {
    const { x, y } = this.#curves;
    return Math.hypot(x[a]! - x[b]!, y[a]! - y[b]!);
  }

  /**
   * Free ends no further apart than `reach`, each pair once: a spatial hash with cells of that size, looked at with half of
   * the neighbours, so that each two cells meet once. Cells that share a bucket are told apart by the distance alone.
   */
  #pairsWithin(reach: number): Pairs {
    const ends = this.mate.length;
    const mask = 2 ** Math.floor(Math.log2(ends + 2)) - 1;
    const first = new Int32Array(mask + 1).fill(-1);
    const next = new Int32Array(ends).fill(-1);
    // Backwards, so that the ends of a bucket come in drawing order.
    for (let end = ends - 1; end >= 0; end--) {
      if (this.mate[end] !== -1 || this.#isLeftOut(end >> 1)) continue;
      const bucket = this.#bucketOf(end, 0, 0, reach, mask);
      next[end] = first[bucket]!;
      first[bucket] = end;
    }
    const pairs: Pairs = { a: new IntList(), b: new IntList() };
    for (let end = 0; end < ends; end++) {
      if (this.mate[end] !== -1 || this.#isLeftOut(end >> 1)) continue;
      this.#pairUp(pairs, end, next[end]!, next, reach);
      for (const [dx, dy] of FORWARD) {
        const bucket = this.#bucketOf(end, dx, dy, reach, mask);
        this.#pairUp(pairs, end, first[bucket]!, next, reach);
      }
    }
    return pairs;
  }

  /** Bucket of an end's cell, or of the cell that is dx, dy further. */
  #bucketOf(end: number, dx: number, dy: number, reach: number, mask: number): number {
    const { x, y } = this.#curves;
    return bucketOf(Math.floor(x[end]! / reach) + dx, Math.floor(y[end]! / reach) + dy, mask);
  }

  /** Pairs `end` with the ends of a bucket from `from` on, as far as they are near. */
  #pairUp(pairs: Pairs, end: number, from: number, next: Int32Array, reach: number): void {
    let looks = MOST_LOOKS;
    for (let other = from; other !== -1 && looks > 0; other = next[other]!, looks--) {
      if (other === end || this.#distance(end, other) > reach || this.#isSpeck(end, other, reach)) continue;
      pairs.a.push(Math.min(end, other));
      pairs.b.push(Math.max(end, other));
    }
  }

  /** A curve hardly longer than the reach must not be closed onto itself: it is a piece of something. */
  #isSpeck(a: number, b: number, reach: number): boolean {
    return a >> 1 === b >> 1 && this.#curves.length[a >> 1]! < 4 * reach;
  }
}

/** How far apart two ends' curves were drawn; a curve's own two ends come after all others. */
function stepsApart(a: number, b: number): number {
  return a >> 1 === b >> 1 ? Infinity : Math.abs((b >> 1) - (a >> 1));
}

function bucketOf(column: number, row: number, mask: number): number {
  return (Math.imul(column, 0x9e3779b1) ^ Math.imul(row, 0x85ebca6b)) & mask;
}
