import { type ContactRows, NO_BODY } from './contact-rows.ts';
import { EnvelopeMatrix } from './envelope-cholesky.ts';

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

/**
 * Solve  min lengthCost * dLength + penalty * (sum of gaps below 0)  within the reach, by an interior-point method with a
 * predictor and a corrector (Mehrotra 1992). The slacks of the gaps are eliminated, so that the only matrix has a row for each move.
 * @param out - the moves by column, lengths.
 * @returns floating-point operations spent, roughly.
 */
export function solveContacts(program: ContactProgram, out: Float64Array): number {
  const { rows, columns, penalty, reach } = program;
  const m = rows.count;
  const { at, slope } = sparse(program);
  const matrix = new EnvelopeMatrix(envelope(columns, at, m));
  const z = new Float64Array(columns);
  const cost = new Float64Array(columns);
  if (program.lengthCost > 0) cost[columns - 1] = program.lengthCost;
  const bound = new Float64Array(columns).fill(1);
  if (program.lengthCost > 0) bound[columns - 1] = LENGTH_REACH;
  // rows: slack above, shortfall, their multipliers; lengths are shares of the reach from here on
  const gap = new Float64Array(m);
  const t = new Float64Array(m);
  const s = new Float64Array(m);
  const l = new Float64Array(m);
  const v = new Float64Array(m);
  const first = Math.min(0.1, 0.5 * penalty);
  for (let k = 0; k < m; k++) {
    gap[k] = rows.gap[k]! / reach;
    t[k] = Math.max(gap[k]!, 0) + 0.1;
    s[k] = Math.max(-gap[k]!, 0) + 0.1;
    l[k] = first;
    v[k] = penalty - first;
  }
  // bounds: high and low
  const th = Float64Array.from(bound);
  const tl = Float64Array.from(bound);
  const lh = new Float64Array(columns).fill(0.1);
  const ll = new Float64Array(columns).fill(0.1);
  const weight = new Float64Array(m);
  const target = new Float64Array(m);
  const right = new Float64Array(columns);
  const dual = new Float64Array(columns);
  const dt = new Float64Array(m);
  const ds = new Float64Array(m);
  const dl = new Float64Array(m);
  const dv = new Float64Array(m);
  const dth = new Float64Array(columns);
  const dtl = new Float64Array(columns);
  const dlh = new Float64Array(columns);
  const dll = new Float64Array(columns);
  const primal = new Float64Array(m);
  const pairs = 2 * m + 2 * columns;
  let work = 0;

  const product = (k: number, vector: Float64Array): number => {
    let sum = 0;
    for (let q = 7 * k; q < 7 * k + 7; q++) if (at[q]! >= 0) sum += slope[q]! * vector[at[q]!]!;
    return sum;
  };

  /** Direction for complementarity products rt, rs (rows) and rh, rl (bounds) given as functions. */
  const direction = (centre: number, isCorrector: boolean): void => {
    right.set(dual);
    for (let q = 0; q < columns; q++) right[q] = -right[q]!;
    for (let k = 0; k < m; k++) {
      const rt = centre - t[k]! * l[k]! - (isCorrector ? dt[k]! * dl[k]! : 0);
      const rs = centre - s[k]! * v[k]! - (isCorrector ? ds[k]! * dv[k]! : 0);
      const rv = penalty - l[k]! - v[k]!;
      target[k] = primal[k]! + rt / l[k]! - (rs - s[k]! * rv) / v[k]!;
      dt[k] = rt;
      ds[k] = rs - s[k]! * rv;
      const value = weight[k]! * target[k]!;
      for (let q = 7 * k; q < 7 * k + 7; q++) if (at[q]! >= 0) right[at[q]!]! += slope[q]! * value;
    }
    for (let q = 0; q < columns; q++) {
      const rh = centre - th[q]! * lh[q]! - (isCorrector ? dth[q]! * dlh[q]! : 0);
      const rl = centre - tl[q]! * ll[q]! - (isCorrector ? dtl[q]! * dll[q]! : 0);
      dth[q] = rh;
      dtl[q] = rl;
      right[q]! += -rh / th[q]! + rl / tl[q]!;
    }
    matrix.solve(right);
    for (let k = 0; k < m; k++) {
      const dual = weight[k]! * (target[k]! - product(k, right));
      const rv = penalty - l[k]! - v[k]!;
      dl[k] = dual;
      dv[k] = rv - dual;
      dt[k] = (dt[k]! - t[k]! * dual) / l[k]!;
      ds[k] = (ds[k]! + s[k]! * dual) / v[k]!;
    }
    for (let q = 0; q < columns; q++) {
      const dz = right[q]!;
      dlh[q] = (dth[q]! + lh[q]! * dz) / th[q]!;
      dll[q] = (dtl[q]! - ll[q]! * dz) / tl[q]!;
      dth[q] = -dz;
      dtl[q] = dz;
    }
  };

  for (let step = 0; step < MOST_STEPS; step++) {
    // residuals
    let mu = 0;
    let worst = 0;
    dual.set(cost);
    for (let k = 0; k < m; k++) {
      primal[k] = -(gap[k]! + product(k, z) - t[k]! + s[k]!);
      worst = Math.max(worst, Math.abs(primal[k]!));
      mu += t[k]! * l[k]! + s[k]! * v[k]!;
      for (let q = 7 * k; q < 7 * k + 7; q++) if (at[q]! >= 0) dual[at[q]!]! -= slope[q]! * l[k]!;
    }
    for (let q = 0; q < columns; q++) {
      dual[q]! += lh[q]! - ll[q]!;
      mu += th[q]! * lh[q]! + tl[q]! * ll[q]!;
    }
    mu /= pairs;
    if (mu < SOLVED && worst < SOLVED) break;
    // normal matrix
    matrix.values.fill(0);
    for (let k = 0; k < m; k++) {
      const w = 1 / (t[k]! / l[k]! + s[k]! / v[k]!);
      weight[k] = w;
      for (let p = 7 * k; p < 7 * k + 7; p++) {
        const row = at[p]!;
        if (row < 0) continue;
        const base = matrix.start[row]!;
        const value = w * slope[p]!;
        for (let q = 7 * k; q < 7 * k + 7; q++) {
          const column = at[q]!;
          if (column >= 0 && column <= row) matrix.values[base + column]! += value * slope[q]!;
        }
      }
    }
    for (let q = 0; q < columns; q++) {
      const d = matrix.start[q]! + q;
      matrix.values[d]! += lh[q]! / th[q]! + ll[q]! / tl[q]!;
    }
    matrix.factorise(1e-14);
    direction(0, false);
    const predicted = (() => {
      const a = lengthOf(t, dt, lengthOf(s, ds, lengthOf(th, dth, lengthOf(tl, dtl, 1))));
      const b = lengthOf(l, dl, lengthOf(v, dv, lengthOf(lh, dlh, lengthOf(ll, dll, 1))));
      let sum = 0;
      for (let k = 0; k < m; k++) {
        sum += (t[k]! + a * dt[k]!) * (l[k]! + b * dl[k]!) + (s[k]! + a * ds[k]!) * (v[k]! + b * dv[k]!);
      }
      for (let q = 0; q < columns; q++) {
        sum += (th[q]! + a * dth[q]!) * (lh[q]! + b * dlh[q]!) + (tl[q]! + a * dtl[q]!) * (ll[q]! + b * dll[q]!);
      }
      return sum / pairs;
    })();
    direction(mu * (predicted / mu) ** 3, true);
    const a = STEP_BACK * lengthOf(t, dt, lengthOf(s, ds, lengthOf(th, dth, lengthOf(tl, dtl, 1 / STEP_BACK))));
    const b = STEP_BACK * lengthOf(l, dl, lengthOf(v, dv, lengthOf(lh, dlh, lengthOf(ll, dll, 1 / STEP_BACK))));
    for (let q = 0; q < columns; q++) {
      z[q]! += a * right[q]!;
      th[q]! += a * dth[q]!;
      tl[q]! += a * dtl[q]!;
      lh[q]! += b * dlh[q]!;
      ll[q]! += b * dll[q]!;
    }
    for (let k = 0; k < m; k++) {
      t[k]! += a * dt[k]!;
      s[k]! += a * ds[k]!;
      l[k]! += b * dl[k]!;
      v[k]! += b * dv[k]!;
    }
    const width = matrix.values.length / Math.max(1, columns);
    work += matrix.values.length * (width + 8) + 200 * m;
  }
  for (let q = 0; q < columns; q++) out[q] = z[q]! * reach;
  return work;
}

