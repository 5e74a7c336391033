import type { Region } from '@underlap/geometry/region';
import type { Ring } from '@underlap/geometry/ring';

/** Side of an index cell, mm: a few knob widths, so that most questions touch one or two cells. */
const CELL_MM = 12;

/**
 * Straight edges in a bucket grid: exact distance from a point to the nearest of them, and crossings.
 * @remarks Build O(edges + covered cells); a question within distance d touches O((d / cell)^2) cells.
 */
export class NearIndex {
  private readonly ax: number[] = [];
  private readonly ay: number[] = [];
  private readonly bx: number[] = [];
  private readonly by: number[] = [];
  private readonly buckets = new Map<number, number[]>();
  private stamp = new Int32Array(64);
  private visit = 0;

  get size(): number {
    return this.ax.length;
  }

  addRing(ring: Ring): void {
    const n = ring.length;
    for (let i = 0; i < n; i += 2) {
      const j = (i + 2) % n;
      this.addEdge(ring[i]!, ring[i + 1]!, ring[j]!, ring[j + 1]!);
    }
  }

  addRegion(region: Region): void {
    this.addRing(region.outer);
    for (const hole of region.holes) this.addRing(hole);
  }

  addPolyline(line: Ring): void {
    for (let i = 0; i + 3 < line.length; i += 2) this.addEdge(line[i]!, line[i + 1]!, line[i + 2]!, line[i + 3]!);
  }

  addEdge(x0: number, y0: number, x1: number, y1: number): void {
    const id = this.ax.length;
    this.ax.push(x0);
    this.ay.push(y0);
    this.bx.push(x1);
    this.by.push(y1);
    if (id >= this.stamp.length) {
      const wider = new Int32Array(2 * this.stamp.length);
      wider.set(this.stamp);
      this.stamp = wider;
    }
    const steps = Math.max(1, Math.ceil(Math.hypot(x1 - x0, y1 - y0) / CELL_MM));
    // Boxes of short stretches instead of the whole edge: a long slanting edge must not fill a square of cells.
    for (let k = 0; k < steps; k++) {
      const px = x0 + ((x1 - x0) * k) / steps;
      const py = y0 + ((y1 - y0) * k) / steps;
      const qx = x0 + ((x1 - x0) * (k + 1)) / steps;
      const qy = y0 + ((y1 - y0) * (k + 1)) / steps;
      const c0 = Math.floor(Math.min(px, qx) / CELL_MM);
      const c1 = Math.floor(Math.max(px, qx) / CELL_MM);
      const r0 = Math.floor(Math.min(py, qy) / CELL_MM);
      const r1 = Math.floor(Math.max(py, qy) / CELL_MM);
      for (let r = r0; r <= r1; r++) {
        for (let c = c0; c <= c1; c++) {
          const key = keyOf(c, r);
          const bucket = this.buckets.get(key);
          if (bucket === undefined) this.buckets.set(key, [id]);
          else if (bucket[bucket.length - 1] !== id) bucket.push(id);
        }
      }
    }
  }

  /** Distance to the nearest edge, or `within` when none is nearer. */
  distance(x: number, y: number, within: number): number {
    if (this.ax.length === 0) return within;
    if (within <= 2 * CELL_MM) return this.nearDistance(x, y, within);
    let best = within * within;
    const visit = ++this.visit;
    // Rings of cells from the middle outwards; a ring that starts beyond the best distance ends the search.
    const c = Math.floor(x / CELL_MM);
    const r = Math.floor(y / CELL_MM);
    const rings = Math.ceil(within / CELL_MM) + 1;
    for (let ring = 0; ring <= rings; ring++) {
      const nearest = (ring - 1) * CELL_MM;
      if (ring > 0 && nearest > 0 && nearest * nearest > best) break;
      for (let j = r - ring; j <= r + ring; j++) {
        const step = Math.abs(j - r) === ring ? 1 : Math.max(1, 2 * ring);
        for (let i = c - ring; i <= c + ring; i += step) {
          const bucket = this.buckets.get(keyOf(i, j));
          if (bucket === undefined) continue;
          for (const id of bucket) {
            if (this.stamp[id] === visit) continue;
            this.stamp[id] = visit;
            const squared = this.squaredDistance(id, x, y);
            if (squared < best) best = squared;
          }
        }
      }
    }
    return Math.sqrt(best);
  }

  /** For short distances every cell in reach is asked: one to a few. */
  private nearDistance(x: number, y: number, within: number): number {
    let best = within * within;
    const visit = ++this.visit;
    const c0 = Math.floor((x - within) / CELL_MM);
    const c1 = Math.floor((x + within) / CELL_MM);
    const r0 = Math.floor((y - within) / CELL_MM);
    const r1 = Math.floor((y + within) / CELL_MM);
    for (let r = r0; r <= r1; r++) {
      for (let c = c0; c <= c1; c++) {
        const bucket = this.buckets.get(keyOf(c, r));
        if (bucket === undefined) continue;
        for (const id of bucket) {
          if (this.stamp[id] === visit) continue;
          this.stamp[id] = visit;
          const squared = this.squaredDistance(id, x, y);
          if (squared < best) best = squared;
        }
      }
    }
    return Math.sqrt(best);
  }

  /** Parameters u in 0..1 along the straight stretch at which edges cross it, unsorted; touching ends count once or twice. */
  crossings(x0: number, y0: number, x1: number, y1: number): number[] {
    const out: number[] = [];
    const visit = ++this.visit;
    const dx = x1 - x0;
    const dy = y1 - y0;
    const c0 = Math.floor(Math.min(x0, x1) / CELL_MM);
    const c1 = Math.floor(Math.max(x0, x1) / CELL_MM);
    const r0 = Math.floor(Math.min(y0, y1) / CELL_MM);
    const r1 = Math.floor(Math.max(y0, y1) / CELL_MM);
    for (let r = r0; r <= r1; r++) {
      for (let c = c0; c <= c1; c++) {
        const bucket = this.buckets.get(keyOf(c, r));
        if (bucket === undefined) continue;
        for (const id of bucket) {
          if (this.stamp[id] === visit) continue;
          this.stamp[id] = visit;
          const ex = this.bx[id]! - this.ax[id]!;
          const ey = this.by[id]! - this.ay[id]!;
          const cross = dx * ey - dy * ex;
          if (cross === 0) continue;
          const wx = this.ax[id]! - x0;
          const wy = this.ay[id]! - y0;
          const u = (wx * ey - wy * ex) / cross;
          const v = (wx * dy - wy * dx) / cross;
          if (u >= 0 && u <= 1 && v >= 0 && v <= 1) out.push(u);
        }
      }
    }
    return out;
  }

  private squaredDistance(id: number, x: number, y: number): number {
    const ax = this.ax[id]!;
    const ay = this.ay[id]!;
    const dx = this.bx[id]! - ax;
    const dy = this.by[id]! - ay;
    const size = dx * dx + dy * dy;
    const u = size > 0 ? Math.min(1, Math.max(0, ((x - ax) * dx + (y - ay) * dy) / size)) : 0;
    const ex = x - ax - u * dx;
    const ey = y - ay - u * dy;
    return ex * ex + ey * ey;
  }
}

function keyOf(c: number, r: number): number {
  return c * 67108864 + r;
}
