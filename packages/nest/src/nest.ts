import type { WorkContext } from '@underlap/geometry/context';
import { type Attitudes, type Draft, fillBoards } from './blf/bottom-left.ts';
import { type OrderBy, orderedUnits, ordersFor } from './blf/orders.ts';
import { boardBound, quickBound } from './bounds/board-bound.ts';
import { checkLayout } from './check/check-layout.ts';
import { copyName } from './copy.ts';
import { layoutOf } from './draft-layout.ts';
import { NestError } from './error.ts';
import { onCheaperStock } from './improve/cheaper-stock.ts';
import { improve } from './improve/improve.ts';
import type { NoFitCache } from './nfp/no-fit-cache.ts';
import { boardsOfPins, draftOfLayout } from './pinned.ts';
import { inThreadPool, type NestPool } from './pool.ts';
import type { BoardBound, Effort, Layout, NestProblem, NestResult } from './problem.ts';
import { compareScores, scoreOf } from './score.ts';
import { type Prepared, prepareProblem } from './shape/prepare.ts';
import { reasonsOf, STOCK_USED_UP } from './unplaced.ts';

/** A better layout than any before, as it is found. */
export interface BestSoFar {
  readonly layout: Layout;
  readonly lowerBound: BoardBound;
  readonly workUnits: number;
}

export interface NestContext extends WorkContext {
  /** Called with the first valid layout and with every better one. */
  readonly onBest?: (best: BestSoFar) => void;
  /** Threads to search in; without it the search runs in this thread, and a cancel is seen between its runs only. */
  readonly pool?: NestPool;
  /** No-fit polygons kept by the caller from one layout to the next; they save time and change no result. */
  readonly noFits?: NoFitCache;
  /** A valid layout to go on from: the result is never worse. */
  readonly start?: Layout;
  /** Second, optional stop, milliseconds; the result then depends on the machine's speed. */
  readonly timeLimitMs?: number;
}

/** Work units of the named efforts, 10^6 part-position evaluations each. */
export const UNITS_OF_EFFORT = { quick: 0, normal: 12, thorough: 240 } as const;
/** Rounds that they are spent in. */
const ROUNDS_OF_EFFORT = { quick: 0, normal: 1, thorough: 4 } as const;
/**
 * Different parts times attitudes above which a fill in one attitude a part comes before the others: some 2 ms each, and a
 * layout to look at is wanted at once.
 */
const MOST_ATTITUDES_AT_ONCE = 150;
/**
 * Attitudes of a part above which the fills keep to right angles, but for one: with a choice of 24 turns the leftmost place of each
 * piece leaves gaps that nothing fills (88 pieces of the sample: 17 boards for 14), and takes three times as long.
 */
const MANY_ATTITUDES = 8;
/** Units from which a number given as effort is spent in more rounds. */
const UNITS_PER_ROUND = 16;
const MOST_ROUNDS = 6;

/**
 * Lay pieces out on boards: a valid bottom-left-fill layout at once, then, unless the effort is 'quick', a search that
 * improves it until its budget of work units ends, or the signal aborts.
 * @param effort - 'quick', 'normal', 'thorough' or a number of work units > 0; the same seed and effort give the same layout
 * for any number of threads.
 * @returns the best layout found; pieces without a place are listed with the reason, not thrown. When cancelled, the best so far.
 * @throws NestError when the problem itself cannot be used (a part without area, a negative spacing, ...).
 */
