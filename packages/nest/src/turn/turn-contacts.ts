import { EDGE, isInsideEdges } from '../field/edges.ts';
import { type ContactRows, NO_BODY } from './contact-rows.ts';
import { sharedByCrossing } from './turn-crossings.ts';
import type { TurnState } from './turn-state.ts';

/** Circles of a body count within this share of the reach: most of what they tell, points on the outline tell as well. */
const CIRCLE_REACH = 0.3;
/** Nearer to a corner than this share of the radius, the direction away from it is rounding. */
const ON_CORNER = 1e-6;

/** Finds the gaps that bodies and walls can close within a reach, and writes a row for each. */
export class Contacts {
  readonly #state: TurnState;
  readonly #rows: ContactRows;
  /** The pair looked at: a point of body `moving` against the edges of body `still`. */
  #moving = 0;
  #still = 0;
  /** Lever arms in the board's frame: from the moving body's centre to the point, and from the still one's. */
  #armX = 0;
  #armY = 0;
  #stillArmX = 0;
  #stillArmY = 0;

  constructor(state: TurnState, rows: ContactRows) {
    this.#state = state;
    this.#rows = rows;
  }

  /**
   * All gaps up to `reach` between two bodies: corners of one against edges of the other, both ways.
   * @returns how deep the two overlap at most, 0 = apart (as TurnState.depthAt, by corners alone).
   */
  between(i: number, j: number, reach: number): number {
    const { clearance: kept } = this.#state;
    const clearance = Math.max(kept[i]!, kept[j]!);
    if (this.#isFar(i, j, clearance + reach) || this.#isFar(j, i, clearance + reach)) return 0;
    return Math.max(
      this.#outlineAgainst(i, j, clearance, reach),
      this.#outlineAgainst(j, i, clearance, reach),
      this.#crossed(i, j, clearance),
    );
  }

  /**
   * Corners of an item within reach of the walls of its board.
   * @param isStrip - the right wall is the length to be made shorter.
   * @returns how far it sticks out, 0 = not at all.
   */
  walls(i: number, reach: number, isStrip: boolean): number {
    const state = this.#state;
    const { hull, hullFrom } = state.forms;
    const board = state.boardOf(i);
    const cos = state.cos[i]!;
    const sin = state.sin[i]!;
    this.#moving = i;
    let deepest = 0;
    const end = 2 * hullFrom[state.form[i]! + 1]!;
    for (let k = 2 * hullFrom[state.form[i]!]!; k < end; k += 2) {
      this.#armX = cos * hull[k]! - sin * hull[k + 1]!;
      this.#armY = sin * hull[k]! + cos * hull[k + 1]!;
      const x = state.x[i]! + this.#armX;
      const y = state.y[i]! + this.#armY;
      const gap = Math.min(
        this.#wall(1, 0, x - board.minX, reach, 0),
        this.#wall(0, 1, y - board.minY, reach, 0),
        this.#wall(0, -1, board.maxY - y, reach, 0),
        this.#wall(-1, 0, board.maxX - x, reach, isStrip ? 1 : 0),
      );
      if (-gap > deepest) deepest = -gap;
    }
    return deepest;
  }

  /** Rows for what two outlines share where they cross. @returns how deep. */
  #crossed(i: number, j: number, clearance: number): number {
    const state = this.#state;
    const rows = this.#rows;
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
      if (!this.#isWithin(i, ownX, ownY) || !this.#isWithin(j, shared[k]!, shared[k + 1]!)) continue;
      this.#turnTo(i, j);
      const one = this.#pointAgainst(ownX, ownY, clearance, clearance);
      this.#turnTo(j, i);
      const other = this.#pointAgainst(shared[k]!, shared[k + 1]!, clearance, clearance);
      deepest = Math.max(deepest, Math.min(one, other));
    }
    return deepest;
  }

