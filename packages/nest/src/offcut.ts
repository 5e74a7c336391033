import type { Region } from '@underlap/geometry/region';
import type { LaidCopy } from './blf/open-board.ts';
import type { PreparedStock } from './shape/prepare.ts';
import { buildProfile, type Profile } from './shape/profile.ts';

/** Side of the cells that free stock is counted in, mm. */
const CELL_MM = 1;

/**
 * The largest reusable offcut of a board, taken as the largest rectangle with sides along the board that keeps `spacing` from
 * every piece and flaw: what a maker cuts off straight and puts back on the shelf. It may reach the board's own edge.
 * @returns a rectangle, to the cell; null when not even one cell is free.
 * @remarks Largest rectangle below a histogram, row by row: O(cells).
 */
export function largestOffcut(stock: PreparedStock, placed: readonly LaidCopy[], spacing: number): Region | null {
  const columns = Math.floor(stock.width / CELL_MM);
  const rows = Math.floor(stock.height / CELL_MM);
  const taken = new Uint8Array(columns * rows);
  for (const { turned, x, y } of placed) fill(taken, columns, rows, turned.profile(spacing), x, y);
  for (const obstacle of stock.obstacles) {
    fill(taken, columns, rows, buildProfile(obstacle.rings, spacing, { from: 0, to: stock.width }), 0, 0);
  }
  const best = largestRectangle(taken, columns, rows);
  if (best === null) return null;
  const minX = best.minX * CELL_MM;
  const minY = best.minY * CELL_MM;
  const maxX = best.maxX === columns ? stock.width : best.maxX * CELL_MM;
  const maxY = best.maxY === rows ? stock.height : best.maxY * CELL_MM;
  return { outer: Float64Array.of(minX, minY, maxX, minY, maxX, maxY, minX, maxY), holes: [] };
}

/** Mark every cell that a profile touches. */
function fill(taken: Uint8Array, columns: number, rows: number, profile: Profile, x: number, y: number): void {
  for (let i = 0; i < profile.columns; i++) {
    const first = Math.max(0, Math.floor((profile.edges[i]! + x) / CELL_MM + 1e-6));
    const last = Math.min(columns - 1, Math.ceil((profile.edges[i + 1]! + x) / CELL_MM - 1e-6) - 1);
    for (let s = profile.from[i]!; s < profile.from[i + 1]!; s += 2) {
      const low = Math.max(0, Math.floor((profile.spans[s]! + y) / CELL_MM + 1e-6));
      const high = Math.min(rows - 1, Math.ceil((profile.spans[s + 1]! + y) / CELL_MM - 1e-6) - 1);
      for (let column = first; column <= last; column++) {
        for (let row = low; row <= high; row++) taken[row * columns + column] = 1;
      }
    }
  }
}

interface CellBox {
  readonly minX: number;
  readonly minY: number;
  readonly maxX: number;
  readonly maxY: number;
}

function largestRectangle(taken: Uint8Array, columns: number, rows: number): CellBox | null {
  const heights = new Int32Array(columns + 1);
  const starts = new Int32Array(columns + 1);
  const tops = new Int32Array(columns + 1);
  let best: CellBox | null = null;
  let bestArea = 0;
  for (let row = 0; row < rows; row++) {
    let depth = 0;
    for (let column = 0; column <= columns; column++) {
      const height = column === columns ? 0 : taken[row * columns + column] === 1 ? 0 : heights[column]! + 1;
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
