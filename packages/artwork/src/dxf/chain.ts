import { contourEnd, contourLength, reversedContour, segmentPoint } from '@underlap/geometry/contour';
import type { Contour, Segment } from '@underlap/geometry/curve';
import type { Point } from '@underlap/geometry/point';
import { ChainEnds } from './chain-ends.ts';

/** Ends that lie nearer than this share of the drawing are the same point written with rounded digits, not a gap. */
const ROUNDING_SHARE = 1e-7;

/** Places of curves that are compared to find the same curve drawn twice. */
const PROBES = [0.25, 0.5, 0.75] as const;

/** Different curves with the same ends and length are rare; a crowd of them is not searched without end. */
const MOST_RIVALS = 16;

/** One chain of curves joined at their ends. `members` are indices into the input, in the order of the chain. */
export interface Chain {
  readonly contour: Contour;
  readonly members: readonly number[];
}

export interface Chained {
  readonly chains: readonly Chain[];
  /** Curves that lie exactly on another one of the input and were left out, each with the index of the one kept. */
  readonly doubles: readonly { readonly index: number; readonly keeps: number }[];
}

/**
 * Joins open curves whose ends are equal into chains, closed where they close. The way they are drawn does not matter:
 * curves are turned round as needed. Gaps wider than rounding are not closed here; that is a repair.
 * @param curves - open contours; not modified.
 * @param size - extent of the drawing, to tell rounding from gaps.
 * @param dropsDoubles - leave out a curve that lies exactly on another one.
 * @returns chains in the order of their first curve.
 * @remarks O(n) expected for n curves; O(n log n) where ends crowd.
 */
export function chainCurves(curves: readonly Contour[], size: number, dropsDoubles: boolean): Chained {
  const rounding = Math.max(size * ROUNDING_SHARE, Number.MIN_VALUE);
  const doubles = dropsDoubles ? findDoubles(curves, rounding) : [];
  const left = new Set(doubles.map(({ index }) => index));
  const ends = new ChainEnds(curves, (index) => left.has(index));
  ends.joinEqual(rounding);
  return { chains: walk(curves, left, ends), doubles };
}

/** The same curve twice, in either direction. Candidates share a cell of their ends and length; then all is compared. */
function findDoubles(curves: readonly Contour[], rounding: number): { index: number; keeps: number }[] {
  const seen = new Map<string, number[]>();
  const doubles: { index: number; keeps: number }[] = [];
  const cell = rounding * 4;
  curves.forEach((curve, index) => {
    const end = contourEnd(curve);
    // Symmetric in the two ends, so that the direction does not matter.
    const sums = [curve.start.x + end.x, curve.start.y + end.y, Math.abs(curve.start.x - end.x), contourLength(curve)];
    const key = sums.map((value) => Math.round(value / cell)).join();
    const rivals = seen.get(key);
    if (rivals === undefined) {
      seen.set(key, [index]);
      return;
    }
    const keeps = rivals.find((rival) => isSameCurve(curves[rival]!, curve, rounding));
    if (keeps === undefined) {
      if (rivals.length < MOST_RIVALS) rivals.push(index);
    } else doubles.push({ index, keeps });
  });
  return doubles;
}

function isSameCurve(a: Contour, b: Contour, rounding: number): boolean {
  if (a.segments.length !== b.segments.length) return false;
  const isNear = (p: Point, q: Point): boolean => Math.hypot(p.x - q.x, p.y - q.y) <= 2 * rounding;
  return [b, reversedContour(b)].some((other) => {
    if (!isNear(a.start, other.start)) return false;
    let [p, q] = [a.start, other.start];
    return a.segments.every((segment, i) => {
      const twin = other.segments[i]!;
      const isSame = PROBES.every((u) => isNear(segmentPoint(p, segment, u), segmentPoint(q, twin, u)));
      [p, q] = [segment.to, twin.to];
      return isSame && isNear(p, q);
    });
  });
}

function walk(curves: readonly Contour[], left: ReadonlySet<number>, ends: ChainEnds): Chain[] {
  const isUsed = new Uint8Array(curves.length);
  const chains: Chain[] = [];
  const begin = (firstEnd: number): void => {
    const members: number[] = [];
    const entered: number[] = [];
    let end = firstEnd;
    let isLoop = false;
    for (;;) {
      const index = end >> 1;
      isUsed[index] = 1;
      members.push(index);
      entered.push(end);
      const next = ends.mate[end ^ 1]!;
      if (next === -1) break;
      if (isUsed[next >> 1]) {
        isLoop = next === firstEnd;
        break;
      }
      end = next;
    }
    chains.push({ contour: joined(curves, entered, isLoop), members });
  };
  // Chains with loose ends first from their loose end, then the loops; each in drawing order.
  for (let index = 0; index < curves.length; index++) {
    if (left.has(index) || isUsed[index]) continue;
    if (ends.mate[2 * index] === -1) begin(2 * index);
    else if (ends.mate[2 * index + 1] === -1) begin(2 * index + 1);
  }
  for (let index = 0; index < curves.length; index++) {
    if (!left.has(index) && !isUsed[index]) begin(2 * index);
  }
  const first = new Map(chains.map((chain) => [chain, chain.members.reduce((least, index) => Math.min(least, index))]));
  return chains.sort((p, q) => first.get(p)! - first.get(q)!);
}

/** The curves in a row as one contour; what is left of rounding is taken into the end points. */
function joined(curves: readonly Contour[], entered: readonly number[], isLoop: boolean): Contour {
  const parts = entered.map((end) => ((end & 1) === 0 ? curves[end >> 1]! : reversedContour(curves[end >> 1]!)));
  const { start } = parts[0]!;
  const segments: Segment[] = [];
  parts.forEach((part, index) => {
    const next = parts[index + 1]?.start ?? (isLoop ? start : null);
    for (const segment of part.segments) segments.push(segment);
    const last = segments.at(-1);
    if (next !== null && last !== undefined) segments[segments.length - 1] = { ...last, to: next };
  });
  return { start, segments, closed: isLoop };
}
