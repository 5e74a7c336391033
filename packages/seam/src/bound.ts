import { distancePointToRing } from '@underlap/geometry/distance';
import { convexHull } from '@underlap/geometry/hull';
import { isInRegion, type Region, regionArea } from '@underlap/geometry/region';
import type { Ring } from '@underlap/geometry/ring';
import { commonBox, roughlyGoesIn } from './goes-in.ts';
import { distanceField, type Grid, rasterMask } from './grid.ts';
import type { SeamTask } from './task.ts';

/** Rounding must never turn 2 into 3. */
const SLACK = 1e-6;

/**
 * A number of pieces that no split can go below.
 * @param disc - radius of a disc known to lie in the part (0 when none is known), mm.
 * @returns the largest of: area over the largest piece's area; diameter of the part over the bed's diagonal (a connected part
 * is covered by connected pieces, each no longer than the diagonal); width of a disc in the part, or of the part itself when it
 * is convex, over the bed's shorter side (Bang's plank theorem, 1951); and outline points so far apart that no two share a piece.
 * @remarks O(h^2) for h hull points.
 */
export function piecesLowerBound(task: SeamTask, disc: number): number {
  const hull = convexHull(task.region.outer);
  if (roughlyGoesIn(hull, task.limits, task.kerf)) return 1;
  const { long, short } = commonBox(task.limits, task.kerf);
  let bound = 2;
  const raise = (value: number) => {
    if (Number.isFinite(value)) bound = Math.max(bound, Math.ceil(value - SLACK));
  };
  raise(regionArea(task.region) / (long * short));
  const diagonal = Math.min(
    ...task.limits.map((limit) => Math.hypot(limit.width - task.kerf, limit.height - task.kerf)),
  );
  if (Number.isFinite(diagonal)) {
    raise(diameter(hull) / diagonal);
    raise(farPoints(hull, diagonal));
  }
  raise((2 * disc) / short);
  if (isConvex(task.region)) raise(leastWidth(hull) / short);
  return bound;
}

/**
 * Radius of a disc inside a region: its middle is the grid point farthest from the edges, its radius measured exactly.
 * @remarks O(cells + edges).
 */
export function discWithin(region: Region, grid: Grid): number {
  const rings = [region.outer, ...region.holes];
  const edge = distanceField(grid, rings, true, Infinity);
  const inside = rasterMask(grid, rings);
  let cell = -1;
  for (let i = 0; i < edge.length; i++) if (inside[i] && (cell < 0 || edge[i]! > edge[cell]!)) cell = i;
  if (cell < 0) return 0;
  const x = grid.x0 + (cell % grid.cols) * grid.step;
  const y = grid.y0 + Math.floor(cell / grid.cols) * grid.step;
  if (!isInRegion(region, x, y)) return 0;
  return Math.min(...rings.map((ring) => distancePointToRing(x, y, ring)));
}

function diameter(hull: Ring): number {
  let most = 0;
  for (let i = 0; i < hull.length; i += 2) {
    for (let j = i + 2; j < hull.length; j += 2) {
      most = Math.max(most, Math.hypot(hull[j]! - hull[i]!, hull[j + 1]! - hull[i + 1]!));
    }
  }
  return most;
}

/** Points picked one after another, each farther than `apart` from all before: any such set proves a bound. */
function farPoints(hull: Ring, apart: number): number {
  let best = 0;
  const n = hull.length / 2;
  for (let first = 0; first < n; first += Math.max(1, Math.floor(n / 24))) {
    const picked = [first];
    for (;;) {
      let next = -1;
      let nearest = Infinity;
      // The candidate closest to the picked ones leaves the most room for further ones.
      for (let i = 0; i < n; i++) {
        const distance = Math.min(
          ...picked.map((j) => Math.hypot(hull[2 * i]! - hull[2 * j]!, hull[2 * i + 1]! - hull[2 * j + 1]!)),
        );
        if (distance > apart + SLACK && distance < nearest) {
          nearest = distance;
          next = i;
        }
      }
      if (next < 0) break;
      picked.push(next);
    }
    best = Math.max(best, picked.length);
  }
  return best;
}

function isConvex(region: Region): boolean {
  return region.holes.length === 0 && convexHull(region.outer).length >= region.outer.length - SLACK;
}

/** Least distance between parallel supporting lines: one of them runs along a hull edge. */
function leastWidth(hull: Ring): number {
  let least = Infinity;
  const n = hull.length;
  for (let i = 0; i < n; i += 2) {
    const j = (i + 2) % n;
    const dx = hull[j]! - hull[i]!;
    const dy = hull[j + 1]! - hull[i + 1]!;
    const size = Math.hypot(dx, dy);
    if (size < SLACK) continue;
    let most = 0;
    for (let k = 0; k < n; k += 2) {
      most = Math.max(most, Math.abs((hull[k]! - hull[i]!) * dy - (hull[k + 1]! - hull[i + 1]!) * dx) / size);
    }
    least = Math.min(least, most);
  }
  return least;
}
