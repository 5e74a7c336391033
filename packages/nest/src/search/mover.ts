import { BestKept } from './best-kept.ts';
import { emptyNeighbours, type Layout, NEAR, type Neighbours } from './layout.ts';
import type { Random } from './random.ts';

/** How a piece looks for a better place. Lengths are shares of the piece's diameter. */
export interface MoveSettings {
  readonly uniformSamples: number;
  readonly localSamples: number;
  /** Samples at vertices of no-fit polygons, where corners of two pieces meet. */
  readonly vertexSamples: number;
  readonly kept: number;
  readonly firstStep: number;
  readonly lastStep: number;
  /** Poses tried in one move when a piece may take many. */
  readonly posesTried: number;
  /** Boards tried in one move when there are many. */
  readonly boardsTried: number;
}

export const MOVE_SETTINGS: MoveSettings = {
  uniformSamples: 18,
  localSamples: 15,
  vertexSamples: 42,
  kept: 1,
  firstStep: 0.04,
  lastStep: 0.008,
  posesTried: 4,
  boardsTried: 4,
};

/** Share of uniform samples that are put against a wall of the board, in x or y. */
const WALL_SHARE = 0.15;
/** Lines considered in one polish. */
const MOST_LINES = 16;

interface Candidate {
  near: Neighbours | null;
  x: number;
  y: number;
  value: number;
}

/** Moves single pieces to places of less weighted overlap: sampling, pattern search, and exact contacts. */
export class Mover {
  readonly #layout: Layout;
  readonly #random: Random;
  readonly #settings: MoveSettings;
  readonly #groups: Neighbours[] = [];
  readonly #local: Neighbours = emptyNeighbours();
  readonly #kept: BestKept<Candidate>;
  readonly #lines = new Float64Array(3 * MOST_LINES);

  constructor(layout: Layout, random: Random, settings: MoveSettings = MOVE_SETTINGS) {
    this.#layout = layout;
    this.#random = random;
    this.#settings = settings;
    this.#kept = new BestKept(settings.kept, (): Candidate => ({ near: null, x: 0, y: 0, value: Infinity }));
  }

  /**
   * Look for a place of less weighted overlap for one item and move it there.
   * @param boards - boards it may go to; its present board should be among them unless it must leave.
   * @returns whether it moved.
   */
  improve(item: number, boards: ArrayLike<number>): boolean {
    const layout = this.#layout;
    const settings = this.#settings;
    const random = this.#random;
    const present = layout.board[item]!;
    const presentPose = layout.pose[item]!;
    const before = present < 0 ? Infinity : layout.cost(item);
    const groups = this.#gatherGroups(item, boards);
    if (groups === 0) return false;
    this.#kept.clear();

    const perGroup = Math.max(1, Math.round(settings.uniformSamples / groups));
    for (let g = 0; g < groups; g++) {
      const near = this.#groups[g]!;
      for (let s = 0; s < perGroup; s++) {
        let x = near.minX + random() * (near.maxX - near.minX);
        let y = near.minY + random() * (near.maxY - near.minY);
        const wall = random();
        if (wall < WALL_SHARE) {
          if (wall < WALL_SHARE / 4) x = near.minX;
          else if (wall < WALL_SHARE / 2) x = near.maxX;
          else if (wall < (3 * WALL_SHARE) / 4) y = near.minY;
          else y = near.maxY;
        }
        this.#offer(near, x, y);
      }
    }
    for (let s = 0; s < settings.vertexSamples; s++) this.#offerVertex(this.#groups[(random() * groups) | 0]!);
    const diameter = layout.model.forms[layout.model.poses[presentPose]!.form]!.diameter;
    if (present >= 0) {
      for (let g = 0; g < groups; g++) {
        const near = this.#groups[g]!;
        if (near.board !== present) continue;
        const count = near.pose === presentPose ? settings.localSamples : settings.localSamples >> 2;
        for (let s = 0; s < count; s++) {
          const u = random();
          const radius = 0.5 * diameter * u * u;
          const angle = 2 * Math.PI * random();
          const x = clamp(layout.x[item]! + radius * Math.cos(angle), near.minX, near.maxX);
          const y = clamp(layout.y[item]! + radius * Math.sin(angle), near.minY, near.maxY);
          this.#offer(near, x, y);
        }
        if (near.pose === presentPose) this.#offer(near, layout.x[item]!, layout.y[item]!);
      }
    }

    return this.#settleBest(item, diameter, before);
  }

