import { type Draft, fillBoards } from '../blf/bottom-left.ts';
import { ORDERS, orderedUnits } from '../blf/orders.ts';
import { packBoards } from '../boards/pack-boards.ts';
import { copyName } from '../copy.ts';
import { layoutOf } from '../draft-layout.ts';
import { boardsOfPins, draftOfLayout } from '../pinned.ts';
import type { Layout, NestProblem } from '../problem.ts';
import { compareScores, scoreOf } from '../score.ts';
import { type Random, seededRandom } from '../search/random.ts';
import { type Prepared, prepareProblem } from '../shape/prepare.ts';
import { cellsForRun, fillCells, keepsToCells } from './cells.ts';
import { onCheaperStock } from './cheaper-stock.ts';
import { engineTask } from './engine.ts';
import { tidyLastBoard } from './last-board.ts';
import { emptiestBoard, laidOutAfresh, refill } from './refill.ts';
import { budgetOf, EVALUATIONS_PER_UNIT, type SearchTaskHooks, stepHooks } from './task-hooks.ts';
import { unloadLastBoard } from './unload-last-board.ts';

/** One independent run of the search: plain data, so that it can be sent to a worker. */
export interface SearchTask {
  readonly problem: NestProblem;
  /** Valid layout to begin with and to beat. */
  readonly start: Layout;
  /** Names of unplaced copies of the start that would fit a board, to be placed as well. */
  readonly include: readonly string[];
  readonly seed: number;
  /** Number of this run; runs of one seed differ by it. */
  readonly run: number;
  readonly units: number;
  /** Proven lower bound on boards: nothing better needs to be looked for. */
  readonly boundBoards: number;
}

export interface SearchOutcome {
  readonly run: number;
  /** Never worse than the start. */
  readonly layout: Layout;
  /** Smaller is better, compared from the left. */
  readonly score: readonly number[];
  readonly units: number;
}

/** Share of a run's units for fewer boards at most; the last share is for pushing the last board's pieces together. */
const BOARDS_SHARE = 0.65;
const TIDY_SHARE = 0.2;
/** With many kinds a whole board is rarely closed at once, and piece by piece much is moved: the share for the former. */
const MANY_KINDS_SHARE = 0.15;
/** Independent runs of one round: a fixed number, so that the result does not depend on the number of threads. */
export const RUNS_OF_A_ROUND = 4;
/** Copies from which a fill takes seconds. */
const MANY_COPIES = 150;
/** Share of these spent on fills in other orders where the bed is smaller than the board. */
const ORDERS_SHARE = 0.2;

/**
 * One run: look for fewer or cheaper boards by overlap minimisation, move pieces of the last board onto the others with what that
 * leaves, then push the last board's pieces together. With a bed smaller than the board the windows are cut apart in a way of each run's own.
 * @remarks Pure and synchronous: the same task gives the same outcome in any thread. Stops early only by its hooks.
 */
export function runSearchTask(task: SearchTask, hooks: SearchTaskHooks = {}): SearchOutcome {
  const prepared = prepareProblem(task.problem);
  const pins = boardsOfPins(prepared, task.problem.pinned);
  const start = draftOfLayout(prepared, task.start);
  if (start === null) return { run: task.run, layout: task.start, score: [], units: 0 };
  const keepOrder = pins.length > 0;
  const publish = (draft: Draft) => layoutOf(prepared, draft, leftOver(prepared, draft), keepOrder);
  const best = { draft: start, score: scoreOf(prepared, start) };
  const take = (draft: Draft): boolean => {
    const score = scoreOf(prepared, draft);
    if (compareScores(score, best.score) >= 0) return false;
    best.draft = draft;
    best.score = score;
    hooks.onBetter?.(publish(draft), score);
    return true;
  };
  const isOver = () => hooks.signal?.aborted === true || (hooks.timeSpent?.() ?? 0) >= 1;
  const seed = `${task.seed}:${task.run}`;
  let units = searchBoards(prepared, task, pins, best, take, hooks, seed);
  // the start refilled is the same in every run: with many copies one run tries it for all
  const isFirst = task.run % RUNS_OF_A_ROUND === 0;
  const isTried = best.draft === start && !isFirst && prepared.copies.length > MANY_COPIES;
  if (!isOver() && !isTried) take(refill(prepared, best.draft, pins));
  if (!isOver()) take(onCheaperStock(prepared, best.draft, pins));
  if (!isOver()) {
    const share = task.units * (1 - TIDY_SHARE) - units;
    const unloaded = unloadLastBoard(prepared, best.draft, pins, share, seed, hooks);
    units += unloaded.units;
    const settled = settledLastBoard(prepared, best.draft, unloaded.draft, pins);
    take(settled);
    if (!isOver()) units += tidyLastBoard(prepared, settled, pins, task.units - units, seed, take, hooks);
  }
  hooks.onProgress?.(1);
  return { run: task.run, layout: publish(best.draft), score: best.score, units };
}

