import type { OutlineSample } from './terminals.ts';

/** A convex set as half-planes nx x + ny y <= c (unit normals), flat: nx, ny, c, ... */
export type Convex = Float64Array;

/** Two convex sets that together hold a face: the seam runs where they overlap, so that either side fits in its own set. */
export interface Halves {
  readonly a: Convex;
  readonly b: Convex;
  /** Pieces that the two sides are expected to become. */
  readonly pieces: number;
  /** A seam keeps this far inside both sets: room for its knobs beyond what the sets leave already, mm. */
  readonly inset: number;
}

/** Room that is left beside a seam for its knobs: on either side, or on one side only, where the piece beyond it takes them all. */
export interface KnobRoom {
  readonly rho: number;
  readonly oneSided: boolean;
}

/** Kept inside a set even where no knob will stand, mm. */
export const LEAST_INSET_MM = 1;

/** The set with every side moved inwards. */
export function shrunkSet(set: Convex, by: number): Convex {
  return set.map((value, index) => (index % 3 === 2 ? value - by : value));
}

/** How far the point lies inside all half-planes; negative outside. */
export function depthIn(set: Convex, x: number, y: number): number {
  let least = Infinity;
  for (let i = 0; i < set.length; i += 3) {
    const depth = set[i + 2]! - set[i]! * x - set[i + 1]! * y;
    if (depth < least) least = depth;
  }
  return least;
}

/** Half-plane: everything with ux x + uy y <= c. */
export function halfPlane(ux: number, uy: number, c: number): Convex {
  return Float64Array.of(ux, uy, c);
}

/** A rectangle turned by the angle: x0..x1 along (cos, sin), y0..y1 across. */
export function turnedBox(angle: number, x0: number, x1: number, y0: number, y1: number): Convex {
  const cos = Math.cos(angle);
  const sin = Math.sin(angle);
  const sides = [
    [cos, sin, x1],
    [-cos, -sin, -x0],
    [-sin, cos, y1],
    [sin, -cos, -y0],
  ].filter((side) => Number.isFinite(side[2]!));
  return Float64Array.from(sides.flat());
}

/** Two stretches of outline a seam must join to part the face: sample indices from..to (wrapping round when from > to). */
export interface Gap {
  readonly before: readonly [number, number];
  readonly after: readonly [number, number];
}

/**
 * Where a seam may begin and end so that everything outside `b` lands on one side and everything outside `a` on the other.
 * @returns one gap for every run of outline that a single seam can part from the rest; empty when some of the outline lies
 * outside both sets or one of them holds everything.
 * @remarks O(samples). The union of two convex sets has no hole, so outline samples decide for the whole face.
 */
export function gapsBetween(samples: readonly OutlineSample[], halves: Halves): Gap[] {
  const n = samples.length;
  const runs: { label: 1 | 2; first: number; last: number }[] = [];
  for (let i = 0; i < n; i++) {
    const { x, y } = samples[i]!;
    const inA = depthIn(halves.a, x, y) >= 0;
    const inB = depthIn(halves.b, x, y) >= 0;
    if (inA && inB) continue;
    if (!inA && !inB) return [];
    const label = inA ? 1 : 2;
    const open = runs[runs.length - 1];
    if (open !== undefined && open.label === label) open.last = i;
    else runs.push({ label, first: i, last: i });
  }
  if (runs.length > 1 && runs[0]!.label === runs[runs.length - 1]!.label) {
    const tail = runs.pop()!;
    runs[0] = { label: runs[0]!.label, first: tail.first, last: runs[0]!.last };
  }
  if (runs.length < 2) return [];
  const count = runs.length === 2 ? 1 : runs.length;
  const gaps: Gap[] = [];
  for (let k = 0; k < count; k++) {
    const run = runs[k]!;
    const previous = runs[(k + runs.length - 1) % runs.length]!;
    const following = runs[(k + 1) % runs.length]!;
    gaps.push({
      before: [(previous.last + 1) % n, (run.first + n - 1) % n],
      after: [(run.last + 1) % n, (following.first + n - 1) % n],
    });
  }
  return gaps;
}

/** Does the index lie in from..to, counted upwards round the ring of n? An empty stretch has to = from - 1. */
export function isInStretch(index: number, [from, to]: readonly [number, number], n: number): boolean {
  const span = (to - from + n) % n;
  if ((from - to + n) % n === 1) return false;
  return (index - from + n) % n <= span;
}
