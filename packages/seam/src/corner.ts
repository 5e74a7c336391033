import type { Point } from '@underlap/geometry/point';

/** Discs are tried this far apart along the seam, in radii. */
const STEP_RADII = 0.125;

/** Beyond this a corner is a sliver whatever follows, in radii. */
const FARTHEST_RADII = 4;

/**
 * How far a seam that leaves the outline must run before a disc fits between it and the outline: tells a wedge from a corner,
 * however the outline bends on.
 * @param outline - the outline on both sides of the end, flat x, y, ...; straight between its points.
 * @param way - unit direction of the seam, into the wood.
 * @param radius - of the disc, mm.
 * @returns in radii, the worse of both sides: 1 where the seam leaves a straight outline at a right angle, cot(a / 2) at the angle a,
 * at most 4.
 * @remarks O(points x places).
 */
export function cornerDepth(outline: Float64Array, at: Point, way: Point, radius: number): number {
  return Math.max(sideDepth(outline, at, way, radius, 1), sideDepth(outline, at, way, radius, -1));
}

function sideDepth(outline: Float64Array, at: Point, way: Point, radius: number, side: 1 | -1): number {
  const least = (radius - RADIUS_SLACK_MM) ** 2;
  for (let depth = 1 - STEP_RADII; depth < FARTHEST_RADII; depth += STEP_RADII) {
    const x = at.x + radius * (depth * way.x - side * way.y);
    const y = at.y + radius * (depth * way.y + side * way.x);
    if (isFarther(outline, x, y, least)) return Math.max(1, depth);
  }
  return FARTHEST_RADII;
}

/** Chords of a curved outline run this much inside it, mm. */
const RADIUS_SLACK_MM = 0.06;

function isFarther(outline: Float64Array, x: number, y: number, squared: number): boolean {
  for (let i = 0; i + 3 < outline.length; i += 2) {
    const ax = outline[i]!;
    const ay = outline[i + 1]!;
    const dx = outline[i + 2]! - ax;
    const dy = outline[i + 3]! - ay;
    const size = dx * dx + dy * dy;
    const u = size > 0 ? Math.min(1, Math.max(0, ((x - ax) * dx + (y - ay) * dy) / size)) : 0;
    const ex = x - ax - u * dx;
    const ey = y - ay - u * dy;
    if (ex * ex + ey * ey < squared) return false;
  }
  return true;
}
