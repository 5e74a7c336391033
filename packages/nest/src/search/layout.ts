import { circleDepth } from './inner-circles.ts';
import type { Model, ModelPose } from './model.ts';
import { pairTotal, rowCost, rowWorst } from './pair-sums.ts';
import type { SearchBoard } from './task.ts';

/** Numbers per gathered neighbour: box (minX, maxX, minY, maxY), matrix (a, b, c, d), shift (x, y), weight, field id (-1 - pose of the other: not made yet). */
export const NEAR = 12;

/** What one pose of one piece may collide with on one board, packed for the evaluation loop. */
export interface Neighbours {
  records: Float64Array;
  count: number;
  /** Where the origin may lie on the board: minX, minY, maxX, maxY. */
  minX: number;
  minY: number;
  maxX: number;
  maxY: number;
  pose: number;
  board: number;
  /** Where no field is made yet, circles within both stand in. */
  estimates: boolean;
}

export function emptyNeighbours(): Neighbours {
  return {
    records: new Float64Array(16 * NEAR),
    count: 0,
    minX: 0,
    minY: 0,
    maxX: 0,
    maxY: 0,
    pose: 0,
    board: 0,
    estimates: false,
  };
}

/**
 * Where all bodies lie (items, then obstacles), how deep they overlap, and the weights of the guided search.
 * Pair matrices are dense: n = 2,000 bodies take 64 MB.
 */
export class Layout {
  readonly model: Model;
  readonly boards: SearchBoard[];
  /** Items; bodies from here on are obstacles and never move. */
  readonly items: number;
  readonly bodies: number;
  readonly x: Float64Array;
  readonly y: Float64Array;
  readonly pose: Int32Array;
  /** -1 = lies nowhere. */
  readonly board: Int32Array;
  /** Depth by pair, symmetric, row-major. */
  readonly depth: Float64Array;
  /** Weight by pair, symmetric. */
  readonly weight: Float64Array;
  /** (area of a * area of b)^(1/8) of the two, per body, so that the pair's factor is the product. */
  readonly factor: Float64Array;
  /** Bodies on each board, large ones first: an evaluation then meets its limit sooner. */
  readonly members: number[][];
  /** Part-position evaluations so far. */
  evaluations = 0;

  constructor(model: Model, boards: readonly SearchBoard[], obstacleBoards: readonly number[]) {
    this.model = model;
    this.boards = [...boards];
    this.items = model.itemPoses.length;
    this.bodies = this.items + model.obstaclePoses.length;
    const n = this.bodies;
    this.x = new Float64Array(n);
    this.y = new Float64Array(n);
    this.pose = new Int32Array(n);
    this.board = new Int32Array(n).fill(-1);
    this.depth = new Float64Array(n * n);
    this.weight = new Float64Array(n * n).fill(1);
    this.factor = new Float64Array(n);
    this.members = boards.map(() => []);
    let total = 0;
    for (let i = 0; i < this.items; i++) total += this.#form(model.itemPoses[i]![0]!).area;
    const mean = total / Math.max(1, this.items);
    for (let i = 0; i < this.items; i++) {
      this.pose[i] = model.itemPoses[i]![0]!;
      this.factor[i] = (this.#form(this.pose[i]!).area / mean) ** 0.25;
    }
    model.obstaclePoses.forEach((spot, index) => {
      const body = this.items + index;
      this.pose[body] = spot.pose;
      this.x[body] = spot.x;
      this.y[body] = spot.y;
      this.factor[body] = 1;
      this.board[body] = obstacleBoards[index]!;
      this.members[obstacleBoards[index]!]!.push(body);
    });
  }

  #form(pose: number) {
    return this.model.forms[this.model.poses[pose]!.form]!;
  }