  /** Refine the kept candidates and move the item to the best if that lowers its cost. */
  #settleBest(item: number, diameter: number, before: number): boolean {
    let best: Candidate | null = null;
    for (let k = 0; k < this.#kept.count; k++) {
      const candidate = this.#kept.at(k);
      this.#descend(candidate, diameter);
      if (best === null || candidate.value < best.value) best = candidate;
    }
    if (best === null) return false;
    this.#polish(best, diameter);
    if (best.value >= before - 1e-12 * (1 + before)) return false;
    const near = best.near!;
    this.#layout.settle(item, near.board, near.pose, best.x, best.y);
    return true;
  }

  /** Choose poses and boards and gather their neighbours; the present ones are always among them. */
  #gatherGroups(item: number, boards: ArrayLike<number>): number {
    const layout = this.#layout;
    const poses = layout.model.itemPoses[item]!;
    const { posesTried, boardsTried } = this.#settings;
    const present = layout.board[item]!;
    let groups = 0;
    const boardCount = boards.length;
    const tries = Math.min(boardCount, boardsTried);
    for (let b = 0; b < tries; b++) {
      const board =
        boardCount <= boardsTried
          ? boards[b]!
          : b === 0 && present >= 0
            ? present
            : boards[(this.#random() * boardCount) | 0]!;
      const count = Math.min(poses.length, posesTried);
      for (let p = 0; p < count; p++) {
        const pose =
          poses.length <= posesTried
            ? poses[p]!
            : p === 0
              ? layout.pose[item]!
              : poses[(this.#random() * poses.length) | 0]!;
        if (this.#groups.length <= groups) this.#groups.push(emptyNeighbours());
        if (layout.gather(item, pose, board, this.#groups[groups]!)) groups++;
      }
    }
    return groups;
  }

  /** Offer a place where a corner of the piece meets a corner of a random neighbour. */
  #offerVertex(near: Neighbours): void {
    if (near.count === 0) return;
    const { records } = near;
    const k = NEAR * ((this.#random() * (near.count / NEAR)) | 0);
    if (records[k + 11]! < 0) {
      this.#offerCorners(near, k);
      return;
    }
    const fields = this.#layout.model.fields;
    const e = fields.randomEdge(records[k + 11]! | 0, this.#random());
    const edges = fields.edges.data;
    const qx = edges[e]! - records[k + 8]!;
    const qy = edges[e + 1]! - records[k + 9]!;
    const x = records[k + 4]! * qx - records[k + 5]! * qy;
    const y = records[k + 5]! * qx + records[k + 4]! * qy;
    if (x < near.minX || x > near.maxX || y < near.minY || y > near.maxY) return;
    this.#offer(near, x, y);
  }

  /** The same where the no-fit polygon is not made yet: a random corner of one on a random corner of the other. */
  #offerCorners(near: Neighbours, k: number): void {
    const { model } = this.#layout;
    const { records } = near;
    const own = model.poses[near.pose]!;
    const other = model.poses[-1 - records[k + 11]!]!;
    const corner = ({ form, cos, sin }: typeof own) => {
      const ring = model.forms[form]!.region.outer;
      const i = 2 * ((this.#random() * (ring.length / 2)) | 0);
      return { x: cos * ring[i]! - sin * ring[i + 1]!, y: sin * ring[i]! + cos * ring[i + 1]! };
    };
    const a = corner(own);
    const b = corner(other);
    const cos = records[k + 4]!;
    const sin = records[k + 5]!;
    const x = b.x - a.x - (cos * records[k + 8]! - sin * records[k + 9]!);
    const y = b.y - a.y - (sin * records[k + 8]! + cos * records[k + 9]!);
    if (x < near.minX || x > near.maxX || y < near.minY || y > near.maxY) return;
    this.#offer(near, x, y);
  }

  /** Evaluate a place and keep it when it is among the best. */
  #offer(near: Neighbours, x: number, y: number): void {
    const { limit } = this.#kept;
    const value = this.#layout.evaluate(near, x, y, limit);
    if (value >= limit) return;
    const slot = this.#kept.take(value);
    slot.near = near;
    slot.x = x;
    slot.y = y;
  }

  /** Pattern search in x, y and the diagonals with a shrinking step. */
  #descend(candidate: Candidate, diameter: number): void {
    const layout = this.#layout;
    const near = candidate.near!;
    const local = this.#local;
    if (near.estimates) {
      // looked at by circles until now: from here on the no-fit polygons nearby decide
      this.#narrow(near, candidate.x, candidate.y, 5 * this.#settings.firstStep * diameter);
      candidate.value = layout.evaluate(local, candidate.x, candidate.y, Infinity);
    }
    if (candidate.value === 0) return;
    let step = this.#settings.firstStep * diameter;
    const last = this.#settings.lastStep * diameter;
    let reach = 5 * step;
    this.#narrow(near, candidate.x, candidate.y, reach);
    let homeX = candidate.x;
    let homeY = candidate.y;
    let { x, y, value } = candidate;
    let axis = (this.#random() * 4) | 0;
    while (step >= last && value > 0) {
      const dx = axis === 0 ? step : axis === 1 ? 0 : step * Math.SQRT1_2;
      const dy = axis === 0 ? 0 : axis === 1 ? step : axis === 2 ? step * Math.SQRT1_2 : -step * Math.SQRT1_2;
      axis = (axis + 1) & 3;
      const ax = clamp(x + dx, near.minX, near.maxX);
      const ay = clamp(y + dy, near.minY, near.maxY);
      const bx = clamp(x - dx, near.minX, near.maxX);
      const by = clamp(y - dy, near.minY, near.maxY);
      const a = layout.evaluate(local, ax, ay, value);
      const b = layout.evaluate(local, bx, by, Math.min(a, value));
      if (a < value && a <= b) {
        x = ax;
        y = ay;
        value = a;
        step *= 1.1;
      } else if (b < value) {
        x = bx;
        y = by;
        value = b;
        step *= 1.1;
      } else step *= 0.6;
      if (Math.abs(x - homeX) + step > reach || Math.abs(y - homeY) + step > reach) {
        reach = 5 * step;
        homeX = x;
        homeY = y;
        this.#narrow(near, x, y, reach);
      }
    }
    candidate.x = x;
    candidate.y = y;
    candidate.value = value;
  }

  /** Copy the neighbours that matter within `reach` of a place. */
  #narrow(near: Neighbours, x: number, y: number, reach: number): void {
    const local = this.#local;
    const from = near.records;
    if (local.records.length < near.count) local.records = new Float64Array(2 * near.count);
    const to = local.records;
    let fill = 0;
    for (let k = 0; k < near.count; k += NEAR) {
      if (x + reach <= from[k]! || x - reach >= from[k + 1]! || y + reach <= from[k + 2]! || y - reach >= from[k + 3]!)
        continue;
      for (let f = 0; f < NEAR; f++) to[fill + f] = from[k + f]!;
      fill += NEAR;
    }
    local.count = fill;
    local.pose = near.pose;
  }

  /** Try the places where boundary lines nearby are met singly or in pairs, walls among them; as long as that helps. */
  #polish(candidate: Candidate, diameter: number): void {
    const layout = this.#layout;
    const near = candidate.near!;
    const lines = this.#lines;
    for (let round = 0; round < 5 && candidate.value > 0; round++) {
      const { x, y } = candidate;
      const radius = 0.03 * diameter;
      this.#narrow(near, x, y, 3 * radius);
      const count = this.#linesAbout(near, x, y, radius);
      let bestX = x;
      let bestY = y;
      let best = candidate.value;
      const reach = 3 * radius;
      for (let a = 0; a < count; a += 3) {
        const ax = lines[a]!;
        const ay = lines[a + 1]!;
        const ag = lines[a + 2]!;
        for (let b = a; b < count; b += 3) {
          let mx: number;
          let my: number;
          if (b === a) {
            mx = ag * ax;
            my = ag * ay;
          } else {
            const bx = lines[b]!;
            const by = lines[b + 1]!;
            const cross = ax * by - ay * bx;
            if (cross < 0.02 && cross > -0.02) continue;
            const bg = lines[b + 2]!;
            mx = (ag * by - bg * ay) / cross;
            my = (bg * ax - ag * bx) / cross;
            if (mx > reach || mx < -reach || my > reach || my < -reach) continue;
          }
          const tx = clamp(x + mx, near.minX, near.maxX);
          const ty = clamp(y + my, near.minY, near.maxY);
          const value = layout.evaluate(this.#local, tx, ty, best);
          if (value < best) {
            best = value;
            bestX = tx;
            bestY = ty;
          }
        }
      }
      if (best >= candidate.value) return;
      candidate.x = bestX;
      candidate.y = bestY;
      candidate.value = best;
    }
  }

  #linesAbout(near: Neighbours, x: number, y: number, radius: number): number {
    const lines = this.#lines;
    const local = this.#local;
    const { records, count } = local;
    const fields = this.#layout.model.fields;
    let fill = 0;
    if (near.maxX - x < radius) fill = pushLine(lines, fill, 1, 0, near.maxX - x);
    if (x - near.minX < radius) fill = pushLine(lines, fill, -1, 0, x - near.minX);
    if (near.maxY - y < radius) fill = pushLine(lines, fill, 0, 1, near.maxY - y);
    if (y - near.minY < radius) fill = pushLine(lines, fill, 0, -1, y - near.minY);
    for (let k = 0; k < count; k += NEAR) {
      const a = records[k + 4]!;
      const b = records[k + 5]!;
      const from = fill;
      fill = fields.linesNear(
        this.#layout.fieldOf(local, k),
        a * x + b * y + records[k + 8]!,
        a * y - b * x + records[k + 9]!,
        radius,
        lines,
        fill,
        lines.length,
      );
      // Turn the normals back to the board's frame: n = M^T n'.
      for (let l = from; l < fill; l += 3) {
        const nx = lines[l]!;
        const ny = lines[l + 1]!;
        lines[l] = a * nx - b * ny;
        lines[l + 1] = b * nx + a * ny;
      }
    }
    return fill;
  }
}

function pushLine(lines: Float64Array, at: number, nx: number, ny: number, gap: number): number {
  lines[at] = nx;
  lines[at + 1] = ny;
  lines[at + 2] = gap;
  return at + 3;
}

function clamp(value: number, least: number, most: number): number {
  return value < least ? least : value > most ? most : value;
}
