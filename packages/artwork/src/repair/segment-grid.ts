import { type Ring, ringBounds } from '@underlap/geometry/ring';

/** A polyline's edges in a square grid, to find how far points are from it in about constant time each. */
export class SegmentGrid {
  private readonly ring: Ring;
  private readonly edges: number;
  private readonly cell: number;
  private readonly originX: number;
  private readonly originY: number;
  private readonly cells = new Map<number, number[]>();
  private readonly columns: number;

  /** @remarks About as many cells as edges, so that a cell holds a few. */
  constructor(ring: Ring, isClosed: boolean) {
    this.ring = ring;
    const count = ring.length / 2;
    this.edges = isClosed ? count : count - 1;
    const { minX, minY, maxX, maxY } = ringBounds(ring);
    const side = Math.max(maxX - minX, maxY - minY, Number.MIN_VALUE);
    this.cell = side / Math.max(1, Math.ceil(Math.sqrt(this.edges)));
    this.originX = minX;
    this.originY = minY;
    this.columns = Math.ceil(side / this.cell) + 3;
    for (let i = 0; i < this.edges; i++) this.insert(i);
  }

  /** Largest distance of the points from the polyline; null when one is farther than `limit`. */
  farthest(points: Ring, limit: number): number | null {
    let largest = 0;
    for (let i = 0; i < points.length; i += 2) {
      const distance = this.distance(points[i]!, points[i + 1]!, limit);
      if (distance > limit) return null;
      largest = Math.max(largest, distance);
    }
    return largest;
  }

  private distance(x: number, y: number, limit: number): number {
    let least = Infinity;
    for (let column = this.index(x - limit - this.originX); column <= this.index(x + limit - this.originX); column++) {
      for (let row = this.index(y - limit - this.originY); row <= this.index(y + limit - this.originY); row++) {
        for (const edge of this.cells.get(row * this.columns + column) ?? []) {
          least = Math.min(least, this.edgeDistance(edge, x, y));
          if (least === 0) return 0;
        }
      }
    }
    return least;
  }

  private edgeDistance(edge: number, x: number, y: number): number {
    const [ax, ay, bx, by] = this.ends(edge);
    const dx = bx - ax;
    const dy = by - ay;
    const square = dx * dx + dy * dy;
    const u = square === 0 ? 0 : Math.min(1, Math.max(0, ((x - ax) * dx + (y - ay) * dy) / square));
    return Math.hypot(x - ax - u * dx, y - ay - u * dy);
  }

  private ends(edge: number): readonly [number, number, number, number] {
    const next = (edge + 1) % (this.ring.length / 2);
    return [this.ring[2 * edge]!, this.ring[2 * edge + 1]!, this.ring[2 * next]!, this.ring[2 * next + 1]!];
  }

  /** Walks the edge in steps of half a cell and marks the cells around, which covers every cell that it touches. */
  private insert(edge: number): void {
    const [ax, ay, bx, by] = this.ends(edge);
    const steps = Math.max(1, Math.ceil((2 * Math.hypot(bx - ax, by - ay)) / this.cell));
    let last = -1;
    for (let k = 0; k <= steps; k++) {
      const column = this.index(ax + ((bx - ax) * k) / steps - this.originX);
      const row = this.index(ay + ((by - ay) * k) / steps - this.originY);
      const key = row * this.columns + column;
      if (key === last) continue;
      last = key;
      for (const near of [key, key - 1, key + 1, key - this.columns, key + this.columns]) this.mark(near, edge);
    }
  }

  private mark(key: number, edge: number): void {
    const list = this.cells.get(key);
    if (list === undefined) this.cells.set(key, [edge]);
    else if (list.at(-1) !== edge) list.push(edge);
  }

  private index(offset: number): number {
    return Math.min(this.columns - 2, Math.max(0, Math.floor(offset / this.cell) + 1));
  }
}
