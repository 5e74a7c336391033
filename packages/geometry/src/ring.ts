import { GeometryError } from './error.ts';

/**
 * A closed polygon as x0, y0, x1, y1, ... in mm without a repeated last point.
 * Outer rings have positive shoelace area, holes negative.
 */
export type Ring = Float64Array;

/** Smallest and largest coordinates of a shape, mm. */
export interface Bounds {
  readonly minX: number;
  readonly minY: number;
  readonly maxX: number;
  readonly maxY: number;
}

/** Signed shoelace area, mm2; measured from the first vertex so that far-away shapes keep their digits. O(n). */
export function ringArea(ring: Ring): number {
  const n = ring.length;
  if (n < 6) return 0;
  const ox = ring[0]!;
  const oy = ring[1]!;
  let twice = 0;
  let px = ring[n - 2]! - ox;
  let py = ring[n - 1]! - oy;
  for (let i = 0; i < n; i += 2) {
    const x = ring[i]! - ox;
    const y = ring[i + 1]! - oy;
    twice += px * y - x * py;
    px = x;
    py = y;
  }
  return twice / 2;
}

/** Length of the closed ring, mm. O(n). */
export function ringPerimeter(ring: Ring): number {
  const n = ring.length;
  let sum = 0;
  for (let i = 0; i < n; i += 2) {
    const j = (i + 2) % n;
    sum += Math.hypot(ring[j]! - ring[i]!, ring[j + 1]! - ring[i + 1]!);
  }
  return sum;
}

/** Bounding box of a ring; infinite and inverted for an empty one. O(n). */
export function ringBounds(ring: Ring): Bounds {
  let minX = Infinity;
  let minY = Infinity;
  let maxX = -Infinity;
  let maxY = -Infinity;
  for (let i = 0; i < ring.length; i += 2) {
    const x = ring[i]!;
    const y = ring[i + 1]!;
    if (x < minX) minX = x;
    if (x > maxX) maxX = x;
    if (y < minY) minY = y;
    if (y > maxY) maxY = y;
  }
  return { minX, minY, maxX, maxY };
}

/** A copy with the vertices in opposite order. */
export function reversedRing(ring: Ring): Ring {
  const n = ring.length;
  const out = new Float64Array(n);
  for (let i = 0; i < n; i += 2) {
    out[i] = ring[n - 2 - i]!;
    out[i + 1] = ring[n - 1 - i]!;
  }
  return out;
}

/** The ring itself when its area has the wanted sign, else a reversed copy. */
export function orientedRing(ring: Ring, sign: 1 | -1): Ring {
  return ringArea(ring) * sign >= 0 ? ring : reversedRing(ring);
}

/**
 * Is the point inside by the even-odd rule? Points on the edge may be told either way: use a distance where that matters.
 * @remarks O(n).
 */
export function isInRing(ring: Ring, x: number, y: number): boolean {
  let inside = false;
  const n = ring.length;
  let px = ring[n - 2]!;
  let py = ring[n - 1]!;
  for (let i = 0; i < n; i += 2) {
    const qx = ring[i]!;
    const qy = ring[i + 1]!;
    if (qy > y !== py > y && x < ((px - qx) * (y - qy)) / (py - qy) + qx) inside = !inside;
    px = qx;
    py = qy;
  }
  return inside;
}

/** @throws GeometryError `non-finite` naming the vertex. */
export function assertFiniteRing(ring: Ring, name: string): void {
  for (let i = 0; i < ring.length; i++) {
    if (!Number.isFinite(ring[i]!)) {
      throw new GeometryError('non-finite', `${name} has a coordinate that is not a finite number`, `vertex ${i >> 1}`);
    }
  }
}
