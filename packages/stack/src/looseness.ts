import { type Ring, ringArea } from '@underlap/geometry/ring';
import { evenSamples } from './even-samples.ts';
import { type Nearest, NearestEdge } from './nearest-edge.ts';

/** Points along the ring, and rounds of the power method: a 3 x 3 problem settles at once. */
const RING_POINTS = 120;
const ROUNDS = 30;
/** Nothing is drawn better than chords follow curves, mm. */
const LEAST_ERROR_MM = 0.005;
/** Keeps a motion that nothing holds finite. */
const DAMPING = 1e-7;

/**
 * How far a ring may lie off its place when only the given points on its outline are known, and those but roughly.
 * @param points - on the ring, mm.
 * @param rmsMm - how far they lie off it (root of mean squares).
 * @returns mm: the root mean square shift across the whole outline by the motion that the points hold worst. A turn of a disc about
 * its centre shifts nothing.
 * @remarks Largest generalised eigenvalue of two 3 x 3 matrices (normal shifts per unit of motion). O(points x edges).
 */
export function looseness(ring: Ring, points: Float64Array, rmsMm: number): number {
  const whole = evenSamples(ring, RING_POINTS, true);
  const reach = Math.sqrt(Math.abs(ringArea(ring)));
  const pivot = { x: points[0]!, y: points[1]! };
  const held = shifts(ring, points, pivot, reach);
  const moved = shifts(ring, whole, pivot, reach);
  const trace = moved[0]![0]! + moved[1]![1]! + moved[2]![2]!;
  for (let i = 0; i < 3; i++) held[i]![i]! += DAMPING * trace;
  let motion = [1, 0.7, 0.4];
  let ratio = 0;
  for (let round = 0; round < ROUNDS; round++) {
    const next = solved(held, times(moved, motion));
    const size = Math.hypot(...next);
    if (size === 0) return 0;
    motion = next.map((value) => value / size);
    ratio = dot(motion, times(moved, motion)) / dot(motion, times(held, motion));
  }
  return Math.max(rmsMm, LEAST_ERROR_MM) * Math.sqrt(ratio);
}

/** Mean products of the normal shifts of points on the ring, by a move in x, in y and a turn about the pivot. */
function shifts(ring: Ring, points: Float64Array, pivot: { x: number; y: number }, reach: number): number[][] {
  const edges = new NearestEdge(ring);
  const near: Nearest = { distance: 0, nx: 0, ny: 0 };
  const out = [
    [0, 0, 0],
    [0, 0, 0],
    [0, 0, 0],
  ];
  const n = points.length / 2;
  for (let i = 0; i < points.length; i += 2) {
    const [x, y] = [points[i]!, points[i + 1]!];
    edges.find(x, y, near);
    const row = [near.nx, near.ny, (near.ny * (x - pivot.x) - near.nx * (y - pivot.y)) / reach];
    for (let j = 0; j < 3; j++) for (let k = 0; k < 3; k++) out[j]![k]! += (row[j]! * row[k]!) / n;
  }
  return out;
}

function times(matrix: readonly (readonly number[])[], vector: readonly number[]): number[] {
  return matrix.map((row) => dot(row, vector));
}

function dot(a: readonly number[], b: readonly number[]): number {
  return a[0]! * b[0]! + a[1]! * b[1]! + a[2]! * b[2]!;
}

/** Cramer's rule: three unknowns, a matrix that damping keeps regular. */
function solved(m: readonly (readonly number[])[], v: readonly number[]): number[] {
  const column = (k: number): number[] => [m[0]![k]!, m[1]![k]!, m[2]![k]!];
  const [a, b, c] = [column(0), column(1), column(2)];
  const all = determinant(a, b, c);
  return [determinant(v, b, c) / all, determinant(a, v, c) / all, determinant(a, b, v) / all];
}

function determinant(a: readonly number[], b: readonly number[], c: readonly number[]): number {
  return (
    a[0]! * (b[1]! * c[2]! - c[1]! * b[2]!) -
    b[0]! * (a[1]! * c[2]! - c[1]! * a[2]!) +
    c[0]! * (a[1]! * b[2]! - b[1]! * a[2]!)
  );
}
