import { EDGE, isInsideEdges, squaredToEdge } from './edges.ts';
import { type Pool, reserve } from './pool.ts';

/** Cells along each side of a field, a power of two; 64 costs four times the memory and bought nothing measurable. */
export const GRID = 32;

/** Corners of cells along each side. */
const SIDE = GRID + 1;

/** Lists of edges on the way from the whole box to one cell. */
const DEPTHS = Math.log2(GRID) + 1;

/** Slack on 'can be nearest', relative to the cell: keeps the list safe against rounding. */
const SLACK = 1e-6;

/** With so few edges the corners of a square inside are worked out at once, without quartering it further. */
const FEW_EDGES = 40;

/** What is known of a square of cells: not yet whether it lies inside, or that no edge crosses it. */
const OPEN = 0;
const INSIDE = 1;
const OUTSIDE = 2;

/**
 * Fill the grid of a field over the box in `header[h..h+3]`.
 * A cell holds 0 (depth 0 all over), -1 (deep inside: take the corner depths in `nodes`), or the start in `cells` of a list
 * [count, edge offsets...] of the edges that are nearest to some point of the cell.
 * @remarks The box is quartered down to cells. An edge at distance d from the middle of a square can only be nearest somewhere
 * in it if d is at most the least such distance plus the square's diagonal; the quarters look at these edges only, which gives the
 * same lists as looking at all. Measured 3.5 times faster than that on no-fit polygons of 175 edges.
 */
export function buildGrid(
  edges: Float64Array,
  first: number,
  end: number,
  header: Float64Array,
  h: number,
  clearance: number,
  cells: Pool<Int32Array>,
  nodes: Pool<Float32Array>,
): { cell: number; node: number } {
  const cell = reserve(cells, GRID * GRID);
  const node = reserve(nodes, SIDE * SIDE);
  nodes.data.fill(0, node, node + SIDE * SIDE);
  const count = end - first;
  // one list of edges a depth of quartering, one after another
  const lists = new Int32Array(count * (DEPTHS + 1));
  const distances = new Float64Array(count);
  for (let e = 0; e < count; e++) lists[e] = (first + e) * EDGE;
  const x0 = header[h]!;
  const y0 = header[h + 2]!;
  const stepX = 1 / header[h + 4]!;
  const stepY = 1 / header[h + 5]!;
  const halfCell = Math.hypot(stepX, stepY) / 2;
  const sides = new Uint8Array(GRID * GRID);

  /** One square of `size` x `size` cells; the edges that can be nearest in it are in `lists` between `from` and `to`. */
  const fill = (cx: number, cy: number, size: number, from: number, to: number, known: number): void => {
    const x = x0 + (cx + size / 2) * stepX;
    const y = y0 + (cy + size / 2) * stepY;
    const half = halfCell * size;
    let least = Infinity;
    for (let i = from; i < to; i++) {
      const d = squaredToEdge(edges, lists[i]!, x, y);
      distances[i - from] = d;
      if (d < least) least = d;
    }
    const gap = Math.sqrt(least);
    let side = known;
    if (side === OPEN && gap > half) {
      side = sideOfNeighbour(sides, cx, cy, size);
      if (side === OPEN) side = isInsideEdges(edges, first, end, x, y) ? INSIDE : OUTSIDE;
      setCells(sides, 0, cx, cy, size, side);
    }
    if (side === OUTSIDE && gap >= clearance + half) {
      setCells(cells.data, cell, cx, cy, size, 0);
      return;
    }
    const reach = gap + 2 * half * (1 + SLACK);
    const limit = reach * reach;
    const own = from + count;
    let fillTo = own;
    for (let i = from; i < to; i++) if (distances[i - from]! <= limit) lists[fillTo++] = lists[i]!;
    if (side === INSIDE && (size === 1 || fillTo - own <= FEW_EDGES)) {
      setCells(cells.data, cell, cx, cy, size, -1);
      for (let ny = cy; ny <= cy + size; ny++) {
        for (let nx = cx; nx <= cx + size; nx++) {
          const at = node + ny * SIDE + nx;
          if (nodes.data[at] === 0) {
            const distance = leastDistance(edges, lists, own, fillTo, x0 + nx * stepX, y0 + ny * stepY);
            nodes.data[at] = clearance + distance;
          }
        }
      }
      return;
    }
    if (size === 1) {
      const list = reserve(cells, fillTo - own + 1);
      cells.data[cell + cy * GRID + cx] = list;
      cells.data[list] = fillTo - own;
      for (let i = own; i < fillTo; i++) cells.data[list + 1 + i - own] = lists[i]!;
      return;
    }
    const quarter = size / 2;
    fill(cx, cy, quarter, own, fillTo, side);
    fill(cx + quarter, cy, quarter, own, fillTo, side);
    fill(cx, cy + quarter, quarter, own, fillTo, side);
    fill(cx + quarter, cy + quarter, quarter, own, fillTo, side);
  };
  fill(0, 0, GRID, 0, count, OPEN);
  return { cell, node };
}

/** Two squares side by side that no edge crosses lie on the same side; OPEN when no such neighbour is known to the left or below. */
function sideOfNeighbour(sides: Uint8Array, cx: number, cy: number, size: number): number {
  for (let k = 0; k < size; k++) {
    const left = cx > 0 ? sides[(cy + k) * GRID + cx - 1]! : OPEN;
    if (left !== OPEN) return left;
    const below = cy > 0 ? sides[(cy - 1) * GRID + cx + k]! : OPEN;
    if (below !== OPEN) return below;
  }
  return OPEN;
}

function setCells(
  cells: Int32Array | Uint8Array,
  cell: number,
  cx: number,
  cy: number,
  size: number,
  value: number,
): void {
  for (let row = cy; row < cy + size; row++) {
    const from = cell + row * GRID + cx;
    cells.fill(value, from, from + size);
  }
}

function leastDistance(edges: Float64Array, lists: Int32Array, from: number, to: number, x: number, y: number): number {
  let least = Infinity;
  for (let i = from; i < to; i++) {
    const d = squaredToEdge(edges, lists[i]!, x, y);
    if (d < least) least = d;
  }
  return Math.sqrt(least);
}
