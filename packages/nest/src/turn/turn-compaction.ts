import { solveContacts } from './contact-program.ts';
import { ContactRows } from './contact-rows.ts';
import { Contacts } from './turn-contacts.ts';
import type { TurnSnapshot, TurnState } from './turn-state.ts';

export interface CompactionSettings {
  /** Largest reach of a step, as a share of the mean diameter. */
  readonly firstReach: number;
  /** Overlap that counts as none, the same. */
  readonly clean: number;
  readonly mostSteps: number;
}

export const COMPACTION: CompactionSettings = { firstReach: 0.04, clean: 1e-6, mostSteps: 40 };

export interface Compacted {
  readonly length: number;
  /** Deepest overlap left. */
  readonly deepest: number;
}

/** Price of overlap by length, within a linear program and where a step is judged. */
const PENALTY = 20;
const MERIT_PENALTY = 4;
/** Growth and cut of the reach. */
const GROW = 1.6;
const CUT = 0.35;
/** Steps between two looks at what is gained: the end when less than this share of the length was. */
const LOOK_EVERY = 5;
const QUIET = 5e-5;
/** Given up when this many times the last gain does not reach the aim. */
const HOPE = 3;
/** What takes as long as an evaluation of the search, measured: operations of a linear program; distances from edges. */
const OPERATIONS_PER_EVALUATION = 240;
const TESTS_PER_EVALUATION = 40;
const MOST_REPAIRS = 10;
/** Opening goes on while each look finds less than this share of the overlap before. */
const OPENING = 0.7;
/** Two bodies within this many reaches may meet in one step: rarely does each make its largest move towards the other. */
const CLOSING = 1.6;

interface Overlap {
  readonly sum: number;
  readonly deepest: number;
}

/**
 * Moves and turns all bodies at once: a sequence of linear programs over the gaps between them (compaction as in Li and Milenkovic
 * 1995, with turns), each within a reach that grows while the true gaps follow the linear ones and shrinks where they do not.
 */
export class Compaction {
  readonly #state: TurnState;
  readonly #rows = new ContactRows();
  readonly #contacts: Contacts;
  readonly #tolerance: number;
  readonly #held: TurnSnapshot;
  readonly #column: Int32Array;
  #order: number[] = [];
  #board = 0;
  readonly #shouldStop: () => boolean;
  constructor(state: TurnState, tolerance: number, shouldStop: () => boolean) {
    this.#tolerance = tolerance;
    this.#state = state;
    this.#contacts = new Contacts(state, this.#rows);
    this.#held = state.snapshot();
    this.#column = new Int32Array(state.bodies);
    this.#shouldStop = shouldStop;
  }

