import { reversedContour, transformSegment } from '@underlap/geometry/contour';
import type { ContourView } from '@underlap/geometry/curve';
import { IntList } from '@underlap/geometry/growing-list';
import { apply, type Matrix } from '@underlap/geometry/matrix';
import type { SegmentPacker } from '@underlap/geometry/packed-segments';
import { ChainEnds } from './chain-ends.ts';
import { type DoubleCurve, findDoubleCurves } from './double-curves.ts';
import { type CurveRow, measureCurves } from './measured-curves.ts';

/** Ends that lie nearer than this share of the drawing are the same point written with rounded digits, not a gap. */
const ROUNDING_SHARE = 1e-7;

export interface Chained {
  readonly chains: Chains;
  /** Curves that lie exactly on another one of the input and were left out, each with the index of the one kept. */
  readonly doubles: readonly DoubleCurve[];
}

/**
 * Joins open curves whose ends are equal into chains, closed where they close. The way they are drawn does not matter:
 * curves are turned round as needed. Gaps wider than rounding are not closed here; that is a repair.
 * @param curves - open contours; not modified.
 * @param size - extent of the drawing, to tell rounding from gaps.
 * @param dropsDoubles - leave out a curve that lies exactly on another one.
 * @remarks O(n) expected for n curves; O(n log n) where ends crowd. About 130 bytes for a curve.
 */
export function chainCurves(curves: CurveRow, size: number, dropsDoubles: boolean): Chained {
  const rounding = Math.max(size * ROUNDING_SHARE, Number.MIN_VALUE);
  const measured = measureCurves(curves);
  const doubles = dropsDoubles ? findDoubleCurves(curves, measured, rounding) : [];
  const left = new Set(doubles.map(({ index }) => index));
  const ends = new ChainEnds(measured, (index) => left.has(index));
  ends.joinEqual(rounding);
  return { chains: new Chains(curves, left, ends), doubles };
}

/** Curves joined at their ends, chain after chain. */
export class Chains {
  private readonly curves: CurveRow;
  /** The ends at which the curves are entered, all chains in a row, and where each chain begins among them. */
  private readonly entered = new IntList();
  private readonly begins = new IntList();
  private readonly loops = new IntList();
  private readonly firsts = new IntList();

  constructor(curves: CurveRow, left: ReadonlySet<number>, ends: ChainEnds) {
    this.curves = curves;
    const isUsed = new Uint8Array(curves.length);
    // Chains with loose ends first from their loose end, then the loops; each in drawing order.
    for (let index = 0; index < curves.length; index++) {
      if (left.has(index) || isUsed[index]) continue;
      if (ends.mate[2 * index] === -1) this.follow(2 * index, ends, isUsed);
      else if (ends.mate[2 * index + 1] === -1) this.follow(2 * index + 1, ends, isUsed);
    }
    for (let index = 0; index < curves.length; index++) {
      if (!left.has(index) && !isUsed[index]) this.follow(2 * index, ends, isUsed);
    }
    this.begins.push(this.entered.length);
  }

  get length(): number {
    return this.firsts.length;
  }

  /** The first of its curves in drawing order. */
  first(chain: number): number {
    return this.firsts.get(chain);
  }

  /** How many curves it is made of. */
  count(chain: number): number {
    return this.begins.get(chain + 1) - this.begins.get(chain);
  }

  /**
   * The curves in a row as one contour; what is left of rounding is taken into the end points.
   * @param matrix - from the curves' coordinates to those wanted.
   * @param packer - holds the segments.
   */
  contour(chain: number, matrix: Matrix, packer: SegmentPacker): ContourView {
    const [from, to] = [this.begins.get(chain), this.begins.get(chain + 1)];
    const closed = this.loops.get(chain) === 1;
    const { start, segments } = this.piece(from);
    const placedStart = apply(matrix, start);
    for (const segment of segments) packer.add(transformSegment(segment, matrix));
    for (let i = from + 1; i < to; i++) {
      const next = this.piece(i);
      packer.moveEnd(apply(matrix, next.start));
      for (const segment of next.segments) packer.add(transformSegment(segment, matrix));
    }
    if (closed) packer.moveEnd(placedStart);
    return { start: placedStart, segments: packer.take(), closed };
  }

  private piece(at: number): ContourView {
    const end = this.entered.get(at);
    const curve = this.curves.at(end >> 1);
    return (end & 1) === 0 ? curve : reversedContour(curve);
  }

  private follow(firstEnd: number, ends: ChainEnds, isUsed: Uint8Array): void {
    this.begins.push(this.entered.length);
    let end = firstEnd;
    let first = end >> 1;
    let isLoop = false;
    for (;;) {
      const index = end >> 1;
      isUsed[index] = 1;
      first = Math.min(first, index);
      this.entered.push(end);
      const next = ends.mate[end ^ 1]!;
      if (next === -1) break;
      if (isUsed[next >> 1]) {
        isLoop = next === firstEnd;
        break;
      }
      end = next;
    }
    this.loops.push(isLoop ? 1 : 0);
    this.firsts.push(first);
  }
}
