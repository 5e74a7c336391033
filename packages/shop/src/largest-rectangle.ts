import type { Region } from '@underlap/geometry/region';
import { type Bounds, type Ring, ringBounds } from '@underlap/geometry/ring';

/** Side of the cells that free wood is counted in, mm. */
const CELL_MM = 1;

/** Cells of a region: 1 where the whole cell lies inside. */
export interface CellGrid {
  readonly columns: number;
  readonly rows: number;
  readonly free: Uint8Array;
  /** Upper left corner of the first cell. */
  readonly x: number;
  readonly y: number;
}

/**
 * The largest rectangle with sides along the axes that lies in a region, to the cell.
 * @returns null when not even one cell is free.
 * @remarks Largest rectangle below a histogram, row by row: O(cells). Cells that the outline passes through are not free, so that the
 * rectangle lies inside for certain.
 */
export function largestRectangle(region: Region): Bounds | null {
  const grid = cellsOf(region);
  const box = largestFreeBox(grid);
  if (box === null) return null;
  return {
    minX: grid.x + box.minX * CELL_MM,
    minY: grid.y + box.minY * CELL_MM,
    maxX: grid.x + box.maxX * CELL_MM,
    maxY: grid.y + box.maxY * CELL_MM,
  };
}

/** The cells of a region's box. */
export function cellsOf({ outer, holes }: Region): CellGrid {
  const { minX, minY, maxX, maxY } = ringBounds(outer);
  const columns = Math.max(1, Math.floor((maxX - minX) / CELL_MM + 1e-9));
  const rows = Math.max(1, Math.floor((maxY - minY) / CELL_MM + 1e-9));
  const grid = { columns, rows, free: new Uint8Array(columns * rows), x: minX, y: minY };
  const rings = [outer, ...holes];
  for (let row = 0; row < rows; row++) fillRow(grid, row, rings);
  for (const ring of rings) blockEdges(grid, ring);
  return grid;
}

/** Cells whose middle lies inside (even-odd along the row). */
function fillRow(grid: CellGrid, row: number, rings: readonly Ring[]): void {
  const y = grid.y + (row + 0.5) * CELL_MM;
  const crossings: number[] = [];
  for (const ring of rings) {
    for (let i = 0, j = ring.length - 2; i < ring.length; j = i, i += 2) {
      const [ay, by] = [ring[j + 1]!, ring[i + 1]!];
      if (ay > y === by > y) continue;
      crossings.push(ring[j]! + ((y - ay) / (by - ay)) * (ring[i]! - ring[j]!));
    }
  }
  crossings.sort((a, b) => a - b);
  for (let k = 0; k + 1 < crossings.length; k += 2) {
    const from = Math.max(0, Math.ceil((crossings[k]! - grid.x) / CELL_MM - 0.5));
    const to = Math.min(grid.columns, Math.ceil((crossings[k + 1]! - grid.x) / CELL_MM - 0.5));
    for (let column = from; column < to; column++) grid.free[row * grid.columns + column] = 1;
  }
}

/** Cells that an edge enters are not free; an edge along a cell's side does not enter it. */
function blockEdges(grid: CellGrid, ring: Ring): void {
  const inside = 1e-9;
  for (let i = 0, j = ring.length - 2; i < ring.length; j = i, i += 2) {
    const [ax, ay] = [(ring[j]! - grid.x) / CELL_MM, (ring[j + 1]! - grid.y) / CELL_MM];
    const [bx, by] = [(ring[i]! - grid.x) / CELL_MM, (ring[i + 1]! - grid.y) / CELL_MM];
    const [top, bottom] = [Math.min(ay, by), Math.max(ay, by)];
    const last = Math.min(grid.rows - 1, Math.ceil(bottom - inside) - 1);
    for (let row = Math.max(0, Math.floor(top + inside)); row <= last; row++) {
      // The stretch of the edge within this row.
      const low = Math.max(top, row);
      const high = Math.min(bottom, row + 1);
      const at = (y: number) => (by === ay ? null : ax + ((y - ay) / (by - ay)) * (bx - ax));
      const x0 = at(low) ?? ax;
      const x1 = at(high) ?? bx;
      const first = Math.max(0, Math.floor(Math.min(x0, x1) + inside));
      const end = Math.min(grid.columns - 1, Math.ceil(Math.max(x0, x1) - inside) - 1);
      for (let column = first; column <= end; column++) grid.free[row * grid.columns + column] = 0;
    }
  }
}

/** The largest box of free cells, in cells. */
export function largestFreeBox({ columns, rows, free }: Omit<CellGrid, 'x' | 'y'>): Bounds | null {
  const heights = new Int32Array(columns + 1);
  const starts = new Int32Array(columns + 1);
  const tops = new Int32Array(columns + 1);
  let best: Bounds | null = null;
  let bestArea = 0;
  for (let row = 0; row < rows; row++) {
    let depth = 0;
    for (let column = 0; column <= columns; column++) {
      const isFree = column < columns && free[row * columns + column] === 1;
      const height = isFree ? heights[column]! + 1 : 0;
      if (column < columns) heights[column] = height;
      let start = column;
      while (depth > 0 && tops[depth - 1]! > height) {
        depth--;
        start = starts[depth]!;
        const area = tops[depth]! * (column - start);
        if (area > bestArea) {
          bestArea = area;
          best = { minX: start, minY: row + 1 - tops[depth]!, maxX: column, maxY: row + 1 };
        }
      }
      starts[depth] = start;
      tops[depth] = height;
      depth++;
    }
  }
  return best;
}
