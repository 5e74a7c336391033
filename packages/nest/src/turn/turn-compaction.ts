import { solveContacts } from './contact-program.ts';
import { ContactRows, contactsBetween, wallContacts } from './turn-contacts.ts';
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
/** Operations of a linear program that take as long as an evaluation of the search, measured with the gathering of gaps. */
const OPERATIONS_PER_EVALUATION = 300;
const MOST_REPAIRS = 6;

/**
 * Moves and turns all bodies at once: a sequence of linear programs over the gaps between them (compaction as in Li and Milenkovic
 * 1995, with turns), each within a reach that grows while the true gaps follow the linear ones and shrinks where they do not.
 */
export class Compaction {
  readonly #state: TurnState;
  readonly #rows = new ContactRows();
  readonly #tolerance: number;
  readonly #held: TurnSnapshot;
  readonly #column: Int32Array;
  readonly #shouldStop: () => boolean;
  constructor(state: TurnState, tolerance: number, shouldStop: () => boolean) {
    this.#tolerance = tolerance;
    this.#state = state;
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
    const size = meanDiameter(state);
    const clean = Math.min(settings.clean * size, this.#tolerance / 4);
    let reach = settings.firstReach * size;
    let depth = this.#gather(reach, true);
    let merit = now + MERIT_PENALTY * depth.sum;
    for (let step = 1; step <= settings.mostSteps && reach > clean && !this.#shouldStop(); step++) {
      const moves = this.#solve(reach, 1);
      state.save(this.#held, 0);
      const change = moves[moves.length - 1]!;
      this.#move(moves);
      setLength(now + change);
      const after = this.#gather(reach, true);
      const gain = -change + MERIT_PENALTY * (depth.sum - after.sum);
      if (gain > 0 || after.sum < 0.5 * depth.sum) {
        now += change;
        depth = after;
        if (after.deepest < 0.03 * reach) reach = Math.min(settings.firstReach * size, reach * GROW);
        else if (after.deepest > 0.15 * reach) reach *= CUT;
      } else {
        setLength(now);
        state.restore(this.#held);
        reach *= CUT;
      }
      this.#gather(reach, true);
      if (step % LOOK_EVERY !== 0) continue;
      const value = now + MERIT_PENALTY * depth.sum;
      if (merit - value < QUIET * now || value - HOPE * (merit - value) > aim) break;
      merit = value;
    }
    // a few small steps that open what the last ones have closed
    for (let step = 0; step < MOST_REPAIRS && depth.deepest > clean && !this.#shouldStop(); step++) {
      const small = 4 * depth.deepest;
      if (small > settings.firstReach * size) break;
      this.#gather(small, true);
      const moves = this.#solve(small, 1);
      state.save(this.#held, 0);
      const change = moves[moves.length - 1]!;
      this.#move(moves);
      setLength(now + change);
      const after = this.#gather(small, true);
      if (after.sum >= depth.sum) {
        setLength(now);
        state.restore(this.#held);
        break;
      }
      now += change;
      depth = after;
    }
    state.refreshAll();
    return { length: now, deepest: depth.deepest };
  }

  #solve(reach: number, lengthCost: number): Float64Array {
    const state = this.#state;
    const order = Array.from({ length: state.items }, (_, i) => i).sort((a, b) => state.x[a]! - state.x[b]! || a - b);
    this.#column.fill(-1);
    let columns = 0;
    for (const item of order) {
      if (state.board[item]! < 0) continue;
      this.#column[item] = columns;
      columns += state.mayTurn[item] === 1 ? 3 : 2;
    }
    columns += lengthCost > 0 ? 1 : 0;
    const moves = new Float64Array(columns);
    const work = solveContacts(
      { rows: this.#rows, column: this.#column, mayTurn: state.mayTurn, columns, lengthCost, penalty: PENALTY, reach },
      moves,
    );
    state.layout.evaluations += work / OPERATIONS_PER_EVALUATION;
    return moves;
  }

  #move(moves: Float64Array): void {
    const state = this.#state;
    for (let i = 0; i < state.items; i++) {
      const column = this.#column[i]!;
      if (column < 0) continue;
      const turn = state.mayTurn[i] === 1 ? moves[column + 2]! / state.radius[i]! : 0;
      state.place(i, state.x[i]! + moves[column]!, state.y[i]! + moves[column + 1]!, state.angle[i]! + turn);
    }
  }

  /** All gaps that two bodies can close within the reach. */
  #gather(reach: number, isStrip: boolean): { sum: number; deepest: number } {
    const state = this.#state;
    const rows = this.#rows;
    rows.clear();
    let sum = 0;
    let deepest = 0;
    const tell = (depth: number): void => {
      sum += depth;
      if (depth > deepest) deepest = depth;
    };
    for (let i = 0; i < state.items; i++) {
      if (state.board[i]! < 0) continue;
      tell(wallContacts(state, i, 2.5 * reach, isStrip, rows));
      for (const j of state.layout.members[state.board[i]!]!)
        if (j > i) tell(contactsBetween(state, i, j, 2.5 * reach, rows));
    }
    return { sum, deepest };
  }
}

function meanDiameter(state: TurnState): number {
  let sum = 0;
  for (let i = 0; i < state.items; i++) sum += 2 * state.radius[i]!;
  return sum / Math.max(1, state.items);
}
