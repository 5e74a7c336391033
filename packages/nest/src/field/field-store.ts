/**
 * Signed overlap depth of one shape against another by lookup. A field belongs to a no-fit polygon: at a place p of the
 * moving piece's origin (in the fixed piece's frame) it tells how far p would have to move until the pieces keep `clearance`.
 *
 *   depth = distance to the boundary of the no-fit polygon (positive inside, negative outside) + clearance, never below 0
 *
 * Convex no-fit polygons are kept as half-planes and are exact everywhere. Others get a grid: cells outside (0), cells near the
 * boundary with the short list of edges that can be nearest (exact), and cells deep inside (bilinear between their corners).
 */
import type { NoFit } from '../nfp/no-fit.ts';
import { EDGE, edgeRecords, squaredToEdge } from './edges.ts';
import { buildGrid, GRID } from './grid.ts';
import { floatPool, intPool, type Pool, reserve, singlePool } from './pool.ts';

/** Numbers per field in the header pool: box of places with depth > 0 (minX, maxX, minY, maxY), cells per unit in x and y. */
const HEADER = 6;
/** Integers per field: first edge, end of edges, first plane, first cell or one of the marks below, first node. */
const INDEX = 5;

/** In place of a first cell: half-planes; all edges; all edges until the field has been asked often enough for a grid. */
const CONVEX = -1;
const DIRECT = -2;
const PENDING = -3;

/**
 * A grid takes as long to make as some hundred looks at all edges: it is made once a field has been asked this often. Measured as good
 * as a grid at once with few kinds of parts, a third faster with 50 kinds in four turns.
 */
const ASKS_BEFORE_GRID = 60;

/**
 * No-fit polygons of up to this many edges get no grid: looking at all edges is as fast as reading a grid that does not stay in
 * the processor's cache, takes a tenth of the memory, and is exact deep inside as well.
 */
const DIRECT_EDGES = 14;

/** The deepest escape found by `contact`. */
export interface Contact {
  depth: number;
  /** Unit direction in which the moving piece leaves the overlap soonest, in the fixed piece's frame. */
  nx: number;
  ny: number;
}

export class FieldStore {
  readonly edges: Pool<Float64Array> = floatPool(1 << 12);
  readonly planes: Pool<Float64Array> = floatPool(1 << 10);
  readonly cells: Pool<Int32Array> = intPool(1 << 14);
  readonly nodes: Pool<Float32Array> = singlePool(1 << 12);
  /** Six numbers per field: box of places with depth > 0 (minX, maxX, minY, maxY), cells per unit in x and y. */
  header = new Float64Array(64 * HEADER);
  #index = new Int32Array(64 * INDEX);
  #clearance = new Float64Array(64);
  #asks = new Int32Array(64);
  #count = 0;

  /** Bytes held by fields, for a caller that bounds its memory. */
  get bytes(): number {
    return 8 * (this.edges.used + this.planes.used) + 4 * (this.cells.used + this.nodes.used);
  }

  /** Forget all fields; ids handed out before are void. */
  clear(): void {
    this.edges.used = 0;
    this.planes.used = 0;
    this.cells.used = 0;
    this.nodes.used = 0;
    this.#count = 0;
  }

