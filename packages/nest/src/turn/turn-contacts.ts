import { EDGE, isInsideEdges } from '../field/edges.ts';
import { type ContactRows, NO_BODY } from './contact-rows.ts';
import { sharedByCrossing } from './turn-crossings.ts';
import type { TurnState } from './turn-state.ts';

/**
 * All gaps up to `reach` between two bodies: corners of one against edges of the other, both ways.
 * @returns how deep the two overlap at most, 0 = apart (as TurnState.depthAt, by corners alone).
 */
export function contactsBetween(state: TurnState, i: number, j: number, reach: number, rows: ContactRows): number {
  const clearance = Math.max(state.clearance[i]!, state.clearance[j]!);
  const dx = state.x[i]! - state.x[j]!;
  const dy = state.y[i]! - state.y[j]!;
  const apart = clearance + reach;
  if (isFar(state, i, j, dx, dy, apart) || isFar(state, j, i, -dx, -dy, apart)) return 0;
  return Math.max(
    outlineAgainst(state, i, j, clearance, reach, rows),
    outlineAgainst(state, j, i, clearance, reach, rows),
    crossed(state, i, j, clearance, rows),
  );
}

/** Rows for what two outlines share where they cross. @returns how deep. */
function crossed(state: TurnState, i: number, j: number, clearance: number, rows: ContactRows): number {
  const shared = rows.shared;
  const count = sharedByCrossing(state, i, j, rows);
  let deepest = 0;
  for (let k = 0; k < count; k += 2) {
    // from j's frame to the board's, and on to i's
    const bx = state.cos[j]! * shared[k]! - state.sin[j]! * shared[k + 1]!;
    const by = state.sin[j]! * shared[k]! + state.cos[j]! * shared[k + 1]!;
    const ax = bx + state.x[j]! - state.x[i]!;
    const ay = by + state.y[j]! - state.y[i]!;
    const ownX = state.cos[i]! * ax + state.sin[i]! * ay;
    const ownY = state.cos[i]! * ay - state.sin[i]! * ax;
    if (!isWithin(state, i, ownX, ownY) || !isWithin(state, j, shared[k]!, shared[k + 1]!)) continue;
    const one = pointAgainst(state, i, j, ownX, ownY, clearance, clearance, rows);
    const other = pointAgainst(state, j, i, shared[k]!, shared[k + 1]!, clearance, clearance, rows);
    deepest = Math.max(deepest, Math.min(one, other));
  }
  return deepest;
}

function isWithin(state: TurnState, body: number, x: number, y: number): boolean {
  const { edges, edgeFrom } = state.forms;
  const form = state.form[body]!;
  return isInsideEdges(edges, edgeFrom[form]!, edgeFrom[form + 1]!, x, y);
}

/** Is body i, by its circle, out of reach of body j's box? */
function isFar(state: TurnState, i: number, j: number, dx: number, dy: number, apart: number): boolean {
  const { box } = state.forms;
  const tx = state.cos[j]! * dx + state.sin[j]! * dy;
  const ty = state.cos[j]! * dy - state.sin[j]! * dx;
  const r = state.radius[i]! + apart;
  const b = 4 * state.form[j]!;
  return tx <= box[b]! - r || ty <= box[b + 1]! - r || tx >= box[b + 2]! + r || ty >= box[b + 3]! + r;
}

/** Circles of a body count within this share of the reach: most of what they tell, points on the outline tell as well. */
const CIRCLE_REACH = 0.3;

/** Points and circles of body i against the edges of body j. */
function outlineAgainst(
  state: TurnState,
  i: number,
  j: number,
  clearance: number,
  reach: number,
  rows: ContactRows,
): number {
  const { points, pointFrom, circles, circleFrom } = state.forms;
  const fi = state.form[i]!;
  let deepest = 0;
  const end = 2 * pointFrom[fi + 1]!;
  for (let k = 2 * pointFrom[fi]!; k < end; k += 2) {
    const depth = pointAgainst(state, i, j, points[k]!, points[k + 1]!, clearance, clearance + reach, rows);
    if (depth > deepest) deepest = depth;
  }
  // circles count where they overlap: what touches is told by points on the outlines
  const last = 3 * circleFrom[fi + 1]!;
  for (let k = 3 * circleFrom[fi]!; k < last; k += 3) {
    const apart = clearance + circles[k + 2]!;
    const depth = pointAgainst(state, i, j, circles[k]!, circles[k + 1]!, apart, apart + CIRCLE_REACH * reach, rows);
    if (depth > deepest) deepest = depth;
  }
  return deepest;
}

