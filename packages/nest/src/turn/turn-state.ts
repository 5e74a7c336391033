import type { Layout } from '../search/layout.ts';
import { pairTotal, rowCost, rowWorst } from '../search/pair-sums.ts';
import { clampAll } from '../search/snapshot.ts';
import type { SearchBoard } from '../search/task.ts';
import { GridDepths } from './grid-depths.ts';
import type { TurnForms } from './turn-forms.ts';

/** Where all bodies lie, to go back to. */
export interface TurnSnapshot {
  readonly x: Float64Array;
  readonly y: Float64Array;
  readonly angle: Float64Array;
  /** A mirrored piece has another form. */
  readonly form: Int32Array;
  readonly board: Int32Array;
  total: number;
}

/** Where a turned form's origin may lie on a board. */
export interface Reach {
  minX: number;
  minY: number;
  maxX: number;
  maxY: number;
}

/** Points of outlines looked at in the time of one evaluation of the search by no-fit polygons, measured. */
const POINTS_PER_EVALUATION = 80;
/** Share of a board's size by which a body may exceed it: rounding. */
const FIT_SLACK = 1e-9;

/**
 * Bodies at any turn: a layout whose poses are angles. Depths are asked of the forms' own distance fields (`TurnForms`), so that a
 * turn costs no more than a move. Filled from a `Layout` and written back to one.
 */
export class TurnState {
  readonly layout: Layout;
  readonly forms: TurnForms;
  readonly items: number;
  readonly bodies: number;
  readonly x: Float64Array;
  readonly y: Float64Array;
  /** Radians. */
  readonly angle: Float64Array;
  readonly cos: Float64Array;
  readonly sin: Float64Array;
  readonly form: Int32Array;
  readonly board: Int32Array;
  /** 1 for items that may take any turn. */
  readonly mayTurn: Uint8Array;
  /** Distance that a body keeps from others: the larger of two counts. */
  readonly clearance: Float64Array;
  readonly radius: Float64Array;
  readonly factor: Float64Array;
  readonly weight: Float64Array;
  readonly depth: Float64Array;
  readonly #pose: Int32Array;
  readonly #grids: GridDepths;

  constructor(layout: Layout, forms: TurnForms) {
    const n = layout.bodies;
    this.layout = layout;
    this.forms = forms;
    this.#grids = new GridDepths(forms);
    this.items = layout.items;
    this.bodies = n;
    this.x = new Float64Array(n);
    this.y = new Float64Array(n);
    this.angle = new Float64Array(n);
    this.cos = new Float64Array(n);
    this.sin = new Float64Array(n);
    this.form = new Int32Array(n);
    this.board = new Int32Array(n);
    this.mayTurn = layout.model.isFreeToTurn;
    this.clearance = new Float64Array(n);
    this.radius = new Float64Array(n);
    this.factor = layout.factor;
    this.weight = new Float64Array(n * n).fill(1);
    this.depth = new Float64Array(n * n);
    this.#pose = new Int32Array(n);
  }

  /** Take over where everything lies in the layout. */
  load(): void {
    const { layout } = this;
    const { poses, forms } = layout.model;
    for (let i = 0; i < this.bodies; i++) {
      const pose = poses[layout.pose[i]!]!;
      this.#pose[i] = layout.pose[i]!;
      this.form[i] = pose.form;
      this.board[i] = layout.board[i]!;
      this.clearance[i] = forms[pose.form]!.clearance;
      this.radius[i] = this.forms.radius[pose.form]!;
      this.place(i, layout.x[i]!, layout.y[i]!, (pose.turnDeg * Math.PI) / 180);
    }
  }

  /** Write back where the items lie; the layout's depths are brought up to date with no-fit polygons at these very turns. */
  store(): void {
    this.storePlaces();
    this.layout.refreshAll();
  }

  /** The same, but for the depths. */
  storePlaces(): void {
    const { layout } = this;
    for (let i = 0; i < this.items; i++) {
      const turnDeg = (this.angle[i]! * 180) / Math.PI;
      const known = layout.model.poses[this.#pose[i]!]!;
      const off = Math.abs(known.turnDeg - turnDeg) % 360;
      const isSame = known.form === this.form[i]! && Math.min(off, 360 - off) < 1e-9;
      const listed = isSame || this.mayTurn[i] === 1 ? undefined : this.#listedPose(i, turnDeg);
      const pose = isSame ? this.#pose[i]! : (listed ?? layout.model.freePose(this.form[i]!, turnDeg));
      layout.put(i, this.board[i]!, pose, this.x[i]!, this.y[i]!);
    }
    clampAll(layout);
  }

  #listedPose(i: number, turnDeg: number): number | undefined {
    const { poses, itemPoses } = this.layout.model;
    return itemPoses[i]!.find((index) => {
      const off = Math.abs(poses[index]!.turnDeg - turnDeg) % 360;
      return poses[index]!.form === this.form[i]! && Math.min(off, 360 - off) < 1e-9;
    });
  }

