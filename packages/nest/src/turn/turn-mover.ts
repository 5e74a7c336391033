import { BestKept } from '../search/best-kept.ts';
import type { Random } from '../search/random.ts';
import type { Reach, TurnState } from './turn-state.ts';

/** How a piece looks for a better place and turn. Lengths are shares of the piece's diameter. */
export interface TurnMoveSettings {
  /** Places tried anywhere on the board, near by with a small turn, and near by with any turn. */
  readonly farSamples: number;
  readonly nearSamples: number;
  readonly spunSamples: number;
  readonly kept: number;
  readonly firstStep: number;
  readonly lastStep: number;
}

export const TURN_MOVES: TurnMoveSettings = {
  farSamples: 12,
  nearSamples: 12,
  spunSamples: 4,
  kept: 2,
  firstStep: 0.04,
  lastStep: 0.002,
};

/** Largest distance and turn (radians) of a sample near by. */
const NEAR_REACH = 0.4;
const NEAR_TURN = 0.4;

interface Candidate {
  x: number;
  y: number;
  angle: number;
  board: number;
  value: number;
}

/** Share of the samples anywhere that are taken on another board, where the item may go to several. */
const ABROAD = 0.5;

/** Moves single pieces to places and turns of less weighted overlap: sampling, then pattern search with the turn as one more axis. */
export class TurnMover {
  readonly #state: TurnState;
  readonly #random: Random;
  readonly #settings: TurnMoveSettings;
  readonly #all: Int32Array;
  readonly #near: Int32Array;
  readonly #reach: Reach = { minX: 0, minY: 0, maxX: 0, maxY: 0 };
  readonly #kept: BestKept<Candidate>;
  #allCount = 0;
  /** Board that samples are taken on. */
  #on = 0;

  constructor(state: TurnState, random: Random, settings: TurnMoveSettings = TURN_MOVES) {
    this.#state = state;
    this.#random = random;
    this.#settings = settings;
    this.#all = new Int32Array(state.bodies);
    this.#near = new Int32Array(state.bodies);
    this.#kept = new BestKept(settings.kept, (): Candidate => ({ x: 0, y: 0, angle: 0, board: 0, value: Infinity }));
  }

  /**
   * Look for a place and turn of less weighted overlap and go there: on the item's board, and on another of `boards` if it lists more.
   * Items that may not turn freely take the turns of their list.
   * @returns whether it moved.
   */
  improve(item: number, boards: ArrayLike<number> = []): boolean {
    const state = this.#state;
    const random = this.#random;
    const settings = this.#settings;
    const before = state.cost(item);
    const diameter = 2 * state.radius[item]!;
    const isFree = state.mayTurn[item] === 1;
    const { x, y, angle } = { x: state.x[item]!, y: state.y[item]!, angle: state.angle[item]! };
    this.#kept.clear();
    this.#allCount = state.neighbours(item, Infinity, this.#all);
    const home = state.board[item]!;
    this.#on = home;
    this.#offer(item, x, y, angle);
    const abroad = boards.length > 1 ? boards[(random() * boards.length) | 0]! : home;
    const stayAtHome = abroad === home ? settings.farSamples : Math.ceil(settings.farSamples * (1 - ABROAD));
    for (let s = 0; s < settings.farSamples; s++) {
      if (s === stayAtHome) this.#goTo(item, abroad);
      const board = state.layout.boards[this.#on]!;
      const turn = isFree ? this.#anyTurn(angle) : state.listedTurn(item, random());
      this.#offer(
        item,
        board.minX + random() * (board.maxX - board.minX),
        board.minY + random() * (board.maxY - board.minY),
        turn,
      );
    }
    this.#goTo(item, home);
    for (let s = 0; s < settings.nearSamples + settings.spunSamples; s++) {
      const u = random();
      const radius = NEAR_REACH * diameter * u * u;
      const way = 2 * Math.PI * random();
      const w = 2 * random() - 1;
      const isSpun = s >= settings.nearSamples;
      const free = isSpun ? 2 * Math.PI * random() : NEAR_TURN * w * w * w;
      const turned = isFree ? angle + free : isSpun ? state.listedTurn(item, random()) : angle;
      this.#offer(item, x + radius * Math.cos(way), y + radius * Math.sin(way), turned);
    }
    let best: Candidate | null = null;
    for (let k = 0; k < this.#kept.count; k++) {
      const candidate = this.#kept.at(k);
      this.#descend(item, candidate, diameter, isFree);
      if (best === null || candidate.value < best.value) best = candidate;
    }
    if (best === null || best.value >= before - 1e-12 * (1 + before)) return false;
    state.changeBoard(item, best.board);
    state.place(item, best.x, best.y, best.angle);
    state.refresh(item);
    return true;
  }

