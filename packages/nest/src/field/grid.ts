import { EDGE, isInsideEdges, squaredToEdge } from './edges.ts';
import { type IntPool, reserveInts, reserveSingles, type SinglePool } from './pool.ts';

/** Cells along each side of a field; 64 costs four times the memory and bought nothing measurable. */
export const GRID = 32;

/** Slack on 'can be nearest', relative to the cell: keeps the list safe against rounding. */
const SLACK = 1e-6;

/**
 * Fill the grid of a field over the box in `header[h..h+3]`.
 * A cell holds 0 (depth 0 all over), -1 (deep inside: take the corner depths in `nodes`), or the start in `cells` of a list
 * [count, edge offsets...] of the edges that are nearest to some point of the cell.
 * @remarks O(GRID^2 * edges). An edge at distance d from the centre can only be nearest somewhere in the cell if d is at most
 * the least such distance plus the cell's diagonal.
 */
export function buildGrid(
  edges: Float64Array,
  first: number,
  end: number,
  header: Float64Array,
  h: number,
  clearance: number,
  cells: IntPool,
  nodes: SinglePool,
): { cell: number; node: number } {
  const x0 = header[h]!;
  const y0 = header[h + 2]!;
  const stepX = 1 / header[h + 4]!;
  const stepY = 1 / header[h + 5]!;
  const half = Math.hypot(stepX, stepY) / 2;
  const cell = reserveInts(cells, GRID * GRID);
  const side = GRID + 1;
  const node = reserveSingles(nodes, side * side);
  const wanted = new Uint8Array(side * side);
  const squared = new Float64Array(end - first);
  for (let cy = 0; cy < GRID; cy++) {
    const y = y0 + (cy + 0.5) * stepY;
    for (let cx = 0; cx < GRID; cx++) {
      const x = x0 + (cx + 0.5) * stepX;
      let least = Infinity;
      for (let e = first; e < end; e++) {
        const d = squaredToEdge(edges, e * EDGE, x, y);
        squared[e - first] = d;
        if (d < least) least = d;
      }
      const near = Math.sqrt(least);
      const at = cell + cy * GRID + cx;
      if (near > half) {
        if (isInsideEdges(edges, first, end, x, y)) {
          cells.data[at] = -1;
          const corner = cy * side + cx;
          wanted[corner] = wanted[corner + 1] = wanted[corner + side] = wanted[corner + side + 1] = 1;
          continue;
        }
        if (near >= clearance + half) {
          cells.data[at] = 0;
          continue;
        }
      }
      const reach = near + 2 * half * (1 + SLACK);
      const limit = reach * reach;
      let count = 0;
      for (let e = 0; e < squared.length; e++) if (squared[e]! <= limit) count++;
      const list = reserveInts(cells, count + 1);
      cells.data[at] = list;
      cells.data[list] = count;
      let fill = list + 1;
      for (let e = 0; e < squared.length; e++) if (squared[e]! <= limit) cells.data[fill++] = (first + e) * EDGE;
    }
  }
  for (let ny = 0; ny < side; ny++) {
    for (let nx = 0; nx < side; nx++) {
      if (wanted[ny * side + nx] === 0) continue;
      const x = x0 + nx * stepX;
      const y = y0 + ny * stepY;
      let least = Infinity;
      for (let e = first; e < end; e++) {
        const d = squaredToEdge(edges, e * EDGE, x, y);
        if (d < least) least = d;
      }
      nodes.data[node + ny * side + nx] = clearance + Math.sqrt(least);
    }
  }
  return { cell, node };
}