  /** A turn that the list of an item has for its present form, radians; `choice` from 0 to 1. */
  listedTurn(i: number, choice: number): number {
    const { poses, itemPoses } = this.layout.model;
    const list = itemPoses[i]!;
    const pose = poses[list[Math.min(list.length - 1, Math.floor(choice * list.length))]!]!;
    return pose.form === this.form[i]! ? (pose.turnDeg * Math.PI) / 180 : this.angle[i]!;
  }

  /** Take an item to another board; depths are not brought up to date. */
  changeBoard(i: number, board: number): void {
    if (this.board[i] === board) return;
    const { layout } = this;
    layout.put(i, board, layout.pose[i]!, layout.x[i]!, layout.y[i]!);
    this.board[i] = board;
  }

  place(i: number, x: number, y: number, angle: number): void {
    this.x[i] = x;
    this.y[i] = y;
    if (angle !== this.angle[i] || this.cos[i] === 0) {
      this.angle[i] = angle;
      this.cos[i] = Math.cos(angle);
      this.sin[i] = Math.sin(angle);
    }
  }

  save(into: TurnSnapshot, total: number): void {
    into.x.set(this.x);
    into.y.set(this.y);
    into.angle.set(this.angle);
    into.form.set(this.form);
    into.board.set(this.board);
    into.total = total;
  }

  /** Put everything back; depths are brought up to date. */
  restore(from: TurnSnapshot): void {
    for (let i = 0; i < this.items; i++) {
      this.form[i] = from.form[i]!;
      this.changeBoard(i, from.board[i]!);
      this.place(i, from.x[i]!, from.y[i]!, from.angle[i]!);
    }
    this.refreshAll();
  }

  snapshot(): TurnSnapshot {
    const n = this.bodies;
    const floats = () => new Float64Array(n);
    return {
      x: floats(),
      y: floats(),
      angle: floats(),
      form: new Int32Array(n),
      board: new Int32Array(n),
      total: Infinity,
    };
  }

  meanDiameter(): number {
    let sum = 0;
    for (let i = 0; i < this.items; i++) sum += 2 * this.radius[i]!;
    return sum / Math.max(1, this.items);
  }

  boardOf(i: number): SearchBoard {
    return this.layout.boards[this.board[i]!]!;
  }

  /** Where the form of a body may lie on a board at a turn. @returns false when it is too large at that turn. */
  reachOf(i: number, cos: number, sin: number, out: Reach, on = this.board[i]!): boolean {
    const { hull, hullFrom } = this.forms;
    const board = this.layout.boards[on]!;
    let minX = Infinity;
    let minY = Infinity;
    let maxX = -Infinity;
    let maxY = -Infinity;
    const end = 2 * hullFrom[this.form[i]! + 1]!;
    for (let k = 2 * hullFrom[this.form[i]!]!; k < end; k += 2) {
      const x = cos * hull[k]! - sin * hull[k + 1]!;
      const y = sin * hull[k]! + cos * hull[k + 1]!;
      if (x < minX) minX = x;
      if (x > maxX) maxX = x;
      if (y < minY) minY = y;
      if (y > maxY) maxY = y;
    }
    out.minX = board.minX - minX;
    out.maxX = board.maxX - maxX;
    out.minY = board.minY - minY;
    out.maxY = board.maxY - maxY;
    const slack = FIT_SLACK * (board.maxX - board.minX + board.maxY - board.minY);
    if (out.minX - out.maxX > slack || out.minY - out.maxY > slack) return false;
    if (out.minX > out.maxX) out.minX = out.maxX = (out.minX + out.maxX) / 2;
    if (out.minY > out.maxY) out.minY = out.maxY = (out.minY + out.maxY) / 2;
    return true;
  }

  /** Keep every item inside its board as it is turned; depths are not brought up to date. */
  clampAll(): void {
    const reach: Reach = { minX: 0, minY: 0, maxX: 0, maxY: 0 };
    for (let i = 0; i < this.items; i++) {
      this.reachOf(i, this.cos[i]!, this.sin[i]!, reach);
      this.x[i] = Math.min(Math.max(this.x[i]!, reach.minX), reach.maxX);
      this.y[i] = Math.min(Math.max(this.y[i]!, reach.minY), reach.maxY);
    }
  }

