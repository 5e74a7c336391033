import { regionArea } from '@underlap/geometry/region';
import { type NestContext, nest } from './nest.ts';
import type { Effort, NestProblem, NestResult } from './problem.ts';

/** One way of laying the job out: a board size, turn rules, a batch. */
export interface Variant {
  /** Short name for the table, e.g. '508 x 305, half, 4'. */
  readonly name: string;
  /** What it differs by from the others, name of the choice -> value; the same names in all variants. */
  readonly choices: Readonly<Record<string, string>>;
  readonly problem: NestProblem;
  /** Signs made, for boards per sign; 1 when the variants make the same. */
  readonly batch: number;
}

export interface CompareRow {
  readonly name: string;
  readonly choices: Readonly<Record<string, string>>;
  readonly batch: number;
  readonly boards: number;
  readonly bound: number;
  readonly isProvedMinimal: boolean;
  readonly yield: number;
  readonly waste: number;
  /** Price of the boards used, in the shop's currency. */
  readonly price: number;
  /** Area of the boards used, mm2. */
  readonly boardAreaMm2: number;
  readonly largestOffcutMm2: number;
  readonly unplaced: number;
  readonly seconds: number;
}

export interface Comparison {
  readonly rows: readonly CompareRow[];
  /** Index of the row with the least board area for each sign, pieces left over counting against it; -1 without rows. */
  readonly best: number;
  /** What makes the difference, in one sentence. */
  readonly sentence: string;
}

/** Differences in board area per sign below this share are not worth a sentence. */
const WORTH_TELLING = 0.005;

/**
 * Lay the same job out in several ways and say what makes the difference.
 * @param now - milliseconds of any clock; only for the column of seconds.
 * @param onResult - each layout, for pictures.
 * @returns rows in the order of the variants; after a cancel those that were finished.
 */
export async function compareLayouts(
  variants: readonly Variant[],
  effort: Effort,
  context: NestContext,
  now: () => number = () => performance.now(),
  onResult?: (index: number, result: NestResult) => void,
): Promise<Comparison> {
  const rows: CompareRow[] = [];
  for (const [index, variant] of variants.entries()) {
    if (context.signal?.aborted === true) break;
    const began = now();
    const result = await nest(variant.problem, effort, {
      ...context,
      onProgress: ({ done }) =>
        context.onProgress?.({ stage: 'compare', done: (index + done) / variants.length, message: variant.name }),
    });
    if (result.endedBy === 'cancelled') break;
    onResult?.(index, result);
    rows.push(rowOf(variant, result, (now() - began) / 1000));
  }
  return { rows, best: bestOf(rows), sentence: differenceOf(rows) };
}

function rowOf(variant: Variant, { layout, lowerBound, isProvedMinimal }: NestResult, seconds: number): CompareRow {
  const stock = new Map(variant.problem.stock.map((one) => [one.id, one]));
  const used = layout.sheets.map((sheet) => stock.get(sheet.stockId)!);
  return {
    name: variant.name,
    choices: variant.choices,
    batch: variant.batch,
    boards: layout.sheets.length,
    bound: lowerBound.boards,
    isProvedMinimal,
    yield: layout.yield,
    waste: layout.sheets.length === 0 ? 0 : 1 - layout.yield,
    price: used.reduce((sum, one) => sum + one.price, 0),
    boardAreaMm2: used.reduce((sum, one) => sum + regionArea(one.outline), 0),
    largestOffcutMm2: Math.max(
      0,
      ...layout.sheets.map((sheet) => (sheet.offcut === null ? 0 : regionArea(sheet.offcut))),
    ),
    unplaced: layout.unplaced.length,
    seconds,
  };
}

/** Board area for each sign, mm2. */
function effortOf(row: CompareRow): number {
  return row.boardAreaMm2 / row.batch;
}

function bestOf(rows: readonly CompareRow[]): number {
  let best = -1;
  rows.forEach((row, index) => {
    const known = rows[best];
    if (
      known === undefined ||
      row.unplaced < known.unplaced ||
      (row.unplaced === known.unplaced && effortOf(row) < effortOf(known))
    ) {
      best = index;
    }
  });
  return best;
}

/**
 * The choice that changes the board area for a sign most, when everything else stays the same: means over the variants that
 * share a value, largest against smallest.
 */
export function differenceOf(rows: readonly CompareRow[]): string {
  const complete = rows.filter((row) => row.unplaced === 0);
  const lost = rows.length - complete.length;
  const tail = lost === 0 ? '' : ` ${lost} of ${rows.length} variants leave pieces over and are not counted.`;
  if (complete.length === 0) return rows.length === 0 ? 'Nothing was compared.' : 'Every variant leaves pieces over.';
  if (complete.length === 1) return `Only ${complete[0]!.name} was laid out in full.${tail}`;
  let widest: { choice: string; best: string; worst: string; share: number } | null = null;
  for (const choice of Object.keys(complete[0]!.choices)) {
    const means = meansBy(complete, choice);
    if (means.length < 2) continue;
    const [best, worst] = [means[0]!, means[means.length - 1]!];
    const share = 1 - best.mean / worst.mean;
    if (widest === null || share > widest.share) widest = { choice, best: best.value, worst: worst.value, share };
  }
  if (widest === null || widest.share < WORTH_TELLING)
    return `It makes no difference: all variants take the same stock.${tail}`;
  const percent = Math.round(widest.share * 1000) / 10;
  return `The ${widest.choice} makes the difference: ${widest.best} takes ${percent} % less stock for a sign than ${widest.worst}.${tail}`;
}

function meansBy(rows: readonly CompareRow[], choice: string): { value: string; mean: number }[] {
  const groups = new Map<string, number[]>();
  for (const row of rows) {
    const value = row.choices[choice] ?? '';
    groups.set(value, [...(groups.get(value) ?? []), effortOf(row)]);
  }
  return [...groups]
    .map(([value, list]) => ({ value, mean: list.reduce((sum, x) => sum + x, 0) / list.length }))
    .sort((a, b) => a.mean - b.mean || (a.value < b.value ? -1 : 1));
}
