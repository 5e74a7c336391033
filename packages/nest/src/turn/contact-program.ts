import { type ContactRows, NO_BODY } from './contact-rows.ts';
import { EnvelopeMatrix } from './envelope-cholesky.ts';
import { longestStep, Pairs } from './interior-pairs.ts';

/** What the moves of a layout are asked to do, as far as linear functions tell. */
export interface ContactProgram {
  readonly rows: ContactRows;
  /** Column of each body's x (y and turn follow), -1 = does not move; a body that may not turn has two columns. */
  readonly column: Int32Array;
  readonly mayTurn: Uint8Array;
  /** Columns in all, the length of the strip (if there is one) last. */
  readonly columns: number;
  /** 1 = make the strip shorter, 0 = only open what is closed. */
  readonly lengthCost: number;
  /** Price of a unit of gap that stays below 0, in units of length. */
  readonly penalty: number;
  /** Largest move. */
  readonly reach: number;
}

const MOST_STEPS = 40;
/** Complementarity, as a share of the reach, at which a program counts as solved. */
const SOLVED = 1e-4;
const STEP_BACK = 0.99;
/** How much further than a body the far wall may move. */
const LENGTH_REACH = 4;
/** Where all values start, above the least that their row asks for; lengths are shares of the reach. */
const HEADROOM = 0.1;
/** Places of a row: three columns of each body, and the length. */
const ROW = 7;
/** Operations of one step for each row, beside those of the matrix. */
const WORK_PER_ROW = 200;

/**
 * Solve  min lengthCost * dLength + penalty * (sum of gaps below 0)  within the reach, by an interior-point method with a
 * predictor and a corrector (Mehrotra 1992). The slacks of the gaps are eliminated, so that the only matrix has a row for each move.
 * @param out - the moves by column, lengths.
 * @returns floating-point operations spent, roughly.
 */
export function solveContacts(program: ContactProgram, out: Float64Array): number {
  const method = new InteriorPoint(program);
  for (let step = 0; step < MOST_STEPS; step++) {
    const { complementarity, worst } = method.residuals();
    if (complementarity < SOLVED && worst < SOLVED) break;
    method.factorise();
    method.look(0, false);
    const predicted = method.complementarityAhead();
    method.look(complementarity * (predicted / complementarity) ** 3, true);
    method.go();
  }
  for (let q = 0; q < program.columns; q++) out[q] = method.moves[q]! * program.reach;
  return method.work;
}

/**
 * The state of the method. Row k of the program reads  gap + slopes . moves = open - short  with open, short >= 0 and short paid for;
 * every move keeps within a bound on its high and its low side. Each of these four inequalities has a multiplier.
 */
class InteriorPoint {
  /** The moves found so far, shares of the reach. */
  readonly moves: Float64Array;
  work = 0;
  readonly #penalty: number;
  readonly #rows: number;
  readonly #columns: number;
  /** Columns and slopes of the rows, `ROW` places each. */
  readonly #at: Int32Array;
  readonly #slope: Float64Array;
  readonly #matrix: EnvelopeMatrix;
  readonly #cost: Float64Array;
  readonly #gap: Float64Array;
  /** Slack of each row, and what it falls short. */
  readonly #open: Pairs;
  readonly #short: Pairs;
  /** Room left to the high and to the low bound of each move. */
  readonly #high: Pairs;
  readonly #low: Pairs;
  /** What is missing in each row, and in each column's balance of multipliers. */
  readonly #rowResidual: Float64Array;
  readonly #columnResidual: Float64Array;
  /** Of the eliminated rows: their weight in the matrix and their right-hand side. */
  readonly #weight: Float64Array;
  readonly #target: Float64Array;
  /** The direction of the moves. */
  readonly #direction: Float64Array;