  /** The board that samples are taken on from here, with what the item may meet there. */
  #goTo(item: number, board: number): void {
    if (this.#on === board) return;
    this.#on = board;
    this.#allCount = this.#state.neighbours(item, Infinity, this.#all, board);
  }

  /** The same way, half round, or any turn. */
  #anyTurn(angle: number): number {
    const u = this.#random();
    if (u < 0.25) return angle;
    if (u < 0.5) return angle + Math.PI;
    return angle + 2 * Math.PI * this.#random();
  }

  /** Evaluate a place, moved onto the board, and keep it when it is among the best. */
  #offer(item: number, x: number, y: number, angle: number): void {
    const state = this.#state;
    const cos = Math.cos(angle);
    const sin = Math.sin(angle);
    const reach = this.#reach;
    if (!state.reachOf(item, cos, sin, reach, this.#on)) return;
    const px = clamp(x, reach.minX, reach.maxX);
    const py = clamp(y, reach.minY, reach.maxY);
    const { limit } = this.#kept;
    const value = state.evaluate(item, px, py, cos, sin, this.#all, this.#allCount, limit);
    if (value >= limit) return;
    const slot = this.#kept.take(value);
    slot.x = px;
    slot.y = py;
    slot.angle = angle;
    slot.board = this.#on;
  }

  /** Pattern search along x, y, the turn, and random directions of all three, with a shrinking step. */
  #descend(item: number, candidate: Candidate, diameter: number, isFree: boolean): void {
    const state = this.#state;
    const random = this.#random;
    const reach = this.#reach;
    const half = diameter / 2;
    let step = this.#settings.firstStep * diameter;
    const last = this.#settings.lastStep * diameter;
    let room = 5 * step;
    let homeX = candidate.x;
    let homeY = candidate.y;
    const { board } = candidate;
    let near = this.#narrow(item, homeX, homeY, room, board);
    let { x, y, angle, value } = candidate;
    const axes = isFree ? 4 : 3;
    let axis = (random() * axes) | 0;
    while (step >= last && value > 0) {
      let dx = 0;
      let dy = 0;
      let turn = 0;
      if (axis === 0) dx = step;
      else if (axis === 1) dy = step;
      else if (axis === 2) {
        const way = Math.PI * random();
        dx = step * Math.cos(way);
        dy = step * Math.sin(way);
        if (isFree && random() < 0.5) turn = ((2 * random() - 1) * step) / half;
      } else turn = step / half;
      axis = (axis + 1) % axes;
      let moved = false;
      for (let sign = 1; sign >= -1; sign -= 2) {
        const a = angle + sign * turn;
        const cos = Math.cos(a);
        const sin = Math.sin(a);
        if (!state.reachOf(item, cos, sin, reach, board)) continue;
        const px = clamp(x + sign * dx, reach.minX, reach.maxX);
        const py = clamp(y + sign * dy, reach.minY, reach.maxY);
        const other = state.evaluate(item, px, py, cos, sin, this.#near, near, value);
        if (other < value) {
          x = px;
          y = py;
          angle = a;
          value = other;
          moved = true;
          break;
        }
      }
      step *= moved ? 1.1 : 0.7;
      if (Math.abs(x - homeX) + step > room || Math.abs(y - homeY) + step > room) {
        room = 5 * step;
        homeX = x;
        homeY = y;
        near = this.#narrow(item, x, y, room, board);
      }
    }
    candidate.x = x;
    candidate.y = y;
    candidate.angle = angle;
    candidate.value = value;
  }

  /** Bodies that the item may meet within `room` of a place. */
  #narrow(item: number, x: number, y: number, room: number, board: number): number {
    const state = this.#state;
    const [heldX, heldY] = [state.x[item]!, state.y[item]!];
    state.x[item] = x;
    state.y[item] = y;
    const count = state.neighbours(item, 2 * room, this.#near, board);
    state.x[item] = heldX;
    state.y[item] = heldY;
    return count;
  }
}

function clamp(value: number, least: number, most: number): number {
  return value < least ? least : value > most ? most : value;
}