export async function nest(problem: NestProblem, effort: Effort, context: NestContext): Promise<NestResult> {
  const plan = planOf(effort);
  const prepared = prepareProblem(problem);
  const pins = boardsOfPins(prepared, problem.pinned);
  const keepOrder = pins.length > 0;
  const clock = stopper(context);
  const isStopped = () => clock.signal.aborted;
  const report = (done: number) => context.onProgress?.({ stage: 'nest', done });
  report(0);
  const publish = (draft: Draft): Layout =>
    layoutOf(prepared, draft, reasonsOf(prepared, draft, isStopped()), keepOrder);
  let fills = 0;
  const first = bestFill(prepared, pins, givenStart(prepared, context.start), isStopped, (draft) => {
    const lowerBound = quickBound(prepared, new Set(draft.left));
    context.onBest?.({ layout: publish(draft), lowerBound, workUnits: fills++ });
  });
  const start = publish(first);
  const lowerBound = boardBound(prepared, new Set(first.left), context.noFits);
  context.onBest?.({ layout: start, lowerBound, workUnits: fills });
  let layout = start;
  let workUnits = fills;
  if (plan.units > 0 && !isStopped() && prepared.copies.length > 0) {
    const improved = await improve({
      problem,
      start,
      startScore: scoreOf(prepared, first),
      include: placeable(prepared, start, first),
      seed: context.seed,
      units: plan.units,
      rounds: plan.rounds,
      boundBoards: lowerBound.boards,
      pool: context.pool ?? inThreadPool(),
      signal: clock.signal,
      onBetter: (better, units) =>
        context.onBest?.({ layout: withReasons(better, start), lowerBound, workUnits: fills + units }),
      onProgress: (done) => report(Math.min(done, 0.999)),
    });
    layout = withReasons(improved.layout, start);
    workUnits += Math.ceil(improved.units);
  }
  const endedBy = clock.end(isProved(problem, layout, lowerBound));
  report(1);
  return { layout, lowerBound, isProvedMinimal: isProved(problem, layout, lowerBound), endedBy, workUnits };
}

function planOf(effort: Effort): { readonly units: number; readonly rounds: number } {
  if (typeof effort !== 'number') return { units: UNITS_OF_EFFORT[effort], rounds: ROUNDS_OF_EFFORT[effort] };
  if (!(effort > 0 && Number.isFinite(effort))) {
    throw new NestError(
      'bad-effort',
      `the effort must be quick, normal, thorough or a number above 0, not ${effort}`,
      'effort',
    );
  }
  return { units: effort, rounds: Math.max(1, Math.min(MOST_ROUNDS, Math.ceil(effort / UNITS_PER_ROUND))) };
}

/** One signal for the caller's cancel and the time limit, and the word for what ended the search. */
function stopper(context: NestContext): {
  readonly signal: AbortSignal;
  end(isProvedMinimal: boolean): NestResult['endedBy'];
} {
  const own = new AbortController();
  const stop = () => own.abort();
  if (context.signal?.aborted === true) stop();
  context.signal?.addEventListener('abort', stop, { once: true });
  const timer = context.timeLimitMs === undefined ? null : setTimeout(stop, context.timeLimitMs);
  return {
    signal: own.signal,
    end(isProvedMinimal) {
      context.signal?.removeEventListener('abort', stop);
      if (timer !== null) clearTimeout(timer);
      if (context.signal?.aborted === true) return 'cancelled';
      return own.signal.aborted ? 'time' : isProvedMinimal ? 'proved' : 'budget';
    },
  };
}

/** Is no cheaper or smaller number of boards possible? For the cheapest aim every board must also be of the cheapest kind. */
function isProved(problem: NestProblem, layout: Layout, bound: BoardBound): boolean {
  if (layout.unplaced.length > 0 || layout.sheets.length > bound.boards) return false;
  if (problem.rules.aim === 'fewest-boards') return true;
  const cheapest = Math.min(...problem.stock.filter((stock) => stock.count !== 0).map((stock) => stock.price));
  return layout.sheets.every((sheet) => problem.stock.find((stock) => stock.id === sheet.stockId)?.price === cheapest);
}

/** A start that misses pieces or names unknown ones is not used; nor is one whose pins have moved since. */
function givenStart(prepared: Prepared, start: Layout | undefined): Draft | null {
  if (start === undefined || !checkLayout(prepared.problem, start).ok) return null;
  return draftOfLayout(prepared, start);
}