  /**
   * Make the field of a no-fit polygon.
   * @param clearance - distance that the two must keep, >= 0; corners become exact arcs.
   * @param withGrid - false for a field that is asked a few times only: exact everywhere, slower to ask, quick to make.
   * @returns its id for `depth`, `contact`, `linesNear`.
   * @remarks O(n). A grid of 32 by 32 cells is made later, when the field turns out to be asked often.
   */
  add(shape: NoFit, clearance: number, withGrid = true): number {
    const id = this.#count++;
    if (id >= this.#clearance.length) this.#grow();
    const records = edgeRecords(shape.rings);
    const first = reserve(this.edges, records.length) / EDGE;
    const end = first + records.length / EDGE;
    this.edges.data.set(records, first * EDGE);
    const { bounds } = shape;
    const h = id * HEADER;
    this.header[h] = bounds.minX - clearance;
    this.header[h + 1] = bounds.maxX + clearance;
    this.header[h + 2] = bounds.minY - clearance;
    this.header[h + 3] = bounds.maxY + clearance;
    this.header[h + 4] = GRID / (bounds.maxX - bounds.minX + 2 * clearance);
    this.header[h + 5] = GRID / (bounds.maxY - bounds.minY + 2 * clearance);
    this.#clearance[id] = clearance;
    const k = id * INDEX;
    this.#index[k] = first;
    this.#index[k + 1] = end;
    if (shape.isConvex) {
      const plane = reserve(this.planes, 3 * (end - first));
      const planes = this.planes.data;
      for (let e = 0; e < end - first; e++) {
        const r = e * EDGE;
        const nx = records[r + 3]! * records[r + 5]!;
        const ny = -records[r + 2]! * records[r + 5]!;
        planes[plane + 3 * e] = nx;
        planes[plane + 3 * e + 1] = ny;
        planes[plane + 3 * e + 2] = nx * records[r]! + ny * records[r + 1]!;
      }
      this.#index[k + 2] = plane;
      this.#index[k + 3] = CONVEX;
    } else {
      this.#index[k + 3] = withGrid && end - first > DIRECT_EDGES ? PENDING : DIRECT;
      this.#asks[id] = 0;
    }
    return id;
  }

  /** Offset in `edges` of one of the field's edges; u in [0, 1) chooses. */
  randomEdge(id: number, u: number): number {
    const first = this.#index[id * INDEX]!;
    return EDGE * (first + ((u * (this.#index[id * INDEX + 1]! - first)) | 0));
  }

  /** Overlap depth at a place, >= 0. Exact near the boundary. About 10-40 ns. */
  depth(id: number, x: number, y: number): number {
    const h = id * HEADER;
    const header = this.header;
    const gx = x - header[h]!;
    const gy = y - header[h + 2]!;
    if (gx <= 0 || gy <= 0 || x >= header[h + 1]! || y >= header[h + 3]!) return 0;
    const k = id * INDEX;
    const cell0 = this.#index[k + 3]!;
    if (cell0 < 0) {
      if (cell0 === CONVEX) return this.#convexDepth(id, x, y);
      if (cell0 === PENDING && ++this.#asks[id]! >= ASKS_BEFORE_GRID) this.#makeGrid(id);
      return this.#directDepth(id, x, y);
    }
    const ux = gx * header[h + 4]!;
    const uy = gy * header[h + 5]!;
    const cx = ux >= GRID ? GRID - 1 : ux | 0;
    const cy = uy >= GRID ? GRID - 1 : uy | 0;
    const cells = this.cells.data;
    const cell = cells[cell0 + cy * GRID + cx]!;
    if (cell === 0) return 0;
    if (cell > 0) return this.#edgeDepth(cell, this.#clearance[id]!, x, y);
    const nodes = this.nodes.data;
    const at = this.#index[k + 4]! + cy * (GRID + 1) + cx;
    const fx = ux - cx;
    const fy = uy - cy;
    const low = nodes[at]! + fx * (nodes[at + 1]! - nodes[at]!);
    const high = nodes[at + GRID + 1]! + fx * (nodes[at + GRID + 2]! - nodes[at + GRID + 1]!);
    return low + fy * (high - low);
  }

  #makeGrid(id: number): void {
    const k = id * INDEX;
    const { cell, node } = buildGrid(
      this.edges.data,
      this.#index[k]!,
      this.#index[k + 1]!,
      this.header,
      id * HEADER,
      this.#clearance[id]!,
      this.cells,
      this.nodes,
    );
    this.#index[k + 3] = cell;
    this.#index[k + 4] = node;
  }

  #convexDepth(id: number, x: number, y: number): number {
    const k = id * INDEX;
    const planes = this.planes.data;
    const clearance = this.#clearance[id]!;
    let most = -Infinity;
    const from = this.#index[k + 2]!;
    const end = from + 3 * (this.#index[k + 1]! - this.#index[k]!);
    for (let p = from; p < end; p += 3) {
      const s = planes[p]! * x + planes[p + 1]! * y - planes[p + 2]!;
      if (s > most) {
        if (s >= clearance) return 0;
        most = s;
      }
    }
    if (most <= 0) return clearance - most;
    // Outside, within the clearance: the distance may be to a corner.
    const edges = this.edges.data;
    let best = Infinity;
    for (let e = this.#index[k]! * EDGE; e < this.#index[k + 1]! * EDGE; e += EDGE) {
      const d = squaredToEdge(edges, e, x, y);
      if (d < best) best = d;
    }
    const depth = clearance - Math.sqrt(best);
    return depth > 0 ? depth : 0;
  }

  #directDepth(id: number, x: number, y: number): number {
    const edges = this.edges.data;
    const end = this.#index[id * INDEX + 1]! * EDGE;
    let best = Infinity;
    let sign = 1;
    for (let e = this.#index[id * INDEX]! * EDGE; e < end; e += EDGE) {
      const px = x - edges[e]!;
      const py = y - edges[e + 1]!;
      const dx = edges[e + 2]!;
      const dy = edges[e + 3]!;
      const t = (px * dx + py * dy) * edges[e + 4]!;
      if (t <= 0) {
        const d = px * px + py * py;
        if (d < best) {
          best = d;
          sign = edges[e + 6]!;
        }
      } else if (t < 1) {
        const cross = (dx * py - dy * px) * edges[e + 5]!;
        const d = cross * cross;
        if (d < best) {
          best = d;
          sign = cross >= 0 ? 1 : -1;
        }
      }
      // Beyond the end: the next edge of the ring starts there.
    }
    const depth = this.#clearance[id]! + sign * Math.sqrt(best);
    return depth > 0 ? depth : 0;
  }

  #edgeDepth(list: number, clearance: number, x: number, y: number): number {
    const cells = this.cells.data;
    const edges = this.edges.data;
    const end = list + 1 + cells[list]!;
    let best = Infinity;
    let sign = 1;
    for (let l = list + 1; l < end; l++) {
      const e = cells[l]!;
      const px = x - edges[e]!;
      const py = y - edges[e + 1]!;
      const dx = edges[e + 2]!;
      const dy = edges[e + 3]!;
      const t = (px * dx + py * dy) * edges[e + 4]!;
      if (t <= 0) {
        const d = px * px + py * py;
        if (d < best) {
          best = d;
          sign = edges[e + 6]!;
        }
      } else if (t >= 1) {
        const rx = px - dx;
        const ry = py - dy;
        const d = rx * rx + ry * ry;
        if (d < best) {
          best = d;
          sign = edges[e + 7]!;
        }
      } else {
        const cross = (dx * py - dy * px) * edges[e + 5]!;
        const d = cross * cross;
        if (d < best) {
          best = d;
          sign = cross >= 0 ? 1 : -1;
        }
      }
    }
    const depth = clearance + sign * Math.sqrt(best);
    return depth > 0 ? depth : 0;
  }

  /**
   * Depth and direction of escape, by a walk over all edges (exact everywhere, also deep inside).
   * @returns `out` with depth <= 0 when there is none.
   */
  contact(id: number, x: number, y: number, out: Contact): Contact {
    const edges = this.edges.data;
    let best = Infinity;
    let sign = 1;
    let nx = 0;
    let ny = 0;
    for (let e = this.#index[id * INDEX]! * EDGE; e < this.#index[id * INDEX + 1]! * EDGE; e += EDGE) {
      const px = x - edges[e]!;
      const py = y - edges[e + 1]!;
      const dx = edges[e + 2]!;
      const dy = edges[e + 3]!;
      let t = (px * dx + py * dy) * edges[e + 4]!;
      let own = 0;
      if (t <= 0) {
        t = 0;
        own = edges[e + 6]!;
      } else if (t >= 1) {
        t = 1;
        own = edges[e + 7]!;
      }
      const rx = px - t * dx;
      const ry = py - t * dy;
      const d = rx * rx + ry * ry;
      if (d < best) {
        best = d;
        sign = own === 0 ? (dx * py - dy * px >= 0 ? 1 : -1) : own;
        // Outward from the foot when outside, towards the foot when inside; on the edge itself its outward normal.
        nx = -sign * rx;
        ny = -sign * ry;
        if (d < 1e-24 * (1 + x * x + y * y)) {
          nx = dy;
          ny = -dx;
        }
      }
    }
    const length = Math.hypot(nx, ny);
    out.depth = this.#clearance[id]! + sign * Math.sqrt(best);
    out.nx = nx / length;
    out.ny = ny / length;
    return out;
  }

  /**
   * Boundary lines of the field (shifted out by the clearance, tangents at round corners) that pass within `radius` of a place.
   * Appends (nx, ny, gap) to `out` from index `at`: moving by gap * (nx, ny) reaches the line, in the fixed piece's frame.
   * @returns the new fill of `out`; at most `room` numbers are written in all.
   */
  linesNear(id: number, x: number, y: number, radius: number, out: Float64Array, at: number, room: number): number {
    const edges = this.edges.data;
    const clearance = this.#clearance[id]!;
    const reach = radius + clearance;
    const squared = reach * reach;
    let fill = at;
    const end = this.#index[id * INDEX + 1]! * EDGE;
    for (let e = this.#index[id * INDEX]! * EDGE; e < end; e += EDGE) {
      const px = x - edges[e]!;
      const py = y - edges[e + 1]!;
      const dx = edges[e + 2]!;
      const dy = edges[e + 3]!;
      const cross = (dx * py - dy * px) * edges[e + 5]!;
      if (cross > reach || cross < -reach) continue;
      const t = (px * dx + py * dy) * edges[e + 4]!;
      if (fill + 3 > room) return fill;
      if (t < 0) {
        // Beyond the start vertex: with clearance a convex corner is round, and its tangent stands in for a line.
        const r = Math.sqrt(px * px + py * py);
        if (r > reach || clearance === 0 || edges[e + 6]! > 0 || r === 0) {
          if (r > reach) continue;
        } else {
          out[fill] = px / r;
          out[fill + 1] = py / r;
          out[fill + 2] = clearance - r;
          fill += 3;
          continue;
        }
      } else if (t > 1) {
        const rx = px - dx;
        const ry = py - dy;
        if (rx * rx + ry * ry > squared) continue;
      }
      out[fill] = dy * edges[e + 5]!;
      out[fill + 1] = -dx * edges[e + 5]!;
      out[fill + 2] = cross + clearance;
      fill += 3;
    }
    return fill;
  }

  #grow(): void {
    const larger = 2 * this.#clearance.length;
    const header = new Float64Array(larger * HEADER);
    header.set(this.header);
    this.header = header;
    const index = new Int32Array(larger * INDEX);
    index.set(this.#index);
    this.#index = index;
    const clearance = new Float64Array(larger);
    clearance.set(this.#clearance);
    this.#clearance = clearance;
    const asks = new Int32Array(larger);
    asks.set(this.#asks);
    this.#asks = asks;
  }
}
