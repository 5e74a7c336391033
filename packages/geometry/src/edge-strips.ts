import type { Region } from './region.ts';
import { type Bounds, type Ring, ringBounds } from './ring.ts';

/** Edges to a strip, about: few enough to be looked at one by one. */
const EDGES_A_STRIP = 6;

/** The edges of a ring by the horizontal strips they run through, so that a short line meets few of them. */
class RingStrips {
  readonly box: Bounds;
  private readonly count: number;
  private readonly perMm: number;
  /** Edges of strip s: `edges[starts[s]]` to before `edges[starts[s + 1]]`, each by the offset of its second vertex. */
  private readonly starts: Int32Array;
  private readonly edges: Int32Array;

  /** @remarks O(n), and O(strips) more for every edge that runs through many. */
  constructor(private readonly ring: Ring) {
    this.box = ringBounds(ring);
    this.count = Math.max(1, Math.floor(ring.length / 2 / EDGES_A_STRIP));
    const height = this.box.maxY - this.box.minY;
    this.perMm = height > 0 ? this.count / height : 0;
    this.starts = new Int32Array(this.count + 1);
    this.eachEdge((first, last) => {
      for (let strip = first; strip <= last; strip++) this.starts[strip + 1]! += 1;
    });
    for (let strip = 0; strip < this.count; strip++) this.starts[strip + 1]! += this.starts[strip]!;
    this.edges = new Int32Array(this.starts[this.count]!);
    const next = this.starts.slice();
    this.eachEdge((first, last, at) => {
      for (let strip = first; strip <= last; strip++) this.edges[next[strip]!++] = at;
    });
  }

  private eachEdge(tell: (first: number, last: number, at: number) => void): void {
    const { ring } = this;
    for (let at = 0, before = ring.length - 2; at < ring.length; before = at, at += 2) {
      const [y, z] = [ring[before + 1]!, ring[at + 1]!];
      tell(this.stripAt(Math.min(y, z)), this.stripAt(Math.max(y, z)), at);
    }
  }

  private stripAt(y: number): number {
    return Math.min(Math.max(Math.floor((y - this.box.minY) * this.perMm), 0), this.count - 1);
  }

  /** Adds to `stops` where along a-b, 0..1 without the ends, an edge is crossed. */
  cross(ax: number, ay: number, bx: number, by: number, stops: number[]): void {
    const { box, ring, starts, edges } = this;
    if (box.minX > Math.max(ax, bx) || box.maxX < Math.min(ax, bx)) return;
    if (box.minY > Math.max(ay, by) || box.maxY < Math.min(ay, by)) return;
    const dx = bx - ax;
    const dy = by - ay;
    const from = this.stripAt(Math.min(ay, by));
    const to = this.stripAt(Math.max(ay, by));
    for (let strip = from; strip <= to; strip++) {
      for (let k = starts[strip]!; k < starts[strip + 1]!; k++) {
        const at = edges[k]!;
        const before = at === 0 ? ring.length - 2 : at - 2;
        const px = ring[before]!;
        const py = ring[before + 1]!;
        const qy = ring[at + 1]!;
        // an edge that runs through several of these strips counts in the first
        if (strip > from && this.stripAt(Math.min(py, qy)) < strip) continue;
        const ex = ring[at]! - px;
        const ey = qy - py;
        const cross = dx * ey - dy * ex;
        if (cross === 0) continue;
        const u = ((px - ax) * ey - (py - ay) * ex) / cross;
        const w = ((px - ax) * dy - (py - ay) * dx) / cross;
        if (u > 0 && u < 1 && w >= 0 && w <= 1) stops.push(u);
      }
    }
  }

  /** Is the point inside, by the same rule as `isInRing`? */
  holds(x: number, y: number): boolean {
    const { box, ring, starts, edges } = this;
    if (y < box.minY || y > box.maxY) return false;
    const strip = this.stripAt(y);
    let inside = false;
    for (let k = starts[strip]!; k < starts[strip + 1]!; k++) {
      const at = edges[k]!;
      const before = at === 0 ? ring.length - 2 : at - 2;
      const px = ring[before]!;
      const py = ring[before + 1]!;
      const qx = ring[at]!;
      const qy = ring[at + 1]!;
      if (qy > y !== py > y && x < ((px - qx) * (y - qy)) / (py - qy) + qx) inside = !inside;
    }
    return inside;
  }
}

/** Regions made ready for many short lines and points. */
export class EdgeStrips {
  private readonly regions: readonly { readonly outer: RingStrips; readonly holes: readonly RingStrips[] }[];

  /** @remarks O(n). */
  constructor(regions: readonly Region[]) {
    this.regions = regions.map(({ outer, holes }) => ({
      outer: new RingStrips(outer),
      holes: holes.map((hole) => new RingStrips(hole)),
    }));
  }

  /** Places along a-b where it crosses an edge, with 0 and 1, ascending. */
  stops(ax: number, ay: number, bx: number, by: number): number[] {
    const stops = [0, 1];
    for (const { outer, holes } of this.regions) {
      outer.cross(ax, ay, bx, by, stops);
      for (const hole of holes) hole.cross(ax, ay, bx, by, stops);
    }
    return stops.sort((first, second) => first - second);
  }

  /** Does any of the regions hold the point? Edge points may be told either way. */
  holds(x: number, y: number): boolean {
    return this.regions.some(({ outer, holes }) => outer.holds(x, y) && !holes.some((hole) => hole.holds(x, y)));
  }
}