/**
 * One point of body i, which must keep `clearance` from body j.
 * @param apart - gaps up to here are of interest.
 * @returns how much of the clearance is missing, 0 = none.
 */
function pointAgainst(
  state: TurnState,
  i: number,
  j: number,
  ownX: number,
  ownY: number,
  clearance: number,
  apart: number,
  rows: ContactRows,
): number {
  const { edges, edgeFrom, edgeBefore, edgeAfter, box } = state.forms;
  const fj = state.form[j]!;
  const ci = state.cos[i]!;
  const si = state.sin[i]!;
  const cj = state.cos[j]!;
  const sj = state.sin[j]!;
  // lever arms in the board's frame: from i's centre and from j's centre to the point
  const ax = ci * ownX - si * ownY;
  const ay = si * ownX + ci * ownY;
  const bx = ax + state.x[i]! - state.x[j]!;
  const by = ay + state.y[i]! - state.y[j]!;
  const px = cj * bx + sj * by;
  const py = cj * by - sj * bx;
  const b = 4 * fj;
  if (px <= box[b]! - apart || py <= box[b + 1]! - apart || px >= box[b + 2]! + apart || py >= box[b + 3]! + apart)
    return 0;
  const rough = state.forms.roughly(fj, px, py);
  if (rough === -Infinity ? apart <= state.forms.margin[fj]! : rough + state.forms.slack[fj]! < -apart) return 0;
  rows.tests += edgeFrom[fj + 1]! - edgeFrom[fj]!;
  const last = edgeFrom[fj + 1]!;
  let best = Infinity;
  let nearest = -1;
  let where = 0;
  for (let e = edgeFrom[fj]!; e < last; e++) {
    const r = e * EDGE;
    const qx = px - edges[r]!;
    const qy = py - edges[r + 1]!;
    let t = (qx * edges[r + 2]! + qy * edges[r + 3]!) * edges[r + 4]!;
    if (t < 0) t = 0;
    else if (t > 1) t = 1;
    const rx = qx - t * edges[r + 2]!;
    const ry = qy - t * edges[r + 3]!;
    const d = rx * rx + ry * ry;
    if (d < best) {
      best = d;
      nearest = e;
      where = t;
    }
  }
  const r = nearest * EDGE;
  const side = outside(edges, r, px, py);
  const isStart = where === 0;
  const isEnd = where === 1;
  const corner = isStart ? edges[r + 6]! : isEnd ? edges[r + 7]! : 0;
  const isOut = corner === 0 ? side >= 0 : corner < 0;
  if (isOut && best >= apart * apart) return 0;
  const distance = Math.sqrt(best);
  if (corner < 0) {
    // beyond a convex corner: away from the corner where that is a direction, else away from the edge it is more outside of
    const other = isStart ? edgeBefore[nearest]! : edgeAfter[nearest]!;
    if (distance > 1e-6 * state.radius[j]!) {
      const cx = edges[r]! + (isEnd ? edges[r + 2]! : 0);
      const cy = edges[r + 1]! + (isEnd ? edges[r + 3]! : 0);
      add(state, rows, i, j, (px - cx) / distance, (py - cy) / distance, distance - clearance, ax, ay, bx, by);
    } else {
      const e = outside(edges, other * EDGE, px, py) > side ? other : nearest;
      addEdge(state, rows, i, j, e, outside(edges, e * EDGE, px, py) - clearance, ax, ay, bx, by);
    }
  } else {
    addEdge(state, rows, i, j, nearest, side - clearance, ax, ay, bx, by);
    // both sides of a reflex corner count
    if (corner > 0) {
      const e = isStart ? edgeBefore[nearest]! : edgeAfter[nearest]!;
      addEdge(state, rows, i, j, e, outside(edges, e * EDGE, px, py) - clearance, ax, ay, bx, by);
    }
  }
  // further edges that the point may meet
  for (let e = edgeFrom[fj]!; e < last; e++) {
    if (e === nearest) continue;
    const o = e * EDGE;
    const s = outside(edges, o, px, py);
    if (s >= apart) continue;
    const t = ((px - edges[o]!) * edges[o + 2]! + (py - edges[o + 1]!) * edges[o + 3]!) * edges[o + 4]!;
    // beyond its ends an edge counts only where it rises from a reflex corner near by, into which the point may slide
    if (t < 0) {
      if (edges[o + 6]! < 0 || Math.hypot(px - edges[o]!, py - edges[o + 1]!) >= apart) continue;
    } else if (t > 1) {
      const endX = edges[o]! + edges[o + 2]!;
      const endY = edges[o + 1]! + edges[o + 3]!;
      if (edges[o + 7]! < 0 || Math.hypot(px - endX, py - endY) >= apart) continue;
    }
    const meetsReflex =
      (e === edgeBefore[nearest]! && edges[o + 7]! > 0) || (e === edgeAfter[nearest]! && edges[o + 6]! > 0);
    if (corner > 0 && meetsReflex) continue;
    if (s < 0 ? !(meetsReflex && -s < apart) : !isOut) continue;
    addEdge(state, rows, i, j, e, s - clearance, ax, ay, bx, by);
  }
  return Math.max(0, clearance + (isOut ? -distance : distance));
}

