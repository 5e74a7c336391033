import type { WorkContext } from '@underlap/geometry/context';
import { regionArea } from '@underlap/geometry/region';
import type { TurnRule } from '@underlap/nest/problem';
import type { Sign } from '@underlap/stack/sign';
import { signArea, stepContext } from './batch-study.ts';
import type { NestRunner } from './context.ts';
import { cutStage } from './cut-stage.ts';
import type { Job } from './document.ts';
import { nestStage, stockAreaOf } from './nest-stage.ts';
import { notFittingOf } from './report-messages.ts';
import { splitStage } from './split-stage.ts';
import type { CutPiece, NestStageResult, SplitResult } from './stages.ts';
import { throwIfStopped } from './stop.ts';
import type { Size } from './units.ts';

/** What is varied; every combination is laid out. */
export interface ComparisonAxes {
  readonly boards: readonly Size[];
  readonly turns: readonly TurnRule[];
  readonly batches: readonly number[];
}

/** One combination and what came of it. */
export interface ComparisonRow {
  readonly board: string;
  readonly turns: string;
  readonly batch: number;
  readonly boards: number;
  readonly boardsLowerBound: number;
  readonly yield: number;
  readonly waste: number;
  readonly largestOffcutMm2: number;
  readonly boardArea: number;
  readonly seconds: number;
  /** Why nothing was laid out; null when all is well. */
  readonly problem: string | null;
}

/** A row with the layout behind it, for pictures. */
export interface ComparedLayout {
  readonly row: ComparisonRow;
  readonly pieces: readonly CutPiece[];
  readonly nested: NestStageResult | null;
}

/**
 * Lay the same sign out in every combination of board, turn rule and batch.
 * @remarks Splits are planned once a board size (a small board may need more pieces), layouts once a combination.
 */
export async function compareLayouts(
  sign: Sign,
  job: Job,
  axes: ComparisonAxes,
  context: WorkContext,
  run?: NestRunner,
): Promise<ComparedLayout[]> {
  const count = axes.boards.length * axes.turns.length * axes.batches.length;
  const out: ComparedLayout[] = [];
  for (const board of axes.boards) {
    throwIfStopped(context.signal);
    const base = { ...job, boards: [{ ...job.boards[0]!, ...board, id: null }], offcuts: [], pinned: [] };
    const split = await splitStage(sign, base, { ...context, onProgress: () => {} });
    for (const turns of axes.turns) {
      const turned = { ...base, turns: { ...base.turns, default: turns, parts: {} } };
      const pieces = cutStage(split, sign, turned);
      for (const batch of axes.batches) {
        throwIfStopped(context.signal);
        const step = stepContext(context, out.length, count);
        out.push(await layoutOnce(split, pieces, { ...turned, batch }, board, turns, step, run));
        context.onProgress?.({ stage: 'nest', done: out.length / count });
      }
    }
  }
  return out;
}

/** How a turn rule is written in tables. */
export function turnsName(turns: TurnRule): string {
  return typeof turns === 'string' ? turns : `every ${turns.stepDeg} degrees`;
}

async function layoutOnce(
  split: SplitResult,
  pieces: readonly CutPiece[],
  job: Job,
  board: Size,
  turns: TurnRule,
  context: WorkContext,
  run: NestRunner | undefined,
): Promise<ComparedLayout> {
  const started = performance.now();
  const named = { board: `${board.width}x${board.height}`, turns: turnsName(turns), batch: job.batch };
  const impossible = notFittingOf(split, null)[0];
  const nested = impossible === undefined ? await nestStage(pieces, job, context, run) : null;
  throwIfStopped(context.signal);
  const sheets = nested?.layout.sheets ?? [];
  const boardArea = nested === null ? 0 : stockAreaOf(nested);
  const share = boardArea > 0 ? (signArea(pieces) * job.batch) / boardArea : 0;
  return {
    row: {
      ...named,
      boards: sheets.length,
      boardsLowerBound: nested?.result.lowerBound.boards ?? 0,
      yield: share,
      waste: boardArea > 0 ? 1 - share : 0,
      largestOffcutMm2: Math.max(0, ...sheets.map((sheet) => (sheet.offcut === null ? 0 : regionArea(sheet.offcut)))),
      boardArea,
      seconds: (performance.now() - started) / 1000,
      problem: impossible?.message ?? nested?.layout.unplaced[0]?.why ?? null,
    },
    pieces,
    nested,
  };
}

/** One sentence on what makes the difference between the rows; it claims nothing the rows do not show. */
export function conclusionOf(rows: readonly ComparisonRow[]): string {
  const good = rows.filter((row) => row.problem === null && row.boards > 0);
  const best = good.reduce<ComparisonRow | null>(
    (found, row) => (found === null || row.yield > found.yield ? row : found),
    null,
  );
  if (best === null) return 'Nothing could be laid out in any of these ways.';
  const axes = [
    {
      name: 'board size',
      spread: spreadOver(
        good,
        (row) => row.board,
        (row) => `${row.turns}|${row.batch}`,
      ),
    },
    {
      name: 'turn rule',
      spread: spreadOver(
        good,
        (row) => row.turns,
        (row) => `${row.board}|${row.batch}`,
      ),
    },
    {
      name: 'batch',
      spread: spreadOver(
        good,
        (row) => String(row.batch),
        (row) => `${row.board}|${row.turns}`,
      ),
    },
  ].sort((a, b) => b.spread - a.spread);
  const first = axes[0]!;
  const what = `${best.board} boards, turns ${best.turns}, batch of ${best.batch} waste least (${((1 - best.yield) * 100).toFixed(1)} % on ${best.boards} boards)`;
  return first.spread < 0.005
    ? `It makes hardly any difference: ${what}.`
    : `The ${first.name} makes the difference (up to ${(first.spread * 100).toFixed(1)} points of yield with all else equal): ${what}.`;
}

/** Largest difference of yield between rows that differ in one axis only. */
function spreadOver(
  rows: readonly ComparisonRow[],
  axis: (row: ComparisonRow) => string,
  rest: (row: ComparisonRow) => string,
): number {
  let spread = 0;
  for (const a of rows) {
    for (const b of rows) {
      if (axis(a) !== axis(b) && rest(a) === rest(b)) spread = Math.max(spread, a.yield - b.yield);
    }
  }
  return spread;
}
