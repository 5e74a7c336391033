import type { Region } from '@underlap/geometry/region';
import type { Ring } from '@underlap/geometry/ring';

/** Cell (c, r) stands for the point x0 + c step, y0 + r step; values are stored row by row. mm. */
export interface Grid {
  readonly x0: number;
  readonly y0: number;
  readonly step: number;
  readonly cols: number;
  readonly rows: number;
}

/** A grid over the box with two cells to spare on every side. */
export function gridOver(minX: number, minY: number, maxX: number, maxY: number, step: number): Grid {
  return {
    x0: minX - 2 * step,
    y0: minY - 2 * step,
    step,
    cols: Math.ceil((maxX - minX) / step) + 5,
    rows: Math.ceil((maxY - minY) / step) + 5,
  };
}

/**
 * Which cells lie inside the rings by the even-odd rule (rings of regions may be mixed freely as long as they are disjoint).
 * @remarks O(edges x crossed rows + cells).
 */
export function rasterMask(grid: Grid, rings: readonly Ring[]): Uint8Array {
  const { cols, rows, step } = grid;
  const mask = new Uint8Array(cols * rows);
  const hits: number[][] = Array.from({ length: rows }, () => []);
  for (const ring of rings) {
    const n = ring.length;
    let px = ring[n - 2]!;
    let py = ring[n - 1]!;
    for (let i = 0; i < n; i += 2) {
      const qx = ring[i]!;
      const qy = ring[i + 1]!;
      if (py !== qy) {
        const low = Math.min(py, qy);
        const high = Math.max(py, qy);
        const first = Math.max(0, Math.ceil((low - grid.y0) / step));
        const last = Math.min(rows - 1, Math.ceil((high - grid.y0) / step) - 1);
        for (let r = first; r <= last; r++) {
          const y = grid.y0 + r * step;
          hits[r]!.push(px + ((y - py) * (qx - px)) / (qy - py));
        }
      }
      px = qx;
      py = qy;
    }
  }
  for (let r = 0; r < rows; r++) {
    const row = hits[r]!.sort((a, b) => a - b);
    for (let k = 0; k + 1 < row.length; k += 2) {
      const first = Math.max(0, Math.ceil((row[k]! - grid.x0) / step));
      const last = Math.min(cols - 1, Math.ceil((row[k + 1]! - grid.x0) / step) - 1);
      for (let c = first; c <= last; c++) mask[r * cols + c] = 1;
    }
  }
  return mask;
}

/** All rings of the regions in one list. */
export function ringsOf(regions: readonly Region[]): Ring[] {
  return regions.flatMap((region) => [region.outer, ...region.holes]);
}

/** Where the nearest point lies of a cell that knows of none: its squares stay finite, and are larger than all others, mm. */
const NOWHERE_MM = 1e12;

/**
 * Distance from every cell to the nearest edge of the rings, mm; `far` where there are none.
 * @remarks O(cells + edges). Nearest points are exact next to the edges and handed on from cell to cell in two sweeps
 * (Danielsson, Euclidean distance mapping, 1980): unlike a transform of cells the result is not rounded to the grid; errors
 * of a few hundredths of a step remain where several edges compete.
 */
export function distanceField(grid: Grid, rings: readonly Ring[], closed: boolean, far: number): Float32Array {
  const { cols, rows } = grid;
  const total = cols * rows;
  const nearX = new Float64Array(total).fill(NOWHERE_MM);
  const nearY = new Float64Array(total);
  const best = new Float64Array(total).fill(Infinity);
  for (const ring of rings) splatRing(grid, ring, closed, nearX, nearY, best);

  // Cells without a nearest point yet hand on one so far away that it never counts.
  const take = (to: number, x: number, y: number, from: number) => {
    const dx = x - nearX[from]!;
    const dy = y - nearY[from]!;
    const squared = dx * dx + dy * dy;
    if (squared < best[to]!) {
      best[to] = squared;
      nearX[to] = nearX[from]!;
      nearY[to] = nearY[from]!;
    }
  };
  const { x0, y0, step } = grid;
  for (let r = 0; r < rows; r++) {
    const row = r * cols;
    const y = y0 + r * step;
    for (let c = 0; c < cols; c++) {
      const i = row + c;
      const x = x0 + c * step;
      if (r > 0) {
        take(i, x, y, i - cols);
        if (c > 0) take(i, x, y, i - cols - 1);
        if (c + 1 < cols) take(i, x, y, i - cols + 1);
      }
      if (c > 0) take(i, x, y, i - 1);
    }
    for (let c = cols - 2; c >= 0; c--) take(row + c, x0 + c * step, y, row + c + 1);
  }
  for (let r = rows - 1; r >= 0; r--) {
    const row = r * cols;
    const y = y0 + r * step;
    for (let c = cols - 1; c >= 0; c--) {
      const i = row + c;
      const x = x0 + c * step;
      if (r + 1 < rows) {
        take(i, x, y, i + cols);
        if (c > 0) take(i, x, y, i + cols - 1);
        if (c + 1 < cols) take(i, x, y, i + cols + 1);
      }
      if (c + 1 < cols) take(i, x, y, i + 1);
    }
    for (let c = 1; c < cols; c++) take(row + c, x0 + c * step, y, row + c - 1);
  }
  const out = new Float32Array(total);
  for (let i = 0; i < total; i++) out[i] = Math.min(far, Math.sqrt(best[i]!));
  return out;
}

