import { isInRegion, type Region, regionBounds } from '@underlap/geometry/region';
import type { Ring } from '@underlap/geometry/ring';

/** A point of a region with the distance to its edge, mm. */
export interface RoomyPoint {
  readonly x: number;
  readonly y: number;
  readonly clearance: number;
}

/** Cells along the longer side of the first grid: finds every spot wider than a fortieth of the region. */
const GRID = 40;

/** Halvings of the search step round the best cell. */
const REFINEMENTS = 8;

/**
 * The point farthest from every edge (the pole of inaccessibility), for a number or a letter.
 * @param regions - disjoint, mm.
 * @returns null when no grid point lies inside, which only happens to slivers.
 * @remarks A grid and then a pattern search round its best point: O(grid x vertices). Good to a few percent, which is enough
 * for text; it is not a guaranteed optimum.
 */
export function roomiestPoint(regions: readonly Region[]): RoomyPoint | null {
  let best: RoomyPoint | null = null;
  for (const region of regions) {
    const found = roomiestOf(region);
    if (found !== null && (best === null || found.clearance > best.clearance)) best = found;
  }
  return best;
}

function roomiestOf(region: Region): RoomyPoint | null {
  const { minX, minY, maxX, maxY } = regionBounds(region);
  const step = Math.max(maxX - minX, maxY - minY) / GRID;
  if (!(step > 0)) return null;
  let best: RoomyPoint | null = null;
  const look = (x: number, y: number) => {
    if (!isInRegion(region, x, y)) return;
    const clearance = distanceToEdge(region, x, y);
    if (best === null || clearance > best.clearance) best = { x, y, clearance };
  };
  // Counted, not summed: a step below the last digit of a coordinate would never arrive.
  const rows = Math.min(GRID, Math.ceil((maxY - minY) / step));
  const columns = Math.min(GRID, Math.ceil((maxX - minX) / step));
  for (let r = 0; r < rows; r++)
    for (let c = 0; c < columns; c++) look(minX + (c + 0.5) * step, minY + (r + 0.5) * step);
  // The assignments happen in `look`, which the compiler does not follow.
  const found = best as RoomyPoint | null;
  if (found === null) return null;
  for (let k = 0, reach = step / 2; k < REFINEMENTS; k++, reach /= 2) {
    const { x, y } = best as unknown as RoomyPoint;
    for (const [dx, dy] of EIGHT_WAYS) look(x + dx * reach, y + dy * reach);
  }
  return best;
}

const EIGHT_WAYS: readonly (readonly [number, number])[] = [
  [1, 0],
  [1, 1],
  [0, 1],
  [-1, 1],
  [-1, 0],
  [-1, -1],
  [0, -1],
  [1, -1],
];

function distanceToEdge(region: Region, x: number, y: number): number {
  return Math.sqrt(
    region.holes.reduce(
      (least, hole) => Math.min(least, squaredDistance(hole, x, y)),
      squaredDistance(region.outer, x, y),
    ),
  );
}

function squaredDistance(ring: Ring, x: number, y: number): number {
  let least = Number.POSITIVE_INFINITY;
  const n = ring.length;
  let px = ring[n - 2]!;
  let py = ring[n - 1]!;
  for (let i = 0; i < n; i += 2) {
    const qx = ring[i]!;
    const qy = ring[i + 1]!;
    const dx = qx - px;
    const dy = qy - py;
    const square = dx * dx + dy * dy;
    const u = square > 0 ? Math.min(1, Math.max(0, ((x - px) * dx + (y - py) * dy) / square)) : 0;
    least = Math.min(least, (x - px - u * dx) ** 2 + (y - py - u * dy) ** 2);
    px = qx;
    py = qy;
  }
  return least;
}