  /**
   * How deep body i, lying at x, y with that turn, overlaps body j where it lies; 0 = apart.
   * @param enough - from here on it need not be told exactly: circles, which are few, are asked first.
   */
  depthAt(i: number, x: number, y: number, cos: number, sin: number, j: number, enough = Infinity): number {
    const clearance = Math.max(this.clearance[i]!, this.clearance[j]!);
    const dx = x - this.x[j]!;
    const dy = y - this.y[j]!;
    const ri = this.radius[i]! + clearance;
    const rj = this.radius[j]! + clearance;
    const r = ri + this.radius[j]!;
    if (dx * dx + dy * dy >= r * r) return 0;
    const { forms } = this;
    const { box } = forms;
    const fi = this.form[i]!;
    const fj = this.form[j]!;
    const cj = this.cos[j]!;
    const sj = this.sin[j]!;
    const tx = cj * dx + sj * dy;
    const ty = cj * dy - sj * dx;
    const bj = 4 * fj;
    if (tx <= box[bj]! - ri || ty <= box[bj + 1]! - ri || tx >= box[bj + 2]! + ri || ty >= box[bj + 3]! + ri) return 0;
    const ux = -(cos * dx + sin * dy);
    const uy = -(cos * dy - sin * dx);
    const bi = 4 * fi;
    if (ux <= box[bi]! - rj || uy <= box[bi + 1]! - rj || ux >= box[bi + 2]! + rj || uy >= box[bi + 3]! + rj) return 0;
    // turn of i in j's frame
    const c = cos * cj + sin * sj;
    const s = sin * cj - cos * sj;
    if (forms.isExact[fi] === 1 || forms.isExact[fj] === 1) {
      const deep =
        clearance + Math.max(forms.deepestExactly(fi, fj, c, s, tx, ty), forms.deepestExactly(fj, fi, c, -s, ux, uy));
      this.#grids.looked += POINTS_PER_EVALUATION;
      return deep > 0 ? deep : 0;
    }
    let deep = this.#grids.deepestCircle(fi, fj, c, s, tx, ty, -clearance);
    deep = this.#grids.deepestCircle(fj, fi, c, -s, ux, uy, deep);
    if (deep + clearance >= enough) return deep + clearance;
    deep = this.#grids.deepestBead(fi, fj, c, s, tx, ty, deep);
    return this.#grids.deepestBead(fj, fi, c, -s, ux, uy, deep) + clearance;
  }

  /** Bodies on a board that an item may meet there within `room` of its place; fills `out`, returns how many. */
  neighbours(item: number, room: number, out: Int32Array, on = this.board[item]!): number {
    let count = 0;
    const x = this.x[item]!;
    const y = this.y[item]!;
    const { box } = this.forms;
    for (const j of this.layout.members[on]!) {
      if (j === item) continue;
      const apart = this.radius[item]! + Math.max(this.clearance[item]!, this.clearance[j]!) + room;
      const dx = x - this.x[j]!;
      const dy = y - this.y[j]!;
      const tx = this.cos[j]! * dx + this.sin[j]! * dy;
      const ty = this.cos[j]! * dy - this.sin[j]! * dx;
      const b = 4 * this.form[j]!;
      if (tx <= box[b]! - apart || ty <= box[b + 1]! - apart || tx >= box[b + 2]! + apart || ty >= box[b + 3]! + apart)
        continue;
      out[count++] = j;
    }
    return count;
  }

  /** Weighted depth of an item at a place and turn over the bodies listed; stops once it reaches `limit`. */
  evaluate(
    item: number,
    x: number,
    y: number,
    cos: number,
    sin: number,
    near: Int32Array,
    count: number,
    limit: number,
  ) {
    this.#grids.looked += POINTS_PER_EVALUATION;
    const row = item * this.bodies;
    const factor = this.factor[item]!;
    let sum = 0;
    for (let k = 0; k < count; k++) {
      const j = near[k]!;
      const price = this.weight[row + j]! * factor * this.factor[j]!;
      const d = this.depthAt(item, x, y, cos, sin, j, (limit - sum) / price);
      if (d > 0) {
        sum += d * price;
        if (sum >= limit) break;
      }
    }
    return sum;
  }

  /** Count the points looked at since the last time as evaluations of the layout. */
  account(): void {
    const evaluations = Math.floor(this.#grids.looked / POINTS_PER_EVALUATION);
    this.#grids.looked -= evaluations * POINTS_PER_EVALUATION;
    this.layout.evaluations += evaluations;
  }

  /** Bring the depths between an item and all bodies up to date. */
  refresh(item: number): void {
    const n = this.bodies;
    const row = item * n;
    const { depth } = this;
    for (let j = 0; j < n; j++) {
      if (depth[row + j] !== 0) {
        depth[row + j] = 0;
        depth[j * n + item] = 0;
      }
    }
    for (const j of this.layout.members[this.board[item]!]!) {
      if (j === item) continue;
      const d = this.depthAt(item, this.x[item]!, this.y[item]!, this.cos[item]!, this.sin[item]!, j);
      depth[row + j] = d;
      depth[j * n + item] = d;
    }
  }

  refreshAll(): void {
    for (let i = 0; i < this.items; i++) if (this.board[i]! >= 0) this.refresh(i);
  }

  /** Sum of weighted depths of an item as it lies. */
  cost(item: number): number {
    return rowCost(this.depth, this.weight, this.factor, this.bodies, item);
  }

  worst(item: number): number {
    return rowWorst(this.depth, this.bodies, item);
  }

  /** Sum of depths beyond the tolerance over all pairs, unweighted. */
  total(tolerance: number): number {
    return pairTotal(this.depth, this.bodies, this.items, tolerance);
  }
}