  /** Put an item somewhere without looking at overlaps; `refresh` or `settle` brings the depths up to date. */
  put(item: number, board: number, pose: number, x: number, y: number): void {
    const old = this.board[item]!;
    if (old !== board) {
      if (old >= 0) {
        const list = this.members[old]!;
        list.splice(list.indexOf(item), 1);
      }
      if (board >= 0) {
        const list = this.members[board]!;
        let at = list.length;
        while (at > 0 && this.factor[list[at - 1]!]! < this.factor[item]!) at--;
        list.splice(at, 0, item);
      }
      this.board[item] = board;
    }
    this.pose[item] = pose;
    this.x[item] = x;
    this.y[item] = y;
  }

  /** Move an item and bring its row of depths up to date. O(bodies). */
  settle(item: number, board: number, pose: number, x: number, y: number): void {
    this.put(item, board, pose, x, y);
    this.refresh(item);
  }

  /** Recompute the depths between an item and all bodies. */
  refresh(item: number): void {
    const n = this.bodies;
    const depth = this.depth;
    const row = item * n;
    for (let j = 0; j < n; j++) {
      if (depth[row + j] !== 0) {
        depth[row + j] = 0;
        depth[j * n + item] = 0;
      }
    }
    const board = this.board[item]!;
    if (board < 0) return;
    for (const j of this.members[board]!) {
      if (j === item) continue;
      const d = this.pairDepth(item, j);
      depth[row + j] = d;
      depth[j * n + item] = d;
    }
  }

  refreshAll(): void {
    for (let i = 0; i < this.items; i++) this.refresh(i);
  }

  /** Exact-near-zero depth between two bodies that lie on one board. */
  pairDepth(i: number, j: number): number {
    const model = this.model;
    const a = model.poses[this.pose[i]!]!;
    const b = model.poses[this.pose[j]!]!;
    const apart = Math.max(model.forms[a.form]!.clearance, model.forms[b.form]!.clearance);
    const wx = this.x[j]! - this.x[i]!;
    const wy = this.y[j]! - this.y[i]!;
    if (wx + b.minX >= a.maxX + apart || wx + b.maxX <= a.minX - apart) return 0;
    if (wy + b.minY >= a.maxY + apart || wy + b.maxY <= a.minY - apart) return 0;
    const field = model.fieldBetween(this.pose[i]!, this.pose[j]!);
    const isSwapped = a.form > b.form;
    const fixed = isSwapped ? b : a;
    const sign = isSwapped ? -1 : 1;
    const dx = wx * sign;
    const dy = wy * sign;
    const qx = fixed.cos * dx + fixed.sin * dy;
    const qy = fixed.cos * dy - fixed.sin * dx;
    const depth = model.fields.depth(field, qx, qy);
    return depth > 0 && model.seesSlots && model.isSlot(this.pose[i]!, this.pose[j]!, qx, qy) ? 0 : depth;
  }

  /** Sum of weighted depths of one body. O(bodies on its board). */
  cost(item: number): number {
    const n = this.bodies;
    const row = item * n;
    let sum = 0;
    if (this.boards.length > 1) {
      const board = this.board[item]!;
      if (board < 0) return 0;
      for (const j of this.members[board]!) {
        const d = this.depth[row + j]!;
        if (d > 0) sum += d * this.weight[row + j]! * this.factor[item]! * this.factor[j]!;
      }
      return sum;
    }
    return rowCost(this.depth, this.weight, this.factor, n, item);
  }

  /** Deepest overlap of one item, unweighted. O(bodies on its board). */
  worst(item: number): number {
    const n = this.bodies;
    const row = item * n;
    let most = 0;
    if (this.boards.length > 1) {
      const board = this.board[item]!;
      if (board < 0) return 0;
      for (const j of this.members[board]!) if (this.depth[row + j]! > most) most = this.depth[row + j]!;
      return most;
    }
    return rowWorst(this.depth, n, item);
  }

