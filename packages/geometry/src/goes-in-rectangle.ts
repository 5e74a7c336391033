import { GeometryError } from './error.ts';
import { convexHull } from './hull.ts';
import { assertFiniteRing, type Ring } from './ring.ts';

/**
 * A part may exceed the rectangle by this much and still fits, mm: a part exactly as large as the bed must fit in spite of
 * rounding, and nothing that matters to a machine is this small.
 */
const FIT_SLACK_MM = 1e-6;

/** All turns from `fromDeg` to `toDeg`, both included, degrees within 0..180 (a half turn changes nothing). */
export interface TurnInterval {
  readonly fromDeg: number;
  readonly toDeg: number;
}

/**
 * Every turn (from +x towards +y) at which the points fit a rectangle of width x height, exactly.
 * @param points - mm, any set of vertices; only their hull matters.
 * @param width, height - mm, > 0; Infinity when material passes through in that direction.
 * @returns disjoint intervals in rising order; empty when no turn fits.
 * @throws GeometryError `non-finite`, `out-of-range`.
 * @remarks Two hull points at distance d in direction p are wider than W exactly at turns nearer than acos(W / d) to -p (modulo
 * 180 degrees), and taller than H nearer than acos(H / d) to 90 - p; what no pair forbids fits. O(n log n + h^2) for h hull points.
 */
export function feasibleTurns(points: Ring, width: number, height: number): TurnInterval[] {
  if (!(width > 0) || !(height > 0)) {
    throw new GeometryError('out-of-range', `a rectangle needs positive sides: ${width} x ${height}`);
  }
  assertFiniteRing(points, 'the outline');
  const hull = convexHull(points);
  const forbidden = forbiddenTurns(hull, width + FIT_SLACK_MM, height + FIT_SLACK_MM);
  return complement(forbidden);
}

/** Is there a turn at which the points fit the rectangle? */
export function goesInRectangle(points: Ring, width: number, height: number): boolean {
  return feasibleTurns(points, width, height).length > 0;
}

/** Open intervals of forbidden turns in radians within 0..pi, flat from, to, ..., not sorted. */
function forbiddenTurns(hull: Ring, width: number, height: number): number[] {
  const out: number[] = [];
  const n = hull.length;
  const least = Math.min(width, height);
  const leastSquared = least * least;
  for (let i = 0; i < n; i += 2) {
    for (let j = i + 2; j < n; j += 2) {
      const dx = hull[j]! - hull[i]!;
      const dy = hull[j + 1]! - hull[i + 1]!;
      const squared = dx * dx + dy * dy;
      if (squared <= leastSquared) continue;
      const distance = Math.sqrt(squared);
      const direction = Math.atan2(dy, dx);
      if (distance > width) forbid(out, -direction, Math.acos(width / distance));
      if (distance > height) forbid(out, Math.PI / 2 - direction, Math.acos(height / distance));
    }
  }
  return out;
}

function forbid(out: number[], middle: number, reach: number): void {
  const from = modulo(middle - reach, Math.PI);
  const to = from + 2 * reach;
  if (to <= Math.PI) out.push(from, to);
  else out.push(from, Math.PI, 0, to - Math.PI);
}

function complement(forbidden: readonly number[]): TurnInterval[] {
  const count = forbidden.length / 2;
  const order = Array.from({ length: count }, (_, index) => index).sort(
    (i, j) => forbidden[2 * i]! - forbidden[2 * j]!,
  );
  const free: TurnInterval[] = [];
  let reached = 0;
  for (const index of order) {
    const from = forbidden[2 * index]!;
    if (from > reached) free.push({ fromDeg: toDegrees(reached), toDeg: toDegrees(from) });
    reached = Math.max(reached, forbidden[2 * index + 1]!);
  }
  if (reached < Math.PI) free.push({ fromDeg: toDegrees(reached), toDeg: 180 });
  return free;
}

function toDegrees(angle: number): number {
  return (angle * 180) / Math.PI;
}

function modulo(value: number, period: number): number {
  const rest = value % period;
  return rest < 0 ? rest + period : rest;
}
