import type { WorkContext } from '@underlap/geometry/context';
import { regionArea } from '@underlap/geometry/region';
import type { TurnRule } from '@underlap/nest/problem';
import { isTurnAllowed, turnsOf } from '@underlap/nest/turns';
import { type KnownDay, startFrom, stepHooks, untilStopped, yieldOf } from './batch-study.ts';
import type { Job } from './document.ts';
import { stockAreaOf } from './nest-stage.ts';
import { Pipeline, type StageHooks } from './pipeline.ts';
import { notFittingOf } from './report-messages.ts';
import type { StockLayout } from './stages.ts';
import { throwIfStopped } from './stop.ts';
import { effortOfRow } from './study-effort.ts';
import type { Size } from './units.ts';

/** How a comparison is run and watched. */
export interface ComparisonOptions {
  /** Where the sign and its pieces come from, and who runs the search; default: a fresh one. */
  readonly pipeline?: Pipeline;
  /** Each row as it is made, with how many there are then and will be. */
  readonly onRow?: (row: ComparisonRow, made: number, count: number) => void;
}

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
  readonly stocks: readonly StockLayout[] | null;
}

/**
 * Lay the same sign out in every combination of board, turn rule and batch.
 * @returns the layouts in the order of the axes; after a stop those made until then.
 * @throws JobError `cancelled` when it is stopped before the first row.
 * @remarks Splits are planned once a board size (a small board may need more pieces), layouts once a combination, each with a
 * share of the job's effort (`effortOfRow`). A layout begins with the best one that stricter turns or smaller batches have led to,
 * so more freedom never costs boards.
 */
export async function compareLayouts(
  job: Job,
  axes: ComparisonAxes,
  context: Omit<WorkContext, 'seed'>,
  options: ComparisonOptions = {},
): Promise<ComparedLayout[]> {
  const pipeline = options.pipeline ?? new Pipeline();
  const count = axes.boards.length * axes.turns.length * axes.batches.length;
  const effort = effortOfRow(job.effort, count);
  const made = new Map<string, ComparedLayout>();
  const keyOf = (board: Size, turns: TurnRule, batch: number) =>
    `${axes.boards.indexOf(board)} ${axes.turns.indexOf(turns)} ${batch}`;
  const strictFirst = [...axes.turns].sort((a, b) => turnCount(a) - turnCount(b));
  for (const board of axes.boards) {
    if (context.signal?.aborted) break;
    const base = { ...job, effort, ...onBoard(job, board), pinned: [], done: [] };
    const known: (KnownDay & { readonly turns: TurnRule })[] = [];
    for (const turns of strictFirst) {
      const turned = { ...base, ...withTurns(base, turns) };
      const usable = () => known.filter((one) => isWithinRule(one.turns, turns));
      for (const batch of [...axes.batches].sort((a, b) => a - b)) {
        if (context.signal?.aborted) break;
        const start = startFrom(usable(), batch, turned);
        const hooks = stepHooks(context, made.size, count);
        const one = await untilStopped(context.signal, () =>
          layoutOnce(pipeline, { ...turned, batch }, { board, turns, start }, hooks),
        );
        if (one === null) break;
        if (one.stocks !== null) known.push({ batch, stocks: one.stocks, turns });
        made.set(keyOf(board, turns, batch), one);
        options.onRow?.(one.row, made.size, count);
        context.onProgress?.({ stage: 'nest', done: made.size / count });
      }
    }
  }
  if (made.size === 0) throwIfStopped(context.signal);
  return axes.boards.flatMap((board) =>
    axes.turns.flatMap((turns) => axes.batches.flatMap((batch) => made.get(keyOf(board, turns, batch)) ?? [])),
  );
}

/** Rules are compared for a piece that nothing else holds. */
const AS_DRAWN = { keepsGrain: false, baseTurnDeg: 0 } as const;

/** Boards of one size for every stock, as many as are needed. */
function onBoard(job: Job, size: Size): Pick<Job, 'boards' | 'offcuts' | 'stocks'> {
  const of = (boards: Job['boards']) => boards.slice(0, 1).map((board) => ({ ...board, ...size, id: null }));
  const stocks = job.stocks.map((stock) => ({ ...stock, boards: stock.boards && of(stock.boards), offcuts: [] }));
  return { boards: of(job.boards), offcuts: [], stocks };
}

/** One rule for all pieces of all designs. */
function withTurns(job: Job, rule: TurnRule): Pick<Job, 'turns' | 'designs'> {
  const of = (turns: Job['turns']) => ({ ...turns, default: rule, parts: {} });
  return {
    turns: of(job.turns),
    designs: job.designs.map((design) => ({ ...design, turns: design.turns && of(design.turns) })),
  };
}

/** How many turns a rule allows; Infinity for all. */
function turnCount(turns: TurnRule): number {
  return turns === 'any' ? Number.POSITIVE_INFINITY : turnsOf({ turns, ...AS_DRAWN }, false).length;
}

/** Does the wider rule allow every turn of the stricter one? */
function isWithinRule(strict: TurnRule, wide: TurnRule): boolean {
  if (strict === 'any') return wide === 'any';
  return turnsOf({ turns: strict, ...AS_DRAWN }, false).every((turn) =>
    isTurnAllowed({ turns: wide, ...AS_DRAWN }, false, turn),
  );
}

/** How a turn rule is written in tables. */
export function turnsName(turns: TurnRule): string {
  return typeof turns === 'string' ? turns : `every ${turns.stepDeg} degrees`;
}

async function layoutOnce(
  pipeline: Pipeline,
  job: Job,
  {
    board,
    turns,
    start,
  }: { readonly board: Size; readonly turns: TurnRule; readonly start: ReturnType<typeof startFrom> },
  hooks: StageHooks,
): Promise<ComparedLayout> {
  const { signal } = hooks;
  const started = performance.now();
  const named = { board: `${board.width}x${board.height}`, turns: turnsName(turns), batch: job.batch };
  const impossible = notFittingOf(await pipeline.designs(job, { signal }), null)[0];
  const stocks = impossible === undefined ? await pipeline.nestFrom(job, start, hooks) : null;
  const sheets = stocks?.flatMap(({ layout }) => layout.sheets) ?? [];
  const boardArea = stocks?.reduce((sum, { nested }) => sum + stockAreaOf(nested), 0) ?? 0;
  const share = yieldOf(stocks ?? []);
  return {
    row: {
      ...named,
      boards: sheets.length,
      boardsLowerBound: stocks?.reduce((sum, { nested }) => sum + nested.result.lowerBound.boards, 0) ?? 0,
      yield: share,
      waste: boardArea > 0 ? 1 - share : 0,
      largestOffcutMm2: Math.max(0, ...sheets.map((sheet) => (sheet.offcut === null ? 0 : regionArea(sheet.offcut)))),
      boardArea,
      seconds: (performance.now() - started) / 1000,
      problem: impossible?.message ?? stocks?.flatMap(({ layout }) => layout.unplaced)[0]?.why ?? null,
    },
    stocks,
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