  /** Sum of depths over all pairs, unweighted; depths up to the tolerance count as none. O(bodies^2) for each board. */
  total(tolerance: number): number {
    const n = this.bodies;
    let sum = 0;
    if (this.boards.length > 1) {
      for (const list of this.members) {
        for (let a = 0; a < list.length; a++) {
          const row = list[a]! * n;
          for (let b = a + 1; b < list.length; b++) {
            const d = this.depth[row + list[b]!]!;
            if (d > tolerance) sum += d;
          }
        }
      }
      return sum;
    }
    return pairTotal(this.depth, n, this.items, tolerance);
  }

  /** Is the pose no larger than the board, but for rounding? */
  fits(pose: number, board: number): boolean {
    const own = this.model.poses[pose]!;
    const place = this.boards[board]!;
    const wide = place.maxX - place.minX;
    const high = place.maxY - place.minY;
    const slack = FIT_SLACK * (wide + high);
    return own.maxX - own.minX <= wide + slack && own.maxY - own.minY <= high + slack;
  }

  /** Does every item that lies on a board fit it in its pose? O(items). */
  allFit(): boolean {
    for (let i = 0; i < this.items; i++) {
      if (this.board[i]! >= 0 && !this.fits(this.pose[i]!, this.board[i]!)) return false;
    }
    return true;
  }

  /**
   * Pack what `item` in `pose` may hit on `board` for `evaluate`.
   * @returns false when the pose is larger than the board.
   */
  gather(item: number, pose: number, board: number, out: Neighbours): boolean {
    const model = this.model;
    const own = model.poses[pose]!;
    const place = this.boards[board]!;
    out.pose = pose;
    out.board = board;
    out.count = 0;
    out.estimates = model.hasManyPairs;
    out.minX = place.minX - own.minX;
    out.maxX = place.maxX - own.maxX;
    out.minY = place.minY - own.minY;
    out.maxY = place.maxY - own.maxY;
    if (!collapse(out, place)) return false;
    const list = this.members[board]!;
    if (out.records.length < list.length * NEAR) out.records = new Float64Array(2 * list.length * NEAR);
    const records = out.records;
    const factor = this.factor[item]!;
    const row = item * this.bodies;
    let at = 0;
    for (let l = 0; l < list.length; l++) {
      const j = list[l]!;
      if (j === item) continue;
      const other = model.poses[this.pose[j]!]!;
      const isMade = !model.hasManyPairs || own.isFree || other.isFree || model.madeField(own, other) >= 0;
      const field = isMade ? model.fieldBetween(pose, this.pose[j]!) : -1 - this.pose[j]!;
      const isFixed = other.form <= own.form;
      // Query q = R(-turn of the fixed one) (moving - fixed); the fixed one is j, or with roles swapped the item itself.
      const base = isFixed ? other : own;
      const sign = isFixed ? 1 : -1;
      const cos = base.cos * sign;
      const sin = base.sin * sign;
      const px = this.x[j]!;
      const py = this.y[j]!;
      if (isMade) this.#boxOfField(field, cos, sin, px, py, records, at);
      else this.#boxOfPoses(own, other, px, py, records, at);
      records[at + 4] = cos;
      records[at + 5] = sin;
      records[at + 6] = -sin;
      records[at + 7] = cos;
      records[at + 8] = -(cos * px + sin * py);
      records[at + 9] = -(cos * py - sin * px);
      records[at + 10] = this.weight[row + j]! * factor * this.factor[j]!;
      records[at + 11] = field;
      at += NEAR;
    }
    out.count = at;
    return true;
  }

