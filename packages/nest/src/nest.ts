import type { WorkContext } from '@underlap/geometry/context';
import { type Draft, fillBoards } from './blf/bottom-left.ts';
import { ORDERS, orderedUnits } from './blf/orders.ts';
import { boardBound } from './bounds/board-bound.ts';
import { layoutOf } from './draft-layout.ts';
import { NestError } from './error.ts';
import { boardsOfPins } from './pinned.ts';
import type { BoardBound, Effort, Layout, NestProblem, NestResult } from './problem.ts';
import { compareScores, scoreOf } from './score.ts';
import { type Prepared, prepareProblem } from './shape/prepare.ts';
import { reasonsOf } from './unplaced.ts';

/** A better layout than any before, as it is found. */
export interface BestSoFar {
  readonly layout: Layout;
  readonly lowerBound: BoardBound;
  readonly workUnits: number;
}

export interface NestContext extends WorkContext {
  /** Called with the first valid layout and with every better one. */
  readonly onBest?: (best: BestSoFar) => void;
}

/**
 * Lay pieces out on boards: a valid bottom-left-fill layout at once, then, unless the effort is 'quick', a search that
 * improves it until its budget of work units ends, the lower bound is met or the signal aborts.
 * @param effort - 'quick', 'normal', 'thorough' or a number of work units > 0; the same seed and effort give the same layout.
 * @returns the best layout found; pieces without a place are listed with the reason, not thrown. When cancelled, the best so far.
 * @throws NestError when the problem itself cannot be used (a part without area, a negative spacing, ...).
 */
export async function nest(problem: NestProblem, effort: Effort, context: NestContext): Promise<NestResult> {
  if (typeof effort === 'number' && !(effort > 0 && Number.isFinite(effort))) {
    throw new NestError(
      'bad-effort',
      `the effort must be quick, normal, thorough or a number above 0, not ${effort}`,
      'effort',
    );
  }
  const prepared = prepareProblem(problem);
  const pins = boardsOfPins(prepared, problem.pinned);
  const keepOrder = problem.pinned.length > 0;
  const lowerBound = boardBound(prepared);
  context.onProgress?.({ stage: 'nest', done: 0 });
  const isStopped = () => context.signal?.aborted === true;
  const publish = (draft: Draft): Layout =>
    layoutOf(prepared, draft, reasonsOf(prepared, draft, isStopped()), keepOrder);
  let units = 0;
  const best = bestFill(prepared, pins, isStopped, (draft) => {
    units++;
    context.onBest?.({ layout: publish(draft), lowerBound, workUnits: units });
  });
  const layout = publish(best);
  context.onProgress?.({ stage: 'nest', done: 1 });
  const isProvedMinimal = layout.unplaced.length === 0 && layout.sheets.length <= lowerBound.boards;
  return {
    layout,
    lowerBound,
    isProvedMinimal,
    endedBy: isStopped() ? 'cancelled' : isProvedMinimal ? 'proved' : 'budget',
    workUnits: units,
  };
}

/** The best of several bottom-left fills that differ in the order of pieces and in which board is opened first. */
function bestFill(
  prepared: Prepared,
  pins: Draft['boards'],
  isStopped: () => boolean,
  onBetter: (draft: Draft) => void,
): Draft {
  const skip = new Set(pins.flatMap((board) => board.placed.map((p) => p.piece)));
  const tries = ORDERS.slice(0, prepared.pieces.length <= 100 ? ORDERS.length : prepared.pieces.length <= 400 ? 2 : 1);
  let best: Draft | null = null;
  let bestScore: number[] = [];
  for (const by of tries) {
    for (const preference of preferences(prepared)) {
      if (best !== null && isStopped()) return best;
      const draft = fillBoards(prepared, {
        units: orderedUnits(prepared, by, skip),
        preference,
        begun: pins,
        shouldStop: isStopped,
      });
      const score = scoreOf(prepared, draft);
      if (best === null || compareScores(score, bestScore) < 0) {
        best = draft;
        bestScore = score;
        onBetter(draft);
      }
    }
  }
  return best!;
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
