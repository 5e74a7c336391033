import { type Ring, ringArea } from '@underlap/geometry/ring';

/** What a point finds of the nearest edge: how far, and its outward normal. */
export interface Nearest {
  distance: number;
  nx: number;
  ny: number;
}

/** Edges are bundled this many at a time under one box, so that most of a ring is passed over at a glance. */
const BUNDLE = 8;

/** The edges of a ring, made ready for many points that each want the nearest. */
export class NearestEdge {
  private readonly side: number;
  private readonly boxes: Float64Array;
  /** Offset of the second vertex of the edge found last: the next point is most likely near it too. */
  private last = 0;

  /** @remarks O(n); a question takes a look at every box and at the edges in a few of them. */
  constructor(private readonly ring: Ring) {
    this.side = ringArea(ring) >= 0 ? 1 : -1;
    this.boxes = edgeBoxes(ring);
  }

  /** Signed distance to the nearest edge (positive outside) and its outward normal. */
  find(x: number, y: number, out: Nearest): void {
    const { ring, boxes, side } = this;
    // nothing farther than the edge found last can be the nearest
    const limit = this.squaredTo(this.last, x, y);
    let best = Infinity;
    for (let box = 0, from = 0; box < boxes.length; box += 4, from += 2 * BUNDLE) {
      const outX = Math.max(0, boxes[box]! - x, x - boxes[box + 2]!);
      const outY = Math.max(0, boxes[box + 1]! - y, y - boxes[box + 3]!);
      const gap = outX * outX + outY * outY;
      if (gap > limit || gap > best) continue;
      const to = Math.min(from + 2 * BUNDLE, ring.length);
      for (let at = from; at < to; at += 2) {
        const before = at === 0 ? ring.length - 2 : at - 2;
        const px = ring[before]!;
        const py = ring[before + 1]!;
        const ex = ring[at]! - px;
        const ey = ring[at + 1]! - py;
        const length2 = ex * ex + ey * ey;
        const u = length2 === 0 ? 0 : Math.max(0, Math.min(1, ((x - px) * ex + (y - py) * ey) / length2));
        const dx = x - px - u * ex;
        const dy = y - py - u * ey;
        const d2 = dx * dx + dy * dy;
        if (d2 >= best || length2 === 0) continue;
        best = d2;
        this.last = at;
        const length = Math.sqrt(length2);
        out.nx = (ey / length) * side;
        out.ny = (-ex / length) * side;
        const across = dx * out.nx + dy * out.ny;
        out.distance = Math.sqrt(d2) * (across < 0 ? -1 : 1);
      }
    }
  }

  /** Squared distance to one edge and a hair more; Infinity where the edge has no length. */
  private squaredTo(at: number, x: number, y: number): number {
    const { ring } = this;
    const before = at === 0 ? ring.length - 2 : at - 2;
    const px = ring[before]!;
    const py = ring[before + 1]!;
    const ex = ring[at]! - px;
    const ey = ring[at + 1]! - py;
    const length2 = ex * ex + ey * ey;
    if (length2 === 0) return Infinity;
    const u = Math.max(0, Math.min(1, ((x - px) * ex + (y - py) * ey) / length2));
    return ((x - px - u * ex) ** 2 + (y - py - u * ey) ** 2) * (1 + 1e-9) + 1e-18;
  }
}

/** Boxes around bundles of edges: minX, minY, maxX, maxY; an edge ends at the vertex that it is named after. */
function edgeBoxes(ring: Ring): Float64Array {
  const bundles = Math.ceil(ring.length / 2 / BUNDLE);
  const boxes = new Float64Array(4 * bundles);
  for (let bundle = 0; bundle < bundles; bundle++) {
    const box = 4 * bundle;
    boxes.set([Infinity, Infinity, -Infinity, -Infinity], box);
    const to = Math.min(2 * BUNDLE * (bundle + 1), ring.length);
    for (let at = 2 * BUNDLE * bundle - 2; at < to; at += 2) {
      const vertex = at < 0 ? ring.length - 2 : at;
      boxes[box] = Math.min(boxes[box]!, ring[vertex]!);
      boxes[box + 1] = Math.min(boxes[box + 1]!, ring[vertex + 1]!);
      boxes[box + 2] = Math.max(boxes[box + 2]!, ring[vertex]!);
      boxes[box + 3] = Math.max(boxes[box + 3]!, ring[vertex + 1]!);
    }
  }
  return boxes;
}
