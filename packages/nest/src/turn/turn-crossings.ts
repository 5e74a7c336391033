import { EDGE } from '../field/edges.ts';
import type { ContactRows } from './contact-rows.ts';
import type { TurnState } from './turn-state.ts';

/** Crossings looked at between two outlines; more mean a deep overlap, which points and circles see. */
const MOST_CROSSINGS = 8;
/** A crossing this close to an edge's end (share of the edge) counts as touching. */
const END_SHARE = 1e-9;

/**
 * Places where two outlines cross although no point of one may lie in the other (two tips through each other): points within
 * both, midway between two crossings.
 * @param rows - its `shared` is filled with x, y in body j's frame by turns.
 * @returns how many numbers were written.
 */
export function sharedByCrossing(state: TurnState, i: number, j: number, rows: ContactRows): number {
  const out = rows.shared;
  const { edges, edgeFrom, box } = state.forms;
  const fi = state.form[i]!;
  const fj = state.form[j]!;
  const c = state.cos[i]! * state.cos[j]! + state.sin[i]! * state.sin[j]!;
  const s = state.sin[i]! * state.cos[j]! - state.cos[i]! * state.sin[j]!;
  const dx = state.x[i]! - state.x[j]!;
  const dy = state.y[i]! - state.y[j]!;
  const tx = state.cos[j]! * dx + state.sin[j]! * dy;
  const ty = state.cos[j]! * dy - state.sin[j]! * dx;
  const b = 4 * fj;
  let count = 0;
  const last = edgeFrom[fj + 1]! * EDGE;
  for (let e = edgeFrom[fi]! * EDGE; e < edgeFrom[fi + 1]! * EDGE; e += EDGE) {
    const ax = c * edges[e]! - s * edges[e + 1]! + tx;
    const ay = s * edges[e]! + c * edges[e + 1]! + ty;
    const ux = c * edges[e + 2]! - s * edges[e + 3]!;
    const uy = s * edges[e + 2]! + c * edges[e + 3]!;
    if ((ux > 0 ? ax + ux : ax) <= box[b]! || (ux > 0 ? ax : ax + ux) >= box[b + 2]!) continue;
    if ((uy > 0 ? ay + uy : ay) <= box[b + 1]! || (uy > 0 ? ay : ay + uy) >= box[b + 3]!) continue;
    // an edge whose middle is further from the other outline than its ends are from it crosses nothing
    const half = 0.5 / edges[e + 5]! + state.forms.slack[fj]!;
    const rough = state.forms.roughly(fj, ax + ux / 2, ay + uy / 2);
    if (rough === -Infinity ? half <= state.forms.margin[fj]! : Math.abs(rough) > half) continue;
    rows.tests += edgeFrom[fj + 1]! - edgeFrom[fj]!;
    for (let f = edgeFrom[fj]! * EDGE; f < last; f += EDGE) {
      const vx = edges[f + 2]!;
      const vy = edges[f + 3]!;
      const cross = ux * vy - uy * vx;
      if (cross === 0) continue;
      const wx = edges[f]! - ax;
      const wy = edges[f + 1]! - ay;
      const t = (wx * vy - wy * vx) / cross;
      if (t <= END_SHARE || t >= 1 - END_SHARE) continue;
      const r = (wx * uy - wy * ux) / cross;
      if (r <= END_SHARE || r >= 1 - END_SHARE) continue;
      if (count === MOST_CROSSINGS) return middles(out, count);
      const at = 2 * count++;
      out[at] = ax + t * ux;
      out[at + 1] = ay + t * uy;
    }
  }
  return middles(out, count);
}

/** Replace crossings by the middles of each two of them. */
function middles(out: Float64Array, count: number): number {
  const held = out.slice(0, 2 * count);
  let fill = 0;
  for (let a = 0; a < count; a++) {
    for (let b = a + 1; b < count; b++) {
      out[fill++] = (held[2 * a]! + held[2 * b]!) / 2;
      out[fill++] = (held[2 * a + 1]! + held[2 * b + 1]!) / 2;
    }
  }
  return fill;
}
