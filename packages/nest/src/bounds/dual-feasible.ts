import type { Prepared, PreparedPiece } from '../shape/prepare.ts';
import { BOUND_SLACK } from './area-bound.ts';
import { innerRectangles, type Size } from './inner-rectangles.ts';

/** A dual feasible function on [0, 1]: numbers that sum to at most 1 are sent to numbers that sum to at most 1. */
type Feasible = (x: number) => number;

/** Sizes are lowered by this share before a function is applied, so that rounding never lifts one over a step. */
const ROUNDING = 1e-7;
/** Shares of the spacing by which a rectangle may be widened along x and y at once. */
const WIDENINGS = [
  [1, 0],
  [0, 1],
  [Math.SQRT1_2, Math.SQRT1_2],
] as const;
/** Thresholds taken from the sizes in the problem, per axis. */
const MOST_THRESHOLDS = 14;

/**
 * Boards needed by dual feasible functions (Fekete and Schepers 2001): for feasible f and g, sum f(w) g(h) over the rectangles
 * of one board is at most 1. They are applied to rectangles that the pieces contain. Half the spacing belongs to each piece: a
 * rectangle grown by it with round corners holds the rectangle widened by the spacing along one axis, or by the spacing /
 * sqrt(2) along both, and the grown ones do not overlap on a board that is widened by the spacing. Pieces that may lie in several ways count with the
 * least value over them; several boards are covered by one box that holds each of them.
 * @param counts - how many of each part.
 */
export function dualFeasibleBound(prepared: Prepared, counts: readonly number[]): number {
  const { spacing, margin } = prepared.problem.rules;
  const stocks = prepared.stocks.filter((stock) => stock.stock.count !== 0);
  const width = Math.max(...stocks.map((stock) => stock.width)) - 2 * margin + spacing;
  const height = Math.max(...stocks.map((stock) => stock.height)) - 2 * margin + spacing;
  if (!(width > 0 && height > 0)) return 0;
  const items = prepared.pieces
    .filter((part) => counts[part.index]! > 0)
    .map((part) => ({
      count: counts[part.index]!,
      ways: waysOf(part).map((sizes) =>
        sizes.flatMap((size) =>
          WIDENINGS.map(([x, y]) => ({
            w: lowered((size.width + x * spacing) / width),
            h: lowered((size.height + y * spacing) / height),
          })),
        ),
      ),
    }));
  const all = items.flatMap((item) => item.ways.flat());
  const fs = functionsFor(all.map((size) => size.w));
  const gs = functionsFor(all.map((size) => size.h));
  let best = 0;
  for (const f of fs) {
    for (const g of gs) {
      let sum = 0;
      for (const { count, ways } of items) {
        let least = Number.POSITIVE_INFINITY;
        for (const sizes of ways) {
          let most = 0;
          for (const { w, h } of sizes) most = Math.max(most, f(w) * g(h));
          least = Math.min(least, most);
        }
        sum += count * least;
      }
      best = Math.max(best, sum);
    }
  }
  return Math.ceil(best - BOUND_SLACK * Math.max(1, best));
}

/** For every way a part may lie (upright, lying, any other) the rectangles that it surely contains then. */
function waysOf(part: PreparedPiece): Size[][] {
  const turns = part.piece.turns;
  const upright = innerRectangles(part.piece.region, part.piece.outline === null);
  if (turns === 'fixed' || turns === 'half') return [upright];
  const lying = upright.map(({ width, height }) => ({ width: height, height: width }));
  const quarterSteps =
    turns === 'quarter' || (typeof turns === 'object' && turns.stepDeg % 90 === 0 && 360 % turns.stepDeg === 0);
  if (quarterSteps) return [upright, lying];
  // a square of side a contains a circle of diameter a, and that an upright square of side a / sqrt(2) in any turn
  const side = Math.max(0, ...upright.map(({ width, height }) => Math.min(width, height))) / Math.SQRT2;
  return [side > 0 ? [{ width: side, height: side }] : []];
}

function lowered(x: number): number {
  return Math.max(0, Math.min(1, x * (1 - ROUNDING)));
}

/**
 * The identity; U(e): beyond 1 - e counts as the whole, below e as nothing; phi(e): counts how often e fits, large sizes as
 * what is left; u(k): multiples of 1 / (k + 1) stay, others step down to multiples of 1 / k (all from Fekete and Schepers).
 */
function functionsFor(sizes: readonly number[]): Feasible[] {
  const thresholds = [...new Set(sizes.flatMap((x) => [x, 1 - x]).filter((x) => x > 0 && x <= 0.5))].sort(
    (a, b) => b - a,
  );
  const step = Math.max(1, Math.ceil(thresholds.length / MOST_THRESHOLDS));
  const chosen = thresholds.filter((_, i) => i % step === 0);
  return [
    (x) => x,
    ...chosen.map(
      (e): Feasible =>
        (x) =>
          x > 1 - e ? 1 : x >= e ? x : 0,
    ),
    ...chosen.map((e): Feasible => {
      const most = Math.floor(1 / e);
      return (x) => (x > 0.5 ? 1 - Math.floor((1 - x) / e) / most : x >= e ? 1 / most : 0);
    }),
    ...[1, 2, 3, 4].map(
      (k): Feasible =>
        (x) => {
          const steps = (k + 1) * x;
          return Number.isInteger(steps) ? x : Math.floor(steps) / k;
        },
    ),
  ];
}
