import { contourEnd, contourLength } from '@underlap/geometry/contour';
import type { Contour } from '@underlap/geometry/curve';
import type { Point } from '@underlap/geometry/point';

/** Most partners of one end that are looked at in a cell: where thousands of ends meet, the next ones in order do. */
const MOST_PARTNERS = 32;

/** More cells in a row than a drawing's extent over its rounding can have, so that two cell numbers fit one key. */
const CELLS_IN_A_ROW = 2 ** 25;

interface Pair {
  readonly a: number;
  readonly b: number;
}

/**
 * The ends of open curves and which of them are joined. End 2 i is the start of curve i, end 2 i + 1 its end.
 */
export class ChainEnds {
  /** The end each end is joined to, or -1. */
  readonly mate: Int32Array;
  readonly #curves: readonly Contour[];
  readonly #isLeftOut: (curve: number) => boolean;
  /** For a free end the free end at the other side of its chain. */
  readonly #far: Int32Array;

  constructor(curves: readonly Contour[], isLeftOut: (curve: number) => boolean) {
    this.#curves = curves;
    this.#isLeftOut = isLeftOut;
    this.mate = new Int32Array(curves.length * 2).fill(-1);
    this.#far = this.mate.map((_, end) => end ^ 1);
  }

  /**
   * Joins ends that are equal up to `rounding`. Ends with one possible partner first; where more meet, a chain whose own
   * ends meet is closed, then curves drawn one after the other are joined, and chains are closed as soon as they can be:
   * so two outlines that touch in a corner stay two.
   */
  joinEqual(rounding: number): void {
    const pairs = this.#pairsWithin(rounding);
    const partners = new Int32Array(this.mate.length);
    for (const { a, b } of pairs) {
      partners[a]!++;
      partners[b]!++;
    }
    for (const { a, b } of pairs) if (partners[a] === 1 && partners[b] === 1) this.#join(a, b);
    const crowded = pairs.filter(({ a, b }) => partners[a]! > 1 || partners[b]! > 1);
    for (const { a, b } of crowded) if (this.#far[a] === b) this.#join(a, b);
    crowded.sort((p, q) => stepsApart(p) - stepsApart(q) || p.a - q.a || p.b - q.b);
    for (const { a, b } of crowded) {
      if (!this.#join(a, b)) continue;
      const [c, d] = [this.#far[a]!, this.#far[b]!];
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

  #at(end: number): Point {
    const curve = this.#curves[end >> 1]!;
    return (end & 1) === 0 ? curve.start : contourEnd(curve);
  }

  #distance(a: number, b: number): number {
    const p = this.#at(a);
    const q = this.#at(b);
    return Math.hypot(p.x - q.x, p.y - q.y);
  }

  /** Free ends no further apart than `reach`, each pair once. A spatial hash with cells of that size. */
  #pairsWithin(reach: number): Pair[] {
    const free: number[] = [];
    let minX = Infinity;
    let minY = Infinity;
    for (let end = 0; end < this.mate.length; end++) {
      if (this.mate[end] !== -1 || this.#isLeftOut(end >> 1)) continue;
      free.push(end);
      const { x, y } = this.#at(end);
      minX = Math.min(minX, x);
      minY = Math.min(minY, y);
    }
    const column = ({ x }: Point) => Math.floor((x - minX) / reach) + 1;
    const row = ({ y }: Point) => Math.floor((y - minY) / reach) + 1;
    const cells = new Map<number, number[]>();
    for (const end of free) {
      const at = this.#at(end);
      const key = column(at) * CELLS_IN_A_ROW + row(at);
      const cell = cells.get(key);
      if (cell === undefined) cells.set(key, [end]);
      else cell.push(end);
    }
    const pairs: Pair[] = [];
    for (const a of free) {
      const at = this.#at(a);
      const [cx, cy] = [column(at), row(at)];
      for (let dx = -1; dx <= 1; dx++) {
        for (let dy = -1; dy <= 1; dy++) {
          const cell = cells.get((cx + dx) * CELLS_IN_A_ROW + cy + dy);
          if (cell === undefined) continue;
          for (const b of nextInOrder(cell, a)) {
            if (this.#distance(a, b) <= reach && !this.#isSpeck(a, b, reach)) pairs.push({ a, b });
          }
        }
      }
    }
    return pairs;
  }

  /** A curve hardly longer than the reach must not be closed onto itself: it is a piece of something. */
  #isSpeck(a: number, b: number, reach: number): boolean {
    return a >> 1 === b >> 1 && contourLength(this.#curves[a >> 1]!) < 4 * reach;
  }
}

/** How far apart two ends' curves were drawn; a curve's own two ends come after all others. */
function stepsApart({ a, b }: Pair): number {
  return a >> 1 === b >> 1 ? Infinity : Math.abs((b >> 1) - (a >> 1));
}

/** Ends after `a` in drawing order; the cell is ascending, so a bounded window keeps crowds linear. */
function nextInOrder(cell: readonly number[], a: number): readonly number[] {
  if (cell.length === 1) return cell[0]! > a ? cell : [];
  let low = 0;
  let high = cell.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (cell[middle]! <= a) low = middle + 1;
    else high = middle;
  }
  return cell.slice(low, low + MOST_PARTNERS);
}