  constructor(program: ContactProgram) {
    const { rows, columns, penalty, reach, lengthCost } = program;
    const m = rows.count;
    const { at, slope } = sparse(program);
    this.#penalty = penalty;
    this.#rows = m;
    this.#columns = columns;
    this.#at = at;
    this.#slope = slope;
    this.#matrix = new EnvelopeMatrix(envelope(columns, at, m));
    this.moves = new Float64Array(columns);
    this.#cost = new Float64Array(columns);
    const bound = new Float64Array(columns).fill(1);
    if (lengthCost > 0) {
      this.#cost[columns - 1] = lengthCost;
      bound[columns - 1] = LENGTH_REACH;
    }
    this.#gap = Float64Array.from({ length: m }, (_, k) => rows.gap[k]! / reach);
    const multiplier = Math.min(0.1, 0.5 * penalty);
    this.#open = new Pairs(
      this.#gap.map((gap) => Math.max(gap, 0) + HEADROOM),
      multiplier,
    );
    this.#short = new Pairs(
      this.#gap.map((gap) => Math.max(-gap, 0) + HEADROOM),
      penalty - multiplier,
    );
    this.#high = new Pairs(bound.slice(), 0.1);
    this.#low = new Pairs(bound, 0.1);
    this.#rowResidual = new Float64Array(m);
    this.#columnResidual = new Float64Array(columns);
    this.#weight = new Float64Array(m);
    this.#target = new Float64Array(m);
    this.#direction = new Float64Array(columns);
  }

  /** Mean product of values and multipliers, and the worst row. */
  residuals(): { readonly complementarity: number; readonly worst: number } {
    const open = this.#open;
    const short = this.#short;
    const high = this.#high;
    const low = this.#low;
    const residual = this.#columnResidual;
    let sum = 0;
    let worst = 0;
    residual.set(this.#cost);
    for (let k = 0; k < this.#rows; k++) {
      const missing = -(this.#gap[k]! + this.#product(k, this.moves) - open.value[k]! + short.value[k]!);
      this.#rowResidual[k] = missing;
      worst = Math.max(worst, Math.abs(missing));
      sum += open.product(k) + short.product(k);
      this.#addRow(k, -open.multiplier[k]!, residual);
    }
    for (let q = 0; q < this.#columns; q++) {
      residual[q]! += high.multiplier[q]! - low.multiplier[q]!;
      sum += high.product(q) + low.product(q);
    }
    return { complementarity: sum / this.#pairs(), worst };
  }

  /** Put the matrix of the moves together, the rows eliminated, and factorise it. */
  factorise(): void {
    const at = this.#at;
    const slope = this.#slope;
    const matrix = this.#matrix;
    matrix.values.fill(0);
    for (let k = 0; k < this.#rows; k++) {
      const w = 1 / (this.#open.ratio(k) + this.#short.ratio(k));
      this.#weight[k] = w;
      for (let p = ROW * k; p < ROW * k + ROW; p++) {
        const row = at[p]!;
        if (row < 0) continue;
        const base = matrix.start[row]!;
        const value = w * slope[p]!;
        for (let q = ROW * k; q < ROW * k + ROW; q++) {
          const column = at[q]!;
          if (column >= 0 && column <= row) matrix.values[base + column]! += value * slope[q]!;
        }
      }
    }
    for (let q = 0; q < this.#columns; q++) {
      matrix.values[matrix.start[q]! + q]! +=
        this.#high.multiplier[q]! / this.#high.value[q]! + this.#low.multiplier[q]! / this.#low.value[q]!;
    }
    matrix.factorise(1e-14);
    const width = matrix.values.length / Math.max(1, this.#columns);
    this.work += matrix.values.length * (width + 8) + WORK_PER_ROW * this.#rows;
  }

  /**
   * Find the direction towards products of `centre` each.
   * @param isCorrector - second order terms of the direction before are taken into account.
   */
  look(centre: number, isCorrector: boolean): void {
    const open = this.#open;
    const short = this.#short;
    const high = this.#high;
    const low = this.#low;
    const direction = this.#direction;
    for (let q = 0; q < this.#columns; q++) direction[q] = -this.#columnResidual[q]!;
    for (let k = 0; k < this.#rows; k++) {
      const forOpen = open.shortfall(k, centre, isCorrector);
      const forShort = short.shortfall(k, centre, isCorrector) - short.value[k]! * this.#priceResidual(k);
      this.#target[k] = this.#rowResidual[k]! + forOpen / open.multiplier[k]! - forShort / short.multiplier[k]!;
      open.valueStep[k] = forOpen;
      short.valueStep[k] = forShort;
      this.#addRow(k, this.#weight[k]! * this.#target[k]!, direction);
    }
    for (let q = 0; q < this.#columns; q++) {
      high.valueStep[q] = high.shortfall(q, centre, isCorrector);
      low.valueStep[q] = low.shortfall(q, centre, isCorrector);
      direction[q]! += -high.valueStep[q]! / high.value[q]! + low.valueStep[q]! / low.value[q]!;
    }
    this.#matrix.solve(direction);
    for (let k = 0; k < this.#rows; k++) {
      const multiplierStep = this.#weight[k]! * (this.#target[k]! - this.#product(k, direction));
      const residual = this.#priceResidual(k);
      open.multiplierStep[k] = multiplierStep;
      short.multiplierStep[k] = residual - multiplierStep;
      open.valueStep[k] = (open.valueStep[k]! - open.value[k]! * multiplierStep) / open.multiplier[k]!;
      short.valueStep[k] = (short.valueStep[k]! + short.value[k]! * multiplierStep) / short.multiplier[k]!;
    }
    for (let q = 0; q < this.#columns; q++) {
      const move = direction[q]!;
      high.multiplierStep[q] = (high.valueStep[q]! + high.multiplier[q]! * move) / high.value[q]!;
      low.multiplierStep[q] = (low.valueStep[q]! - low.multiplier[q]! * move) / low.value[q]!;
      high.valueStep[q] = -move;
      low.valueStep[q] = move;
    }
  }

  /** Mean product after the longest step of the direction looked at. */
  complementarityAhead(): number {
    const [ofValues, ofMultipliers] = this.#longest(1);
    let sum = 0;
    for (let k = 0; k < this.#rows; k++) {
      sum += this.#open.ahead(k, ofValues, ofMultipliers) + this.#short.ahead(k, ofValues, ofMultipliers);
    }
    for (let q = 0; q < this.#columns; q++) {
      sum += this.#high.ahead(q, ofValues, ofMultipliers) + this.#low.ahead(q, ofValues, ofMultipliers);
    }
    return sum / this.#pairs();
  }

  /** Step along the direction, nearly as far as everything stays above 0. */
  go(): void {
    const [values, multipliers] = this.#longest(1 / STEP_BACK);
    const ofValues = STEP_BACK * values;
    for (let q = 0; q < this.#columns; q++) this.moves[q]! += ofValues * this.#direction[q]!;
    for (const pairs of [this.#open, this.#short, this.#high, this.#low]) pairs.go(ofValues, STEP_BACK * multipliers);
  }

  #longest(most: number): readonly [number, number] {
    const all = [this.#low, this.#high, this.#short, this.#open];
    return [
      all.reduce((step, { value, valueStep }) => longestStep(value, valueStep, step), most),
      all.reduce((step, { multiplier, multiplierStep }) => longestStep(multiplier, multiplierStep, step), most),
    ];
  }

  /** The two multipliers of a row add up to the penalty. */
  #priceResidual(k: number): number {
    return this.#penalty - this.#open.multiplier[k]! - this.#short.multiplier[k]!;
  }

  #pairs(): number {
    return 2 * this.#rows + 2 * this.#columns;
  }

  #product(k: number, vector: Float64Array): number {
    const at = this.#at;
    const slope = this.#slope;
    let sum = 0;
    for (let q = ROW * k; q < ROW * k + ROW; q++) if (at[q]! >= 0) sum += slope[q]! * vector[at[q]!]!;
    return sum;
  }

  #addRow(k: number, times: number, into: Float64Array): void {
    const at = this.#at;
    const slope = this.#slope;
    for (let q = ROW * k; q < ROW * k + ROW; q++) if (at[q]! >= 0) into[at[q]!]! += slope[q]! * times;
  }
}

/** Columns and slopes of all rows, `ROW` places each, -1 = none. */
function sparse({ rows, column, mayTurn, columns, lengthCost }: ContactProgram): {
  at: Int32Array;
  slope: Float64Array;
} {
  const at = new Int32Array(ROW * rows.count).fill(-1);
  const slope = new Float64Array(ROW * rows.count);
  for (let k = 0; k < rows.count; k++) {
    for (let side = 0; side < 2; side++) {
      const body = side === 0 ? rows.a[k]! : rows.b[k]!;
      if (body === NO_BODY || column[body]! < 0) continue;
      const parts = mayTurn[body] === 1 ? 3 : 2;
      for (let c = 0; c < parts; c++) {
        at[ROW * k + 3 * side + c] = column[body]! + c;
        slope[ROW * k + 3 * side + c] = rows.slope[6 * k + 3 * side + c]!;
      }
    }
    if (lengthCost > 0 && rows.far[k] !== 0) {
      at[ROW * k + 6] = columns - 1;
      slope[ROW * k + 6] = rows.far[k]!;
    }
  }
  return { at, slope };
}

/** First column that meets each row of the normal matrix. */
function envelope(columns: number, at: Int32Array, rows: number): Int32Array {
  const first = Int32Array.from({ length: columns }, (_, q) => q);
  for (let k = 0; k < rows; k++) {
    let low = columns;
    for (let q = ROW * k; q < ROW * k + ROW; q++) if (at[q]! >= 0 && at[q]! < low) low = at[q]!;
    for (let q = ROW * k; q < ROW * k + ROW; q++) if (at[q]! >= 0 && low < first[at[q]!]!) first[at[q]!] = low;
  }
  return first;
}
