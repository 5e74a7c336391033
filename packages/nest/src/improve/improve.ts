import { checkLayout } from '../check/check-layout.ts';
import { copyName } from '../copy.ts';
import { type NestPool, runAll } from '../pool.ts';
import type { Layout, NestProblem } from '../problem.ts';
import { compareScores } from '../score.ts';
import { RUNS_OF_A_ROUND, type SearchTask } from './search-task.ts';

export interface ImproveOptions {
  readonly problem: NestProblem;
  readonly start: Layout;
  readonly startScore: readonly number[];
  /** Names of unplaced copies of the start that would fit a board. */
  readonly include: readonly string[];
  readonly seed: number;
  readonly units: number;
  readonly rounds: number;
  readonly boundBoards: number;
  readonly pool: NestPool;
  readonly signal: AbortSignal;
  readonly onBetter: (layout: Layout, units: number) => void;
  readonly onProgress: (done: number) => void;
}

export interface Improved {
  readonly layout: Layout;
  readonly units: number;
}

/**
 * Rounds of independent runs: each round starts from the best layout of the one before, and the best outcome by the total
 * order of scores (then by run number) is taken, once the independent check has passed it.
 * @returns the start when nothing better was found; after an abort the best layout told so far.
 */
export async function improve(options: ImproveOptions): Promise<Improved> {
  const { problem, pool, signal } = options;
  let best = { layout: options.start, score: options.startScore };
  let shown = options.startScore;
  let include = options.include;
  let units = 0;
  for (let round = 0; round < options.rounds && !signal.aborted; round++) {
    const tasks = Array.from(
      { length: RUNS_OF_A_ROUND },
      (_, run): SearchTask => ({
        problem,
        start: best.layout,
        include,
        seed: options.seed,
        run: round * RUNS_OF_A_ROUND + run,
        units: options.units / (RUNS_OF_A_ROUND * options.rounds),
        boundBoards: options.boundBoards,
      }),
    );
    const done = new Array<number>(RUNS_OF_A_ROUND).fill(0);
    const told: { layout: Layout; score: readonly number[]; run: number }[] = [];
    const outcomes = await runAll(pool, tasks, (run) => ({
      signal,
      onBetter: (layout, score) => {
        if (signal.aborted) return;
        told.push({ layout, score, run });
        if (compareScores(score, shown) >= 0) return;
        shown = score;
        options.onBetter(layout, Math.round(units));
      },
      onProgress: (share) => {
        done[run] = Math.max(done[run]!, share);
        options.onProgress((round + done.reduce((sum, d) => sum + d, 0) / RUNS_OF_A_ROUND) / options.rounds);
      },
    }));
    units += outcomes.reduce((sum, outcome) => sum + (outcome?.units ?? 0), 0);
    // an aborted round counts what it has told; a whole one counts its outcomes alone, which no timing can change
    const candidates = signal.aborted ? told : outcomes.flatMap((outcome) => (outcome === null ? [] : [outcome]));
    candidates.sort((a, b) => compareScores(a.score, b.score) || a.run - b.run);
    const better = candidates.find(
      ({ layout, score }) => compareScores(score, best.score) < 0 && checkLayout(problem, layout).ok,
    );
    if (better === undefined) continue;
    best = { layout: better.layout, score: better.score };
    const left = new Set(best.layout.unplaced.map(copyName));
    include = include.filter((name) => left.has(name));
  }
  return { layout: best.layout, units };
}
