import type { Point } from '@underlap/geometry/point';
import type { Ring } from '@underlap/geometry/ring';
import { evenSamples } from './even-samples.ts';
import { type Nearest, NearestEdge } from './nearest-edge.ts';
import type { RingMoments } from './ring-signature.ts';

/** A pose, and what is left between the rings. */
export interface Alignment extends Pose {
  /** Largest and mean (root of squares) distance left. */
  readonly errorMm: number;
  readonly rmsMm: number;
  readonly insetMm: number;
}

/** How thoroughly rings are compared: points sampled along each, and most steps of registration. */
export interface AlignEffort {
  readonly samples: number;
  readonly steps: number;
}

/** Where registration starts: centroids laid on one another at a given turn. */
export interface AlignmentStart {
  readonly turn: number;
  readonly from: RingMoments;
  readonly to: RingMoments;
}

/** Stop once a step moves less than this, mm and radians. */
const SETTLED = 1e-9;

/**
 * Refine a turn and a move so that the ring's points come to lie on the target's edges, up to one constant inset.
 * @remarks Gauss-Newton on signed point-to-edge distances: quadratic near an exact match, averages out drawing noise.
 * O(steps x samples x edges).
 */
export function alignRings(
  ring: Ring,
  target: Ring,
  start: AlignmentStart,
  largestInsetMm: number,
  { samples, steps }: AlignEffort,
): Alignment {
  const points = evenSamples(ring, samples, true);
  const first = { turn: start.turn, ...moveFor(start.turn, start) };
  const settled = settle(points, target, first, { pivot: start.from.centre, withInset: largestInsetMm > 0, steps });
  return measure(points, evenSamples(target, samples, true), ring, target, settled, largestInsetMm);
}

/** A turn (radians, about the origin) followed by a move. */
export interface Pose {
  readonly turn: number;
  readonly x: number;
  readonly y: number;
}

/** How points are laid on a ring. */
export interface SettleOptions {
  /** Where turns are measured, before they are moved. */
  readonly pivot: Point;
  /** May they lie at a constant distance from the ring? */
  readonly withInset: boolean;
  readonly steps: number;
}

/** Move and turn points until they lie on the target's edges, up to one constant inset. O(steps x points x edges). */
export function settle(points: Float64Array, target: Ring, from: Pose, options: SettleOptions): Pose {
  const { pivot, withInset, steps } = options;
  const edges = new NearestEdge(target);
  let { turn, x, y } = from;
  const near: Nearest = { distance: 0, nx: 0, ny: 0 };
  for (let step = 0; step < steps; step++) {
    const cos = Math.cos(turn);
    const sin = Math.sin(turn);
    const pivotX = cos * pivot.x - sin * pivot.y + x;
    const pivotY = sin * pivot.x + cos * pivot.y + y;
    const normal = new Float64Array(20);
    for (let i = 0; i < points.length; i += 2) {
      const px = cos * points[i]! - sin * points[i + 1]! + x;
      const py = sin * points[i]! + cos * points[i + 1]! + y;
      edges.find(px, py, near);
      const lever = near.ny * (px - pivotX) - near.nx * (py - pivotY);
      addRow(normal, [near.nx, near.ny, lever, 1], -near.distance);
    }
    const delta = solve(normal, withInset);
    const dTurn = delta[2]!;
    const c = Math.cos(dTurn);
    const s = Math.sin(dTurn);
    const nextX = pivotX + delta[0]! + c * (x - pivotX) - s * (y - pivotY);
    const nextY = pivotY + delta[1]! + s * (x - pivotX) + c * (y - pivotY);
    x = nextX;
    y = nextY;
    turn += dTurn;
    if (Math.abs(delta[0]!) + Math.abs(delta[1]!) + Math.abs(dTurn) < SETTLED) break;
  }
  return { turn, x, y };
}

/** Both ways: ring to target and target to ring, the common inset taken off. */
function measure(
  points: Float64Array,
  targetPoints: Float64Array,
  ring: Ring,
  target: Ring,
  at: { turn: number; x: number; y: number },
  largestInsetMm: number,
): Alignment {
  const cos = Math.cos(at.turn);
  const sin = Math.sin(at.turn);
  const near: Nearest = { distance: 0, nx: 0, ny: 0 };
  const distances: number[] = [];
  const edges = new NearestEdge(target);
  for (let i = 0; i < points.length; i += 2) {
    const px = cos * points[i]! - sin * points[i + 1]! + at.x;
    const py = sin * points[i]! + cos * points[i + 1]! + at.y;
    edges.find(px, py, near);
    distances.push(near.distance);
  }
  const own = new NearestEdge(ring);
  for (let i = 0; i < targetPoints.length; i += 2) {
    const dx = targetPoints[i]! - at.x;
    const dy = targetPoints[i + 1]! - at.y;
    own.find(cos * dx + sin * dy, -sin * dx + cos * dy, near);
    distances.push(-near.distance);
  }
  const mean = distances.reduce((sum, distance) => sum + distance, 0) / distances.length;
  const insetMm = Math.abs(mean) <= largestInsetMm ? mean : 0;
  const errorMm = distances.reduce((most, distance) => Math.max(most, Math.abs(distance - insetMm)), 0);
  const squares = distances.reduce((sum, distance) => sum + (distance - insetMm) ** 2, 0);
  return { ...at, errorMm, rmsMm: Math.sqrt(squares / distances.length), insetMm };
}

function moveFor(turn: number, start: AlignmentStart): { x: number; y: number } {
  const { from, to } = start;
  return {
    x: to.centre.x - (Math.cos(turn) * from.centre.x - Math.sin(turn) * from.centre.y),
    y: to.centre.y - (Math.sin(turn) * from.centre.x + Math.cos(turn) * from.centre.y),
  };
}

/** Add one row of the least-squares system to its packed normal equations (4 x 4, then right side). */
function addRow(normal: Float64Array, row: readonly number[], value: number): void {
  for (let i = 0; i < 4; i++) {
    for (let j = 0; j < 4; j++) normal[4 * i + j]! += row[i]! * row[j]!;
    normal[16 + i]! += row[i]! * value;
  }
}

/** Solve the normal equations; a little damping keeps circles (free turn) solvable. The fourth unknown is the inset. */
function solve(normal: Float64Array, withInset: boolean): Float64Array {
  const size = withInset ? 4 : 3;
  const m: number[][] = [];
  for (let i = 0; i < size; i++) {
    const row: number[] = [];
    for (let j = 0; j < size; j++) row.push(normal[4 * i + j]! + (i === j ? 1e-9 * (1 + normal[4 * i + i]!) : 0));
    row.push(normal[16 + i]!);
    m.push(row);
  }
  for (let column = 0; column < size; column++) {
    let pivot = column;
    for (let r = column + 1; r < size; r++) if (Math.abs(m[r]![column]!) > Math.abs(m[pivot]![column]!)) pivot = r;
    [m[column], m[pivot]] = [m[pivot]!, m[column]!];
    const lead = m[column]![column]!;
    if (Math.abs(lead) < 1e-300) continue;
    for (let r = 0; r < size; r++) {
      if (r === column) continue;
      const factor = m[r]![column]! / lead;
      for (let k = column; k <= size; k++) m[r]![k]! -= factor * m[column]![k]!;
    }
  }
  const out = new Float64Array(4);
  for (let i = 0; i < size; i++) out[i] = Math.abs(m[i]![i]!) < 1e-300 ? 0 : m[i]![size]! / m[i]![i]!;
  return out;
}