/** What unloading has left on the last board, laid out afresh there if that is better: pieces that went away leave holes. */
function settledLastBoard(prepared: Prepared, before: Draft, unloaded: Draft, pins: Draft['boards']): Draft {
  if (unloaded === before) return before;
  const last = emptiestBoard(prepared, unloaded, pins);
  if (last < 0) return unloaded;
  const afresh = laidOutAfresh(prepared, unloaded.boards[last]!);
  if (afresh === null) return unloaded;
  const settled = {
    boards: unloaded.boards.map((board, index) => (index === last ? afresh : board)),
    left: unloaded.left,
  };
  return compareScores(scoreOf(prepared, settled), scoreOf(prepared, unloaded)) < 0 ? settled : unloaded;
}

/** The caller knows the reasons; here it is enough that no piece is lost. */
function leftOver(prepared: Prepared, draft: Draft): Layout['unplaced'] {
  return draft.left.map((index) => {
    const { pieceId, copy } = prepared.copies[index]!;
    return { pieceId, copy, why: '' };
  });
}

function searchBoards(
  prepared: Prepared,
  task: SearchTask,
  pins: Draft['boards'],
  best: { readonly draft: Draft },
  take: (draft: Draft) => boolean,
  hooks: SearchTaskHooks,
  seed: string,
): number {
  const include = prepared.copies.filter((copy) => task.include.includes(copy.name)).map((copy) => copy.index);
  const isMinimal =
    include.length === 0 && prepared.stocks.length === 1 && best.draft.boards.length <= task.boundBoards;
  if (isMinimal) return 0;
  const budget = task.units * BOARDS_SHARE;
  const cells = cellsForRun(prepared, task.run);
  let from = best.draft;
  let spent = 0;
  if (!keepsToCells(from, pins, cells)) {
    // a bed smaller than the board: some fills in other orders first, and a layout that the search can begin with
    spent = searchOrders(prepared, pins, budget * ORDERS_SHARE, seed, take, hooks);
    from = fillCells(prepared, pins, cells, () => hooks.signal?.aborted === true);
    take(from);
  }
  const fitsNoBoard = new Set(task.start.unplaced.map(copyName).filter((name) => !task.include.includes(name)));
  const loose = from.left.filter((piece) => !fitsNoBoard.has(prepared.copies[piece]!.name));
  const engine = engineTask(prepared, from, pins, loose, task.boundBoards, cells);
  if (engine.input.items.length === 0) return spent;
  const share = engine.hasManyKinds ? MANY_KINDS_SHARE : BOARDS_SHARE;
  const done = spent / task.units;
  const result = packBoards(engine.input, engine.incumbent, budgetOf(Math.max(0, task.units * share - spent), hooks), {
    ...stepHooks(seed, hooks),
    onBetter: (spots) => take(engine.draftOf(spots)),
    onProgress: (part) => hooks.onProgress?.(done + part * (share - done)),
  });
  if (result.spots !== null) take(engine.draftOf(result.spots));
  return spent + result.evaluations / EVALUATIONS_PER_UNIT;
}

/** Fill again and again with units in disturbed orders; one fill counts as a unit for each 200 pieces. */
function searchOrders(
  prepared: Prepared,
  pins: Draft['boards'],
  units: number,
  seed: string,
  take: (draft: Draft) => boolean,
  hooks: SearchTaskHooks,
): number {
  const random = seededRandom(seed);
  const cost = Math.max(0.05, prepared.copies.length / 200);
  const isOver = () => hooks.signal?.aborted === true || (hooks.timeSpent?.() ?? 0) >= 1;
  let spent = 0;
  while (spent + cost <= units && !isOver()) {
    const by = ORDERS[Math.floor(random() * ORDERS.length)]!;
    const list = disturbed(orderedUnits(prepared, by, pins), random);
    const preference = disturbed(
      prepared.stocks.map((stock) => stock.index),
      random,
    );
    const draft = fillBoards(prepared, { units: list, preference, begun: pins, shouldStop: isOver });
    spent += cost;
    take(draft);
    hooks.onProgress?.((spent / units) * ORDERS_SHARE * BOARDS_SHARE);
  }
  return spent;
}

/** A list with some neighbours exchanged, so that large units still come early. */
function disturbed<T>(list: readonly T[], random: Random): T[] {
  const out = list.slice();
  const reach = Math.max(2, Math.ceil(out.length * 0.15));
  for (let i = 0; i < out.length; i++) {
    const j = Math.min(out.length - 1, i + Math.floor(random() ** 2 * reach));
    const kept = out[i]!;
    out[i] = out[j]!;
    out[j] = kept;
  }
  return out;
}