  /**
   * Make the strip as short as moves and turns allow from where everything lies, and open what overlaps.
   * @param setLength - sets the strip's length in the state's layout.
   * @param aim - a length worth reaching: what will not come near it is given up early.
   * @returns length and deepest overlap; the state holds the layout.
   */
  strip(length: number, setLength: (length: number) => void, aim: number, settings = COMPACTION): Compacted {
    let now = length;
    setLength(now);
    const state = this.#state;
    this.#choose(0);
    const size = state.meanDiameter();
    const clean = Math.min(settings.clean * size, this.#tolerance / 4);
    let reach = settings.firstReach * size;
    let depth = this.#gather(reach, true);
    let merit = now + MERIT_PENALTY * depth.sum;
    const tryStep = (within: number): { gain: number; change: number; after: Overlap } => {
      const moves = this.#solve(within, 1);
      state.save(this.#held, 0);
      const change = moves[moves.length - 1]!;
      this.#move(moves);
      setLength(now + change);
      const after = this.#gather(within, true);
      return { change, after, gain: -change + MERIT_PENALTY * (depth.sum - after.sum) };
    };
    const goBack = (): void => {
      setLength(now);
      state.restore(this.#held);
    };
    for (let step = 1; step <= settings.mostSteps && reach > clean && !this.#shouldStop(); step++) {
      const { gain, change, after } = tryStep(reach);
      if (gain > 0 || after.sum < 0.5 * depth.sum) {
        now += change;
        depth = after;
        reach = Math.min(settings.firstReach * size, nextReach(reach, after));
      } else {
        goBack();
        reach *= CUT;
      }
      this.#gather(reach, true);
      if (step % LOOK_EVERY !== 0) continue;
      const value = now + MERIT_PENALTY * depth.sum;
      if (merit - value < QUIET * now || value - HOPE * (merit - value) > aim) break;
      merit = value;
    }
    // a few small steps that open what the last ones have closed
    let small = 4 * depth.deepest;
    for (let step = 0; step < MOST_REPAIRS && depth.deepest > clean && !this.#shouldStop(); step++) {
      if (small > settings.firstReach * size) break;
      this.#gather(small, true);
      const { change, after } = tryStep(small);
      if (after.sum < depth.sum) {
        now += change;
        depth = after;
        small = 4 * depth.deepest;
      } else {
        goBack();
        small *= CUT;
      }
    }
    state.refreshAll();
    return { length: now, deepest: depth.deepest };
  }

  /**
   * Open what overlaps on one board by moving and turning everything there.
   * @returns the deepest overlap left; the state holds the layout.
   */
  open(board: number, settings = COMPACTION): number {
    const state = this.#state;
    this.#choose(board);
    const size = state.meanDiameter();
    const clean = Math.min(settings.clean * size, this.#tolerance / 4);
    let reach = settings.firstReach * size;
    let depth = this.#gather(reach, false);
    let merit = depth.sum;
    if (depth.deepest <= clean) return depth.deepest;
    for (let step = 1; step <= settings.mostSteps && depth.deepest > clean && reach > clean; step++) {
      if (this.#shouldStop()) break;
      const moves = this.#solve(reach, 0);
      state.save(this.#held, 0);
      this.#move(moves);
      const after = this.#gather(reach, false);
      if (after.sum < depth.sum) {
        depth = after;
        reach = Math.min(settings.firstReach * size, nextReach(reach, after));
      } else {
        state.restore(this.#held);
        reach *= CUT;
      }
      this.#gather(reach, false);
      if (step % LOOK_EVERY !== 0) continue;
      if (depth.sum > OPENING * merit) break;
      merit = depth.sum;
    }
    state.refreshAll();
    return depth.deepest;
  }

  /** The deepest overlap on one board as everything lies, by edges. */
  deepest(board: number): number {
    this.#choose(board);
    return this.#gather(0, false).deepest;
  }

  /** The bodies of one board take part. */
  #choose(board: number): void {
    const state = this.#state;
    this.#board = board;
    this.#order = state.layout.members[board]!.filter((body) => body < state.items);
  }

  #solve(reach: number, lengthCost: number): Float64Array {
    const state = this.#state;
    // columns from left to right, which keeps the non-zeros of the matrix near its diagonal
    this.#order.sort((a, b) => state.x[a]! - state.x[b]! || a - b);
    this.#column.fill(-1);
    let columns = 0;
    for (const item of this.#order) {
      this.#column[item] = columns;
      columns += state.mayTurn[item] === 1 ? 3 : 2;
    }
    columns += lengthCost > 0 ? 1 : 0;
    const moves = new Float64Array(columns);
    const work = solveContacts(
      { rows: this.#rows, column: this.#column, mayTurn: state.mayTurn, columns, lengthCost, penalty: PENALTY, reach },
      moves,
    );
    state.layout.evaluations += Math.ceil(work / OPERATIONS_PER_EVALUATION);
    return moves;
  }

  #move(moves: Float64Array): void {
    const state = this.#state;
    for (const i of this.#order) {
      const column = this.#column[i]!;
      const turn = state.mayTurn[i] === 1 ? moves[column + 2]! / state.radius[i]! : 0;
      state.place(i, state.x[i]! + moves[column]!, state.y[i]! + moves[column + 1]!, state.angle[i]! + turn);
    }
  }

  /** All gaps that two bodies of the board can close within the reach. */
  #gather(reach: number, isStrip: boolean): Overlap {
    const state = this.#state;
    const rows = this.#rows;
    rows.clear();
    const before = rows.tests;
    let sum = 0;
    let deepest = 0;
    const members = state.layout.members[this.#board]!;
    for (const i of this.#order) {
      const out = this.#contacts.walls(i, CLOSING * reach, isStrip);
      sum += out;
      if (out > deepest) deepest = out;
      for (const j of members) {
        if (j <= i) continue;
        const depth = this.#contacts.between(i, j, CLOSING * reach);
        sum += depth;
        if (depth > deepest) deepest = depth;
      }
    }
    state.layout.evaluations += Math.ceil((rows.tests - before) / TESTS_PER_EVALUATION);
    return { sum, deepest };
  }
}

/** A step whose linear gaps were true may be longer next time; one that closed others must be shorter. */
function nextReach(reach: number, after: Overlap): number {
  if (after.deepest < 0.03 * reach) return reach * GROW;
  return after.deepest > 0.15 * reach ? reach * CUT : reach;
}
