import { IntList } from '@underlap/geometry/growing-list';
import { CellBuckets } from '../cell-buckets.ts';
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
    const buckets = new CellBuckets(ends);
    const { x, y } = this.#curves;
    const bucketOf = (end: number, dx: number, dy: number): number =>
      buckets.bucketOf(Math.floor(x[end]! / reach) + dx, Math.floor(y[end]! / reach) + dy);
    const isFree = (end: number): boolean => this.mate[end] === -1 && !this.#isLeftOut(end >> 1);
    for (let end = 0; end < ends; end++) if (isFree(end)) buckets.add(end, bucketOf(end, 0, 0));
    const pairs: Pairs = { a: new IntList(), b: new IntList() };
    for (let end = 0; end < ends; end++) {
      if (!isFree(end)) continue;
      this.#pairUp(pairs, end, buckets.after(end), buckets, reach);
      for (const [dx, dy] of FORWARD) this.#pairUp(pairs, end, buckets.first(bucketOf(end, dx, dy)), buckets, reach);
    }
    return pairs;
  }

  /** Pairs `end` with the ends of a bucket from `from` on, as far as they are near. */
  #pairUp(pairs: Pairs, end: number, from: number, buckets: CellBuckets, reach: number): void {
    let looks = MOST_LOOKS;
    for (let other = from; other !== -1 && looks > 0; other = buckets.after(other), looks--) {
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