/** Value between cells, bilinear; the border's value outside the grid. */
export function sampleField(grid: Grid, field: Float32Array, x: number, y: number): number {
  const fx = Math.min(Math.max((x - grid.x0) / grid.step, 0), grid.cols - 1.000001);
  const fy = Math.min(Math.max((y - grid.y0) / grid.step, 0), grid.rows - 1.000001);
  const c = Math.floor(fx);
  const r = Math.floor(fy);
  const u = fx - c;
  const v = fy - r;
  const i = r * grid.cols + c;
  const top = field[i]! * (1 - u) + field[i + 1]! * u;
  const bottom = field[i + grid.cols]! * (1 - u) + field[i + grid.cols + 1]! * u;
  return top * (1 - v) + bottom * v;
}

/** Index of the cell nearest to the point; -1 outside the grid. */
export function cellAt(grid: Grid, x: number, y: number): number {
  const c = Math.round((x - grid.x0) / grid.step);
  const r = Math.round((y - grid.y0) / grid.step);
  return c < 0 || r < 0 || c >= grid.cols || r >= grid.rows ? -1 : r * grid.cols + c;
}

function splatRing(
  grid: Grid,
  ring: Ring,
  closed: boolean,
  nearX: Float64Array,
  nearY: Float64Array,
  best: Float64Array,
): void {
  const n = ring.length;
  const { step, cols, rows } = grid;
  const last = closed ? n : n - 2;
  for (let i = 0; i < last; i += 2) {
    const ax = ring[i]!;
    const ay = ring[i + 1]!;
    const j = (i + 2) % n;
    const dx = ring[j]! - ax;
    const dy = ring[j + 1]! - ay;
    const size = dx * dx + dy * dy;
    const parts = Math.max(1, Math.ceil(Math.sqrt(size) / (8 * step)));
    // Stretch by stretch, so that a long slanting edge does not visit its whole box.
    for (let k = 0; k < parts; k++) {
      const u0 = k / parts;
      const u1 = (k + 1) / parts;
      const reach = 1.5 * step;
      const c0 = Math.max(0, Math.ceil((ax + Math.min(u0 * dx, u1 * dx) - reach - grid.x0) / step));
      const c1 = Math.min(cols - 1, Math.floor((ax + Math.max(u0 * dx, u1 * dx) + reach - grid.x0) / step));
      const r0 = Math.max(0, Math.ceil((ay + Math.min(u0 * dy, u1 * dy) - reach - grid.y0) / step));
      const r1 = Math.min(rows - 1, Math.floor((ay + Math.max(u0 * dy, u1 * dy) + reach - grid.y0) / step));
      for (let r = r0; r <= r1; r++) {
        for (let c = c0; c <= c1; c++) {
          const x = grid.x0 + c * step;
          const y = grid.y0 + r * step;
          const u = size > 0 ? Math.min(u1, Math.max(u0, ((x - ax) * dx + (y - ay) * dy) / size)) : 0;
          const px = ax + u * dx;
          const py = ay + u * dy;
          const squared = (x - px) * (x - px) + (y - py) * (y - py);
          const at = r * cols + c;
          if (squared < best[at]!) {
            best[at] = squared;
            nearX[at] = px;
            nearY[at] = py;
          }
        }
      }
    }
  }
}
