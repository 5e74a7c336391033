import { BEAD, CHUNK } from './bead-chunks.ts';
import { HEAD, SIDE, type TurnForms } from './turn-forms.ts';

/** How deep forms reach into each other, read from their grids of distances. */
export class GridDepths {
  readonly #forms: TurnForms;
  /** Chunks and beads looked at. */
  looked = 0;

  constructor(forms: TurnForms) {
    this.#forms = forms;
  }

  /** Deepest of the large circles of one form in another, the first turned by (c, s) and moved by t in the other's frame; at least `known`. */
  deepestCircle(of: number, within: number, c: number, s: number, tx: number, ty: number, known: number): number {
    const { circles, circleFrom, largeTo } = this.#forms;
    let deepest = known;
    const last = 3 * largeTo[of]!;
    for (let k = 3 * circleFrom[of]!; k < last; k += 3) {
      const x = c * circles[k]! - s * circles[k + 1]! + tx;
      const d = this.#distanceWithin(within, x, s * circles[k]! + c * circles[k + 1]! + ty) + circles[k + 2]!;
      if (d > deepest) deepest = d;
    }
    return deepest;
  }

  /** The same for samples of the outline and circles of tips; chunks that reach no deeper are passed over. */
  deepestBead(of: number, within: number, c: number, s: number, tx: number, ty: number, known: number): number {
    const { beads, chunks, chunkFrom, slack } = this.#forms;
    let deepest = known;
    const apart = slack[within]!;
    const end = CHUNK * chunkFrom[of + 1]!;
    this.looked += chunkFrom[of + 1]! - chunkFrom[of]!;
    for (let at = CHUNK * chunkFrom[of]!; at < end; at += CHUNK) {
      const cx = c * chunks[at]! - s * chunks[at + 1]! + tx;
      const cy = s * chunks[at]! + c * chunks[at + 1]! + ty;
      const most = this.#atMostWithin(within, cx, cy) + chunks[at + 2]! + apart;
      if (most <= deepest) continue;
      const last = chunks[at + 4]!;
      this.looked += (last - chunks[at + 3]!) / BEAD;
      for (let k = chunks[at + 3]!; k < last; k += BEAD) {
        const x = c * beads[k]! - s * beads[k + 1]! + tx;
        const d = this.#distanceWithin(within, x, s * beads[k]! + c * beads[k + 1]! + ty) + beads[k + 2]!;
        if (d > deepest) deepest = d;
      }
    }
    return deepest;
  }

  /** No less than the distance by the grid, but for `slack`: at the nearest node, beyond the grid to its box. */
  #atMostWithin(form: number, x: number, y: number): number {
    const { nodes, head, box } = this.#forms;
    const h = HEAD * form;
    const gx = (x - head[h]!) * head[h + 2]!;
    const gy = (y - head[h + 1]!) * head[h + 3]!;
    if (gx >= 0 && gy >= 0 && gx < SIDE - 1 && gy < SIDE - 1) {
      return nodes[SIDE * SIDE * form + ((gy + 0.5) | 0) * SIDE + ((gx + 0.5) | 0)]!;
    }
    const b = 4 * form;
    const dx = box[b]! > x ? box[b]! - x : x > box[b + 2]! ? x - box[b + 2]! : 0;
    const dy = box[b + 1]! > y ? box[b + 1]! - y : y > box[b + 3]! ? y - box[b + 3]! : 0;
    return dx > dy ? -dx : -dy;
  }

  /** Distance of a point from a form's outline by its grid, positive inside; -Infinity beyond the grid. */
  #distanceWithin(form: number, x: number, y: number): number {
    const { nodes, head } = this.#forms;
    const h = HEAD * form;
    const gx = (x - head[h]!) * head[h + 2]!;
    if (!(gx >= 0 && gx < SIDE - 1)) return -Infinity;
    const gy = (y - head[h + 1]!) * head[h + 3]!;
    if (!(gy >= 0 && gy < SIDE - 1)) return -Infinity;
    const column = gx | 0;
    const row = gy | 0;
    const at = SIDE * SIDE * form + row * SIDE + column;
    const fx = gx - column;
    const low = nodes[at]! + fx * (nodes[at + 1]! - nodes[at]!);
    const high = nodes[at + SIDE]! + fx * (nodes[at + SIDE + 1]! - nodes[at + SIDE]!);
    return low + (gy - row) * (high - low);
  }
}