/** Largest step up to `most` that keeps all values above 0. */
function lengthOf(values: Float64Array, change: Float64Array, most: number): number {
  let step = most;
  for (let k = 0; k < values.length; k++)
    if (change[k]! < 0 && -values[k]! / change[k]! < step) step = -values[k]! / change[k]!;
  return step;
}

/** Columns and slopes of all rows, seven places each, -1 = none. */
function sparse({ rows, column, mayTurn, columns, lengthCost }: ContactProgram): {
  at: Int32Array;
  slope: Float64Array;
} {
  const at = new Int32Array(7 * rows.count).fill(-1);
  const slope = new Float64Array(7 * rows.count);
  for (let k = 0; k < rows.count; k++) {
    for (let side = 0; side < 2; side++) {
      const body = side === 0 ? rows.a[k]! : rows.b[k]!;
      if (body === NO_BODY || column[body]! < 0) continue;
      const parts = mayTurn[body] === 1 ? 3 : 2;
      for (let c = 0; c < parts; c++) {
        at[7 * k + 3 * side + c] = column[body]! + c;
        slope[7 * k + 3 * side + c] = rows.slope[6 * k + 3 * side + c]!;
      }
    }
    if (lengthCost > 0 && rows.far[k] !== 0) {
      at[7 * k + 6] = columns - 1;
      slope[7 * k + 6] = rows.far[k]!;
    }
  }
  return { at, slope };
}

/** First column that meets each row of the normal matrix. */
function envelope(columns: number, at: Int32Array, m: number): Int32Array {
  const first = Int32Array.from({ length: columns }, (_, q) => q);
  for (let k = 0; k < m; k++) {
    let low = columns;
    for (let q = 7 * k; q < 7 * k + 7; q++) if (at[q]! >= 0 && at[q]! < low) low = at[q]!;
    for (let q = 7 * k; q < 7 * k + 7; q++) if (at[q]! >= 0 && low < first[at[q]!]!) first[at[q]!] = low;
  }
  return first;
}