/** Left-over pieces that a longer search may still find a place for: those that would fit an empty board. */
function placeable(prepared: Prepared, layout: Layout, draft: Draft): string[] {
  const why = new Map(layout.unplaced.map((entry) => [copyName(entry), entry.why]));
  return draft.left.map((index) => prepared.copies[index]!.name).filter((name) => why.get(name) === STOCK_USED_UP);
}

/** Reasons are written once, for the first layout; later ones leave out no other pieces. */
function withReasons(layout: Layout, first: Layout): Layout {
  const placed = new Set(layout.sheets.flatMap((sheet) => sheet.placements.map(copyName)));
  return { ...layout, unplaced: first.unplaced.filter((entry) => !placed.has(copyName(entry))) };
}

/** One bottom-left fill: order of the pieces, kinds of board, attitudes looked at. */
interface Fill {
  readonly by: OrderBy;
  readonly preference: readonly number[];
  readonly attitudes: Attitudes;
}

/** The best of several bottom-left fills that differ in the order of pieces and in which board is opened first. */
function bestFill(
  prepared: Prepared,
  pins: Draft['boards'],
  given: Draft | null,
  isStopped: () => boolean,
  onBetter: (draft: Draft) => void,
): Draft {
  const tries = ordersFor(prepared.copies.length);
  const orders = preferences(prepared);
  const fills = tries.flatMap((by) => orders.map((preference): Fill => ({ by, preference, attitudes: 'all' })));
  if (prepared.pieces.some((part) => part.offGrain.length > MANY_ATTITUDES)) {
    fills.splice(1);
    fills.unshift(
      ...tries.flatMap((by) => orders.map((preference): Fill => ({ by, preference, attitudes: 'square' }))),
    );
  }
  const attitudes = prepared.pieces.reduce((sum, part) => sum + part.offGrain.length, 0);
  if (given === null && attitudes > MOST_ATTITUDES_AT_ONCE) fills.unshift({ ...fills[0]!, attitudes: 'one' });
  let best = given;
  let bestScore = given === null ? [] : scoreOf(prepared, given);
  for (const { by, preference, attitudes: which } of fills) {
    if (best !== null && isStopped()) return best;
    const draft = fillBoards(prepared, {
      units: orderedUnits(prepared, by, pins),
      preference,
      begun: pins,
      attitudes: which,
      shouldStop: isStopped,
    });
    const score = scoreOf(prepared, draft);
    if (best === null || compareScores(score, bestScore) < 0) {
      best = draft;
      bestScore = score;
      onBetter(draft);
    }
  }
  const cheaper = onCheaperStock(prepared, best!, pins);
  if (isStopped() || compareScores(scoreOf(prepared, cheaper), bestScore) >= 0) return best!;
  onBetter(cheaper);
  return cheaper;
}

/** Orders in which kinds of board may be opened: largest first, cheapest by area first, and each kind first on its own. */
function preferences(prepared: Prepared): number[][] {
  const { stocks } = prepared;
  const all = stocks.map((stock) => stock.index);
  if (all.length <= 1) return [all];
  const byArea = all.slice().sort((a, b) => stocks[b]!.areaMm2 - stocks[a]!.areaMm2 || a - b);
  const rate = (i: number) => stocks[i]!.stock.price / stocks[i]!.areaMm2;
  const byRate = all.slice().sort((a, b) => rate(a) - rate(b) || stocks[b]!.areaMm2 - stocks[a]!.areaMm2 || a - b);
  const base = prepared.problem.rules.aim === 'cheapest' ? byRate : byArea;
  const lists = [
    base,
    ...(base === byRate ? [byArea] : [byRate]),
    ...all.map((i) => [i, ...base.filter((j) => j !== i)]),
  ];
  const seen = new Set<string>();
  return lists.filter((list) => {
    const key = list.join(',');
    if (seen.has(key)) return false;
    seen.add(key);
    return true;
  });
}
