import type { Contour, Segment } from '@underlap/geometry/curve';
import type { Point } from '@underlap/geometry/point';
import { closedUp } from './close-curve.ts';
import type { SplineData } from './spline-data.ts';

/** The C2 cubic spline through the points: one tridiagonal system for the derivatives (Thomas, Sherman-Morrison when closed). */
export function throughPoints({ fits, isClosed, startTangent, endTangent }: SplineData): Contour | null {
  const points = fits.filter((p, i) => i === 0 || p.x !== fits[i - 1]!.x || p.y !== fits[i - 1]!.y);
  const first = points[0]!;
  const last = points.at(-1)!;
  const meets = points.length > 2 && first.x === last.x && first.y === last.y;
  if (isClosed && !meets && points.length > 1) points.push(first);
  const closed = (isClosed || meets) && points.length > 3;
  const n = points.length - 1;
  if (n < 1) return null;
  const step = Array.from({ length: n }, (_, i) => {
    const p = points[i]!;
    const q = points[i + 1]!;
    return Math.hypot(q.x - p.x, q.y - p.y);
  });
  if (step.some((length) => !(length > 0))) return null;
  const ends = { start: unit(startTangent), end: unit(endTangent) };
  const along = (pick: (p: Point) => number): number[] => {
    const values = points.map(pick);
    if (closed) return periodicDerivatives(values, step);
    return openDerivatives(values, step, ends.start && pick(ends.start), ends.end && pick(ends.end));
  };
  const dx = along((p) => p.x);
  const dy = along((p) => p.y);
  const segments: Segment[] = step.map((h, i) => {
    const p = points[i]!;
    const q = points[i + 1]!;
    return {
      kind: 'cubic',
      c1: { x: p.x + (dx[i]! * h) / 3, y: p.y + (dy[i]! * h) / 3 },
      c2: { x: q.x - (dx[i + 1]! * h) / 3, y: q.y - (dy[i + 1]! * h) / 3 },
      to: q,
    };
  });
  return closedUp(first, segments, isClosed || meets);
}

function openDerivatives(values: number[], step: number[], start: number | null, end: number | null): number[] {
  const n = step.length;
  const low: number[] = [0];
  const diagonal: number[] = [start === null ? 2 : 1];
  const high: number[] = [start === null ? 1 : 0];
  const right: number[] = [start ?? (3 * (values[1]! - values[0]!)) / step[0]!];
  for (let i = 1; i < n; i++) pushInner(low, diagonal, high, right, values, step, i - 1, i);
  low.push(end === null ? 1 : 0);
  diagonal.push(end === null ? 2 : 1);
  high.push(0);
  right.push(end ?? (3 * (values[n]! - values[n - 1]!)) / step[n - 1]!);
  return thomas(low, diagonal, high, right);
}

function periodicDerivatives(values: number[], step: number[]): number[] {
  const n = step.length;
  const low: number[] = [];
  const diagonal: number[] = [];
  const high: number[] = [];
  const right: number[] = [];
  for (let i = 0; i < n; i++) pushInner(low, diagonal, high, right, values, step, (i + n - 1) % n, i);
  // The corners of the cyclic system are split off as u v^T (Sherman and Morrison).
  const gamma = -diagonal[0]!;
  const cornerHigh = low[0]!;
  const cornerLow = high[n - 1]!;
  diagonal[0]! -= gamma;
  diagonal[n - 1]! -= (cornerHigh * cornerLow) / gamma;
  const u = right.map((_, i) => (i === 0 ? gamma : i === n - 1 ? cornerLow : 0));
  const y = thomas(low, diagonal, high, right);
  const z = thomas(low, diagonal, high, u);
  const share = cornerHigh / gamma;
  const factor = (y[0]! + share * y[n - 1]!) / (1 + z[0]! + share * z[n - 1]!);
  const derivatives = y.map((value, i) => value - factor * z[i]!);
  return [...derivatives, derivatives[0]!];
}

/** The row that makes the second derivative continuous at point i, between the steps `before` and `after`. */
function pushInner(
  low: number[],
  diagonal: number[],
  high: number[],
  right: number[],
  values: number[],
  step: number[],
  before: number,
  after: number,
): void {
  const h = step[before]!;
  const k = step[after]!;
  low.push(1 / h);
  diagonal.push(2 / h + 2 / k);
  high.push(1 / k);
  const slopeBefore = (values[before + 1]! - values[before]!) / (h * h);
  const slopeAfter = (values[after + 1]! - values[after]!) / (k * k);
  right.push(3 * (slopeBefore + slopeAfter));
}

function thomas(
  low: readonly number[],
  diagonal: readonly number[],
  high: readonly number[],
  right: readonly number[],
): number[] {
  const n = right.length;
  const c = new Array<number>(n);
  const d = new Array<number>(n);
  for (let i = 0; i < n; i++) {
    const below = i === 0 ? 0 : low[i]!;
    const pivot = diagonal[i]! - below * (i === 0 ? 0 : c[i - 1]!);
    c[i] = high[i]! / pivot;
    d[i] = (right[i]! - below * (i === 0 ? 0 : d[i - 1]!)) / pivot;
  }
  for (let i = n - 2; i >= 0; i--) d[i] = d[i]! - c[i]! * d[i + 1]!;
  return d;
}

function unit(vector: Point | null): Point | null {
  const length = vector === null ? 0 : Math.hypot(vector.x, vector.y);
  return vector === null || length === 0 ? null : { x: vector.x / length, y: vector.y / length };
}