/** Signed distance of a point from the line of an edge, positive on the outer side. */
function outside(edges: Float64Array, r: number, px: number, py: number): number {
  return (edges[r + 3]! * (px - edges[r]!) - edges[r + 2]! * (py - edges[r + 1]!)) * edges[r + 5]!;
}

function addEdge(
  state: TurnState,
  rows: ContactRows,
  i: number,
  j: number,
  e: number,
  gap: number,
  ax: number,
  ay: number,
  bx: number,
  by: number,
): void {
  const { edges } = state.forms;
  const r = e * EDGE;
  add(state, rows, i, j, edges[r + 3]! * edges[r + 5]!, -edges[r + 2]! * edges[r + 5]!, gap, ax, ay, bx, by);
}

/** One row: body i's corner at lever arm a must move out along the normal (mx, my), given in j's frame. */
function add(
  state: TurnState,
  rows: ContactRows,
  i: number,
  j: number,
  mx: number,
  my: number,
  gap: number,
  ax: number,
  ay: number,
  bx: number,
  by: number,
): void {
  const nx = state.cos[j]! * mx - state.sin[j]! * my;
  const ny = state.sin[j]! * mx + state.cos[j]! * my;
  const row = rows.push(i, j, gap, 0);
  const at = 6 * row;
  const { slope } = rows;
  slope[at] = nx;
  slope[at + 1] = ny;
  slope[at + 2] = (ny * ax - nx * ay) / state.radius[i]!;
  slope[at + 3] = -nx;
  slope[at + 4] = -ny;
  slope[at + 5] = (nx * by - ny * bx) / state.radius[j]!;
}

/** Corners of an item within reach of the walls of its board; `isStrip`: the right wall is the length to be made shorter. */
export function wallContacts(state: TurnState, i: number, reach: number, isStrip: boolean, rows: ContactRows): number {
  const { hull, hullFrom } = state.forms;
  const board = state.boardOf(i);
  const cos = state.cos[i]!;
  const sin = state.sin[i]!;
  let deepest = 0;
  const end = 2 * hullFrom[state.form[i]! + 1]!;
  for (let k = 2 * hullFrom[state.form[i]!]!; k < end; k += 2) {
    const ax = cos * hull[k]! - sin * hull[k + 1]!;
    const ay = sin * hull[k]! + cos * hull[k + 1]!;
    const x = state.x[i]! + ax;
    const y = state.y[i]! + ay;
    const gap = Math.min(
      wall(state, rows, i, ax, ay, 1, 0, x - board.minX, reach, 0),
      wall(state, rows, i, ax, ay, 0, 1, y - board.minY, reach, 0),
      wall(state, rows, i, ax, ay, 0, -1, board.maxY - y, reach, 0),
      wall(state, rows, i, ax, ay, -1, 0, board.maxX - x, reach, isStrip ? 1 : 0),
    );
    if (-gap > deepest) deepest = -gap;
  }
  return deepest;
}

/** A row for a corner at lever arm a and a wall with inward normal n, where the gap is within reach. @returns the gap. */
function wall(
  state: TurnState,
  rows: ContactRows,
  i: number,
  ax: number,
  ay: number,
  nx: number,
  ny: number,
  gap: number,
  reach: number,
  far: number,
): number {
  if (gap >= reach) return gap;
  const at = 6 * rows.push(i, NO_BODY, gap, far);
  rows.slope[at] = nx;
  rows.slope[at + 1] = ny;
  rows.slope[at + 2] = (ny * ax - nx * ay) / state.radius[i]!;
  rows.slope.fill(0, at + 3, at + 6);
  return gap;
}
