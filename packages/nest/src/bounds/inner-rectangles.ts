import type { Region } from '@underlap/geometry/region';
import { isInRegion } from '@underlap/geometry/region';
import { ringBounds } from '@underlap/geometry/ring';

/** Cells per side of the grid on which rectangles are first found. */
const GRID = 48;
/** What flattening may have added to a region at inward bends, mm. */
const FLATTENING_MM = 0.02;

export interface Size {
  readonly width: number;
  readonly height: number;
}

/**
 * Rectangles with sides along the axes that lie wholly in the material of a region: the largest, the tallest and the widest
 * useful ones. Each is a true part of the piece, so what holds for packing rectangles holds for them.
 * @remarks Found on a grid of cells that no edge touches, then widened to the outline: O(edges x grid + grid^3).
 */
export function innerRectangles(region: Region, isExact: boolean): Size[] {
  const b = ringBounds(region.outer);
  const cw = (b.maxX - b.minX) / GRID;
  const ch = (b.maxY - b.minY) / GRID;
  const free = freeCells(region, b.minX, b.minY, cw, ch);
  const sizes: Size[] = [];
  const take = (weight: (w: number, h: number) => number) => {
    const box = bestBox(free, (columns, rows) => weight(columns * cw, rows * ch));
    if (box === null) return;
    const wide = widen(region, b.minX + box.x0 * cw, b.minY + box.y0 * ch, b.minX + box.x1 * cw, b.minY + box.y1 * ch);
    const shrink = isExact ? 1e-9 : FLATTENING_MM;
    const size = { width: wide.maxX - wide.minX - shrink, height: wide.maxY - wide.minY - shrink };
    if (size.width > 0 && size.height > 0) sizes.push(size);
  };
  take((w, h) => w * h);
  take((w, h) => Math.min(w, h) ** 2 * 1e3 + w * h);
  take((w, h) => w * w * h);
  take((w, h) => w * h * h);
  return sizes;
}

/** Cells whose closed box no edge meets and whose middle lies in the material. */
function freeCells(region: Region, minX: number, minY: number, cw: number, ch: number): Uint8Array {
  const free = new Uint8Array(GRID * GRID).fill(1);
  for (const ring of [region.outer, ...region.holes]) {
    for (let i = 0; i < ring.length; i += 2) {
      const j = (i + 2) % ring.length;
      blockEdge(
        free,
        (ring[i]! - minX) / cw,
        (ring[i + 1]! - minY) / ch,
        (ring[j]! - minX) / cw,
        (ring[j + 1]! - minY) / ch,
      );
    }
  }
  for (let k = 0; k < free.length; k++) {
    if (free[k] === 1 && !isInRegion(region, minX + ((k % GRID) + 0.5) * cw, minY + (Math.floor(k / GRID) + 0.5) * ch))
      free[k] = 0;
  }
  return free;
}

/** Clear the cells that an edge, in cell units, runs through or touches inside. */
function blockEdge(free: Uint8Array, x0: number, y0: number, x1: number, y1: number): void {
  const from = Math.max(0, Math.floor(Math.min(x0, x1) + 1e-9));
  const to = Math.min(GRID - 1, Math.ceil(Math.max(x0, x1) - 1e-9) - 1);
  for (let column = from; column <= to; column++) {
    const at = (x: number) =>
      x1 === x0 ? y0 : y0 + ((y1 - y0) * (Math.min(Math.max(x, Math.min(x0, x1)), Math.max(x0, x1)) - x0)) / (x1 - x0);
    const a = at(column);
    const b = at(column + 1);
    const low = Math.max(0, Math.floor(Math.min(a, b) + 1e-9));
    const high = Math.min(GRID - 1, Math.ceil(Math.max(a, b) - 1e-9) - 1);
    for (let row = low; row <= high; row++) free[row * GRID + column] = 0;
  }
}

interface CellBox {
  readonly x0: number;
  readonly y0: number;
  readonly x1: number;
  readonly y1: number;
}

function bestBox(free: Uint8Array, weight: (columns: number, rows: number) => number): CellBox | null {
  const heights = new Int32Array(GRID);
  let best: CellBox | null = null;
  let bestWeight = 0;
  for (let row = 0; row < GRID; row++) {
    for (let column = 0; column < GRID; column++)
      heights[column] = free[row * GRID + column] === 1 ? heights[column]! + 1 : 0;
    for (let left = 0; left < GRID; left++) {
      let height = heights[left]!;
      for (let right = left; right < GRID && height > 0; right++) {
        height = Math.min(height, heights[right]!);
        if (height === 0) break;
        const w = weight(right - left + 1, height);
        if (w > bestWeight) {
          bestWeight = w;
          best = { x0: left, y0: row + 1 - height, x1: right + 1, y1: row + 1 };
        }
      }
    }
  }
  return best;
}

/** Push the sides of a free box outwards, one after the other, until each meets an edge. */
function widen(
  region: Region,
  x0: number,
  y0: number,
  x1: number,
  y1: number,
): { minX: number; minY: number; maxX: number; maxY: number } {
  let [minX, minY, maxX, maxY] = [x0, y0, x1, y1];
  maxX = -nearestEdge(region, -1, 1, -maxX, minY, maxY);
  minX = nearestEdge(region, 1, 1, minX, minY, maxY);
  maxY = -nearestEdge(region, -1, 0, -maxY, minX, maxX);
  minY = nearestEdge(region, 1, 0, minY, minX, maxX);
  return { minX, minY, maxX, maxY };
}

/**
 * Greatest coordinate u <= from at which an edge reaches into the strip between low and high of the other axis.
 * @param sign - 1 looks towards smaller coordinates, -1 towards larger ones (coordinates negated).
 * @param isX - 1 when u is x.
 */
function nearestEdge(region: Region, sign: 1 | -1, isX: 0 | 1, from: number, low: number, high: number): number {
  let best = Number.NEGATIVE_INFINITY;
  for (const ring of [region.outer, ...region.holes]) {
    for (let i = 0; i < ring.length; i += 2) {
      const j = (i + 2) % ring.length;
      const u0 = ring[i + 1 - isX]! * sign;
      const u1 = ring[j + 1 - isX]! * sign;
      const v0 = ring[i + isX]!;
      const v1 = ring[j + isX]!;
      if (Math.max(v0, v1) <= low + 1e-12 || Math.min(v0, v1) >= high - 1e-12) continue;
      const at = (v: number) => (v1 === v0 ? Math.max(u0, u1) : u0 + ((u1 - u0) * (v - v0)) / (v1 - v0));
      const clamp = (v: number) => Math.min(Math.max(v, Math.min(v0, v1)), Math.max(v0, v1));
      const u = v1 === v0 ? Math.max(u0, u1) : Math.max(at(clamp(low)), at(clamp(high)));
      // edges beyond the box are on the other side
      if (u <= from + 1e-9 && u > best) best = Math.min(u, from);
    }
  }
  return best === Number.NEGATIVE_INFINITY ? from : best;
}
