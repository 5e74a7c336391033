import { reversedContour, segmentPoint } from '@underlap/geometry/contour';
import type { ContourView } from '@underlap/geometry/curve';
import type { Point } from '@underlap/geometry/point';
import { CellBuckets } from '../cell-buckets.ts';
import type { CurveRow, MeasuredCurves } from './measured-curves.ts';

/** Places of curves that are compared to find the same curve drawn twice. */
const PROBES = [0.25, 0.5, 0.75] as const;

/** Different curves with the same ends and length are rare; a crowd of them is not searched without end. */
const MOST_RIVALS = 16;

/** A curve that lies exactly on another one, and the index of the one kept. */
export interface DoubleCurve {
  readonly index: number;
  readonly keeps: number;
}

/**
 * The same curve twice, in either direction. Candidates share a cell of their ends and length; then all is compared.
 * @remarks O(n) expected; 12 bytes for a curve.
 */
export function findDoubleCurves(curves: CurveRow, measured: MeasuredCurves, rounding: number): DoubleCurve[] {
  const cell = rounding * 4;
  const buckets = new CellBuckets(curves.length);
  const doubles: DoubleCurve[] = [];
  for (let index = 0; index < curves.length; index++) {
    const at = (which: number): number => cellOf(measured, index, which, cell);
    const bucket = buckets.bucketOf(at(0), at(1), at(2), at(3));
    let rivals = 0;
    let keeps = -1;
    for (let rival = buckets.first(bucket); rival !== -1 && keeps === -1; rival = buckets.after(rival)) {
      if (!isSameCell(measured, rival, index, cell)) continue;
      rivals++;
      if (isSameCurve(curves.at(rival), curves.at(index), rounding)) keeps = rival;
    }
    if (keeps !== -1) doubles.push({ index, keeps });
    else if (rivals < MOST_RIVALS) buckets.add(index, bucket);
  }
  return doubles;
}

/** Sums and differences of the two ends, so that the direction does not matter; then the length. */
function cellOf({ x, y, length }: MeasuredCurves, index: number, which: number, cell: number): number {
  const [start, end] = [2 * index, 2 * index + 1];
  if (which === 0) return Math.round((x[start]! + x[end]!) / cell);
  if (which === 1) return Math.round((y[start]! + y[end]!) / cell);
  return Math.round((which === 2 ? Math.abs(x[start]! - x[end]!) : length[index]!) / cell);
}

function isSameCell(measured: MeasuredCurves, a: number, b: number, cell: number): boolean {
  for (let which = 0; which < 4; which++) {
    if (cellOf(measured, a, which, cell) !== cellOf(measured, b, which, cell)) return false;
  }
  return true;
}

function isSameCurve(a: ContourView, b: ContourView, rounding: number): boolean {
  if (a.segments.length !== b.segments.length) return false;
  return runsAlong(a, b, 2 * rounding) || runsAlong(a, reversedContour(b), 2 * rounding);
}

function runsAlong(a: ContourView, b: ContourView, reach: number): boolean {
  if (!isNear(a.start, b.start, reach)) return false;
  const twins = b.segments[Symbol.iterator]();
  let [p, q] = [a.start, b.start];
  for (const segment of a.segments) {
    const { value: twin } = twins.next();
    for (const u of PROBES) {
      if (!isNear(segmentPoint(p, segment, u), segmentPoint(q, twin, u), reach)) return false;
    }
    [p, q] = [segment.to, twin.to];
    if (!isNear(p, q, reach)) return false;
  }
  return true;
}

function isNear(p: Point, q: Point, reach: number): boolean {
  return Math.hypot(p.x - q.x, p.y - q.y) <= reach;
}
