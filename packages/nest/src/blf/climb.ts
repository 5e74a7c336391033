import type { Profile } from '../shape/profile.ts';

/** Overlap that counts as touching, mm: far below the accuracy asked of a layout, far above rounding. */
export const TOUCH_MM = 1e-6;

/** A covered set at a place. */
export interface Standing {
  readonly profile: Profile;
  readonly x: number;
  readonly y: number;
}

/**
 * Lowest y >= fromY at which the moving profile, its origin at x, overlaps none of the standing ones.
 * @returns NaN when there is none up to maxY.
 * @remarks Each pair of spans that overlap forbids one whole interval of y, so jumping to its end never skips a free place.
 * O(jumps x columns).
 */
export function climb(moving: Profile, x: number, fromY: number, maxY: number, standing: readonly Standing[]): number {
  let y = fromY;
  let clear = 0;
  const count = standing.length;
  if (count === 0) return y <= maxY + TOUCH_MM ? y : Number.NaN;
  for (let k = 0; clear < count; k = k + 1 === count ? 0 : k + 1) {
    const moved = liftOver(moving, x, y, standing[k]!);
    if (moved > y) {
      y = moved;
      if (y > maxY + TOUCH_MM) return Number.NaN;
      clear = 0;
    } else {
      clear++;
    }
  }
  return y > maxY ? maxY : y;
}

/** y raised until the moving profile is clear of one standing profile. */
function liftOver(moving: Profile, x: number, startY: number, standing: Standing): number {
  const still = standing.profile;
  const dx = standing.x - x;
  let y = startY;
  if (moving.minY + y >= still.maxY + standing.y - TOUCH_MM) return y;
  if (moving.maxY + y <= still.minY + standing.y + TOUCH_MM) return y;
  const a = moving.edges;
  const b = still.edges;
  // first columns that reach past the other's left side
  let i = firstColumnBeyond(moving, still.minX + dx);
  let j = firstColumnBeyond(still, moving.minX - dx);
  while (i < moving.columns && j < still.columns) {
    const aEnd = a[i + 1]!;
    const bEnd = b[j + 1]! + dx;
    const overlap = Math.min(aEnd, bEnd) - Math.max(a[i]!, b[j]! + dx);
    if (overlap > TOUCH_MM) y = liftColumn(moving, i, still, j, standing.y, y);
    if (aEnd <= bEnd) i++;
    else j++;
  }
  return y;
}

function liftColumn(moving: Profile, i: number, still: Profile, j: number, stillY: number, startY: number): number {
  let y = startY;
  const a = moving.spans;
  const b = still.spans;
  const aTo = moving.from[i + 1]!;
  const bFrom = still.from[j]!;
  const bTo = still.from[j + 1]!;
  for (let again = true; again; ) {
    again = false;
    for (let p = moving.from[i]!; p < aTo; p += 2) {
      for (let q = bFrom; q < bTo; q += 2) {
        const top = b[q + 1]! + stillY;
        if (a[p]! + y < top - TOUCH_MM && a[p + 1]! + y > b[q]! + stillY + TOUCH_MM) {
          y = top - a[p]!;
          again = aTo - moving.from[i]! > 2;
        }
      }
    }
  }
  return y;
}

/** Index of the column that x lies in; -1 outside. */
export function columnAt(profile: Profile, x: number): number {
  if (x < profile.minX || x > profile.maxX) return -1;
  return Math.min(profile.columns - 1, firstColumnBeyond(profile, x));
}

/** Index of the first column whose right edge lies beyond x; binary search. */
function firstColumnBeyond(profile: Profile, x: number): number {
  const edges = profile.edges;
  let lo = 0;
  let hi = profile.columns;
  while (lo < hi) {
    const middle = (lo + hi) >> 1;
    if (edges[middle + 1]! > x) hi = middle;
    else lo = middle + 1;
  }
  return lo;
}
