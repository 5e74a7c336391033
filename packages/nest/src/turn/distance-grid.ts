import { EDGE, squaredToEdge } from '../field/edges.ts';

/** Nodes of a grid: the first one's place, steps and numbers along x and y. */
export interface GridFrame {
  readonly x0: number;
  readonly y0: number;
  readonly stepX: number;
  readonly stepY: number;
  readonly columns: number;
  readonly rows: number;
}

/** Edges that share one box: a node far from the box looks at none of them. */
const EDGES_PER_BOX = 6;

/**
 * Distances of the nodes of a grid from an outline, positive inside by the non-zero rule.
 * @param records - edge records as of `edgeRecords`.
 * @param out - filled row by row from index `at`.
 * @remarks Some 10 boxes and edges a node: the nearest edge of the node before bounds the search.
 */
export function fillDistances(records: Float64Array, frame: GridFrame, out: Float32Array, at: number): void {
  const { x0, y0, stepX, stepY, columns, rows } = frame;
  const boxes = edgeBoxes(records);
  let nearest = 0;
  for (let row = 0; row < rows; row++) {
    const y = y0 + row * stepY;
    const crossings = crossingsAt(records, y);
    let passed = 0;
    let winding = 0;
    // neighbouring nodes follow one another: every other row is walked backwards for the distance
    const isBack = (row & 1) === 1;
    for (let k = 0; k < columns; k++) {
      const column = isBack ? columns - 1 - k : k;
      const x = x0 + column * stepX;
      nearest = nearestEdge(records, boxes, nearest, x, y);
      out[at + row * columns + column] = -Math.sqrt(squaredToEdge(records, nearest, x, y));
    }
    for (let column = 0; column < columns; column++) {
      const x = x0 + column * stepX;
      while (passed < crossings.length && crossings[passed]!.x < x) winding += crossings[passed++]!.turn;
      if (winding !== 0) out[at + row * columns + column]! *= -1;
    }
  }
}

/** Offset of the edge record nearest to a place, looked for from a guess. */
function nearestEdge(records: Float64Array, boxes: Float64Array, guess: number, x: number, y: number): number {
  let best = squaredToEdge(records, guess, x, y);
  let at = guess;
  for (let b = 0, e = 0; b < boxes.length; b += 4, e += EDGES_PER_BOX * EDGE) {
    const dx = Math.max(boxes[b]! - x, x - boxes[b + 2]!, 0);
    const dy = Math.max(boxes[b + 1]! - y, y - boxes[b + 3]!, 0);
    if (dx * dx + dy * dy >= best) continue;
    const end = Math.min(records.length, e + EDGES_PER_BOX * EDGE);
    for (let r = e; r < end; r += EDGE) {
      const d = squaredToEdge(records, r, x, y);
      if (d < best) {
        best = d;
        at = r;
      }
    }
  }
  return at;
}

function edgeBoxes(records: Float64Array): Float64Array {
  const out: number[] = [];
  for (let e = 0; e < records.length; e += EDGES_PER_BOX * EDGE) {
    const box = [Infinity, Infinity, -Infinity, -Infinity];
    for (let r = e; r < Math.min(records.length, e + EDGES_PER_BOX * EDGE); r += EDGE) {
      const [x, y] = [records[r]!, records[r + 1]!];
      const [ex, ey] = [x + records[r + 2]!, y + records[r + 3]!];
      box[0] = Math.min(box[0]!, x, ex);
      box[1] = Math.min(box[1]!, y, ey);
      box[2] = Math.max(box[2]!, x, ex);
      box[3] = Math.max(box[3]!, y, ey);
    }
    out.push(...box);
  }
  return Float64Array.from(out);
}

/** Where a row crosses the outline, from left to right, and by how much the winding changes there. */
function crossingsAt(records: Float64Array, y: number): { readonly x: number; readonly turn: number }[] {
  const found: { x: number; turn: number }[] = [];
  for (let r = 0; r < records.length; r += EDGE) {
    const from = records[r + 1]!;
    const to = from + records[r + 3]!;
    if (from <= y === to <= y) continue;
    found.push({
      x: records[r]! + ((y - from) / records[r + 3]!) * records[r + 2]!,
      turn: to > y ? 1 : -1,
    });
  }
  return found.sort((a, b) => a.x - b.x);
}