  /** Where the moving piece's origin can overlap: the box of the field, turned with the piece that stands still. */
  #boxOfField(
    field: number,
    cos: number,
    sin: number,
    px: number,
    py: number,
    records: Float64Array,
    at: number,
  ): void {
    const { header } = this.model.fields;
    const h = field * 6;
    const midX = (header[h]! + header[h + 1]!) / 2;
    const midY = (header[h + 2]! + header[h + 3]!) / 2;
    const halfX = (header[h + 1]! - header[h]!) / 2;
    const halfY = (header[h + 3]! - header[h + 2]!) / 2;
    const worldX = px + cos * midX - sin * midY;
    const worldY = py + sin * midX + cos * midY;
    const ac = Math.abs(cos);
    const as = Math.abs(sin);
    const spanX = ac * halfX + as * halfY;
    const spanY = as * halfX + ac * halfY;
    records[at] = worldX - spanX;
    records[at + 1] = worldX + spanX;
    records[at + 2] = worldY - spanY;
    records[at + 3] = worldY + spanY;
  }

  /** The same from the boxes of both, before the field is made. */
  #boxOfPoses(own: ModelPose, other: ModelPose, px: number, py: number, records: Float64Array, at: number): void {
    const { clearance } = this.model.forms[Math.max(own.form, other.form)]!;
    records[at] = px + other.minX - own.maxX - clearance;
    records[at + 1] = px + other.maxX - own.minX + clearance;
    records[at + 2] = py + other.minY - own.maxY - clearance;
    records[at + 3] = py + other.maxY - own.minY + clearance;
  }

  /** Depth at least, by circles within both. */
  #estimate(near: Neighbours, k: number, otherPose: number, x: number, y: number): number {
    const { model } = this;
    const { records } = near;
    const own = model.poses[near.pose]!;
    const other = model.poses[otherPose]!;
    const cos = records[k + 4]!;
    const sin = records[k + 5]!;
    const px = -(cos * records[k + 8]! - sin * records[k + 9]!);
    const py = -(sin * records[k + 8]! + cos * records[k + 9]!);
    const { clearance } = model.forms[Math.max(own.form, other.form)]!;
    return circleDepth(model.circlesOf(otherPose), model.circlesOf(near.pose), x - px, y - py, clearance);
  }

  /** The field of a gathered neighbour, made now if it was not. */
  fieldOf(near: Neighbours, k: number): number {
    const field = near.records[k + 11]! | 0;
    if (field >= 0) return field;
    const made = this.model.fieldBetween(near.pose, -1 - field);
    near.records[k + 11] = made;
    return made;
  }

  /**
   * Weighted overlap of the gathered piece with its origin at x, y (inside the allowed rectangle).
   * Stops early once the sum reaches `limit`.
   */
  evaluate(near: Neighbours, x: number, y: number, limit: number): number {
    this.evaluations++;
    const records = near.records;
    const end = near.count;
    const fields = this.model.fields;
    let sum = 0;
    for (let k = 0; k < end; k += NEAR) {
      if (x <= records[k]! || x >= records[k + 1]! || y <= records[k + 2]! || y >= records[k + 3]!) continue;
      const field = near.estimates ? records[k + 11]! | 0 : this.fieldOf(near, k);
      if (field < 0) {
        sum += this.#estimate(near, k, -1 - field, x, y) * records[k + 10]!;
        if (sum >= limit) return sum;
        continue;
      }
      const d = fields.depth(
        field,
        records[k + 4]! * x + records[k + 5]! * y + records[k + 8]!,
        records[k + 6]! * x + records[k + 7]! * y + records[k + 9]!,
      );
      if (d > 0) {
        sum += d * records[k + 10]!;
        if (sum >= limit) return sum;
      }
    }
    return sum;
  }
}

/** A piece that exceeds the board by rounding alone still fits, in the middle. */
const FIT_SLACK = 1e-9;

function collapse(out: Neighbours, place: SearchBoard): boolean {
  const slack = FIT_SLACK * (place.maxX - place.minX + place.maxY - place.minY);
  if (out.minX - out.maxX > slack || out.minY - out.maxY > slack) return false;
  if (out.minX > out.maxX) out.minX = out.maxX = (out.minX + out.maxX) / 2;
  if (out.minY > out.maxY) out.minY = out.maxY = (out.minY + out.maxY) / 2;
  return true;
}