  #turnTo(moving: number, still: number): void {
    this.#moving = moving;
    this.#still = still;
  }

  #isWithin(body: number, x: number, y: number): boolean {
    const { edges, edgeFrom } = this.#state.forms;
    const form = this.#state.form[body]!;
    return isInsideEdges(edges, edgeFrom[form]!, edgeFrom[form + 1]!, x, y);
  }

  /** Is body i, by its circle, out of reach of body j's box? */
  #isFar(i: number, j: number, apart: number): boolean {
    const state = this.#state;
    const { box } = state.forms;
    const dx = state.x[i]! - state.x[j]!;
    const dy = state.y[i]! - state.y[j]!;
    const tx = state.cos[j]! * dx + state.sin[j]! * dy;
    const ty = state.cos[j]! * dy - state.sin[j]! * dx;
    const r = state.radius[i]! + apart;
    const b = 4 * state.form[j]!;
    return tx <= box[b]! - r || ty <= box[b + 1]! - r || tx >= box[b + 2]! + r || ty >= box[b + 3]! + r;
  }

  /** Points and circles of body i against the edges of body j. */
  #outlineAgainst(i: number, j: number, clearance: number, reach: number): number {
    const { points, pointFrom, circles, circleFrom } = this.#state.forms;
    const form = this.#state.form[i]!;
    this.#turnTo(i, j);
    let deepest = 0;
    const end = 2 * pointFrom[form + 1]!;
    for (let k = 2 * pointFrom[form]!; k < end; k += 2) {
      const depth = this.#pointAgainst(points[k]!, points[k + 1]!, clearance, clearance + reach);
      if (depth > deepest) deepest = depth;
    }
    // circles count where they overlap: what touches is told by points on the outlines
    const last = 3 * circleFrom[form + 1]!;
    for (let k = 3 * circleFrom[form]!; k < last; k += 3) {
      const apart = clearance + circles[k + 2]!;
      const depth = this.#pointAgainst(circles[k]!, circles[k + 1]!, apart, apart + CIRCLE_REACH * reach);
      if (depth > deepest) deepest = depth;
    }
    return deepest;
  }

  /**
   * One point of the moving body, in its own frame, which must keep `clearance` from the still one.
   * @param apart - gaps up to here are of interest.
   * @returns how much of the clearance is missing, 0 = none.
   */
  #pointAgainst(ownX: number, ownY: number, clearance: number, apart: number): number {
    const state = this.#state;
    const { edges, edgeFrom, box } = state.forms;
    const i = this.#moving;
    const j = this.#still;
    const form = state.form[j]!;
    const ci = state.cos[i]!;
    const si = state.sin[i]!;
    const cj = state.cos[j]!;
    const sj = state.sin[j]!;
    this.#armX = ci * ownX - si * ownY;
    this.#armY = si * ownX + ci * ownY;
    this.#stillArmX = this.#armX + state.x[i]! - state.x[j]!;
    this.#stillArmY = this.#armY + state.y[i]! - state.y[j]!;
    const px = cj * this.#stillArmX + sj * this.#stillArmY;
    const py = cj * this.#stillArmY - sj * this.#stillArmX;
    const b = 4 * form;
    if (px <= box[b]! - apart || py <= box[b + 1]! - apart || px >= box[b + 2]! + apart || py >= box[b + 3]! + apart)
      return 0;
    const rough = state.forms.roughly(form, px, py);
    if (rough === -Infinity ? apart <= state.forms.margin[form]! : rough + state.forms.slack[form]! < -apart) return 0;
    this.#rows.tests += edgeFrom[form + 1]! - edgeFrom[form]!;
    const last = edgeFrom[form + 1]!;
    let best = Infinity;
    let nearest = -1;
    let where = 0;
    for (let e = edgeFrom[form]!; e < last; e++) {
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
    const corner = where === 0 ? edges[r + 6]! : where === 1 ? edges[r + 7]! : 0;
    const isOut = corner === 0 ? outside(edges, r, px, py) >= 0 : corner < 0;
    if (isOut && best >= apart * apart) return 0;
    const distance = Math.sqrt(best);
    this.#addNearest(nearest, where, corner, distance, px, py, clearance);
    this.#addFurther(nearest, corner, isOut, px, py, clearance, apart);
    return Math.max(0, clearance + (isOut ? -distance : distance));
  }

  /** The edge or corner that a point is nearest to. `where`: 0 and 1 = the edge's ends; `corner`: below 0 convex, above 0 reflex. */
  #addNearest(
    nearest: number,
    where: number,
    corner: number,
    distance: number,
    px: number,
    py: number,
    clearance: number,
  ): void {
    const state = this.#state;
    const { edges, edgeBefore, edgeAfter } = state.forms;
    const r = nearest * EDGE;
    const side = outside(edges, r, px, py);
    const other = where === 0 ? edgeBefore[nearest]! : edgeAfter[nearest]!;
    if (corner >= 0) {
      this.#addEdge(nearest, side - clearance);
      // both sides of a reflex corner count
      if (corner > 0) this.#addEdge(other, outside(edges, other * EDGE, px, py) - clearance);
      return;
    }
    // beyond a convex corner: away from the corner where that is a direction, else away from the edge it is more outside of
    if (distance > ON_CORNER * state.radius[this.#still]!) {
      const cx = edges[r]! + (where === 1 ? edges[r + 2]! : 0);
      const cy = edges[r + 1]! + (where === 1 ? edges[r + 3]! : 0);
      this.#add((px - cx) / distance, (py - cy) / distance, distance - clearance);
    } else {
      const e = outside(edges, other * EDGE, px, py) > side ? other : nearest;
      this.#addEdge(e, outside(edges, e * EDGE, px, py) - clearance);
    }
  }

  /** Further edges that the point may meet. */
  #addFurther(
    nearest: number,
    corner: number,
    isOut: boolean,
    px: number,
    py: number,
    clearance: number,
    apart: number,
  ): void {
    const state = this.#state;
    const { edges, edgeFrom, edgeBefore, edgeAfter } = state.forms;
    const form = state.form[this.#still]!;
    for (let e = edgeFrom[form]!; e < edgeFrom[form + 1]!; e++) {
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
      this.#addEdge(e, s - clearance);
    }
  }

  #addEdge(e: number, gap: number): void {
    const { edges } = this.#state.forms;
    const r = e * EDGE;
    this.#add(edges[r + 3]! * edges[r + 5]!, -edges[r + 2]! * edges[r + 5]!, gap);
  }

  /** One row: the moving body's point must move out along the normal (mx, my), given in the still body's frame. */
  #add(mx: number, my: number, gap: number): void {
    const state = this.#state;
    const i = this.#moving;
    const j = this.#still;
    const nx = state.cos[j]! * mx - state.sin[j]! * my;
    const ny = state.sin[j]! * mx + state.cos[j]! * my;
    const at = 6 * this.#rows.push(i, j, gap, 0);
    const { slope } = this.#rows;
    slope[at] = nx;
    slope[at + 1] = ny;
    slope[at + 2] = (ny * this.#armX - nx * this.#armY) / state.radius[i]!;
    slope[at + 3] = -nx;
    slope[at + 4] = -ny;
    slope[at + 5] = (nx * this.#stillArmY - ny * this.#stillArmX) / state.radius[j]!;
  }

  /** A row for the moving body's point and a wall with inward normal n, where the gap is within reach. @returns the gap. */
  #wall(nx: number, ny: number, gap: number, reach: number, far: number): number {
    if (gap >= reach) return gap;
    const rows = this.#rows;
    const at = 6 * rows.push(this.#moving, NO_BODY, gap, far);
    rows.slope[at] = nx;
    rows.slope[at + 1] = ny;
    rows.slope[at + 2] = (ny * this.#armX - nx * this.#armY) / this.#state.radius[this.#moving]!;
    rows.slope.fill(0, at + 3, at + 6);
    return gap;
  }
}

/** Signed distance of a point from the line of an edge, positive on the outer side. */
function outside(edges: Float64Array, r: number, px: number, py: number): number {
  return (edges[r + 3]! * (px - edges[r]!) - edges[r + 2]! * (py - edges[r + 1]!)) * edges[r + 5]!;
}
