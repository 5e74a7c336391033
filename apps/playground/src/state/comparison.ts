import { type ComparedFigures, csvFigure, FIGURE_COLUMNS, type FigureColumn } from '@underlap/job/comparison-columns';
import { csvOf } from '@underlap/job/csv';
import type { WordKey } from '../words/catalogue.ts';
import type { Say } from '../words/say.ts';
import type { BoardsView } from '../workers/views.ts';
import type { Conditions, KeptLayout } from './desk.ts';

/** The figures of one layout that the table compares. */
export interface Figures extends ComparedFigures {
  readonly isProved: boolean;
}

export function figuresOf(layout: KeptLayout): Figures {
  const { boards, conditions } = layout;
  return {
    boards: boards.sheets.length,
    boardsLowerBound: boards.lowerBound.boards,
    isProved: boards.isProvedMinimal,
    boardsPerSign: boards.sheets.length / Math.max(conditions.batch, 1),
    yield: boards.yield,
    waste: 1 - boards.yield,
    largestOffcutMm2: largestOffcut(boards),
    costPerSign: layout.run?.costPerSign ?? null,
    minutesPerSign: layout.run == null ? null : layout.run.machineSeconds / 60 / Math.max(conditions.batch, 1),
    seconds: layout.seconds,
  };
}

/** Conditions by name, as the table and the sentence say them. */
export const CONDITION_WORDS = {
  bed: 'condition.bed',
  boards: 'condition.boards',
  offcuts: 'condition.offcuts',
  turns: 'condition.turns',
  spacingMm: 'condition.spacing',
  marginMm: 'condition.margin',
  batch: 'condition.batch',
  effort: 'condition.effort',
  seed: 'condition.seed',
} as const satisfies Readonly<Record<keyof Conditions, WordKey>>;

const TURNED_WORDS = {
  fixed: 'turned.fixed',
  half: 'turned.half',
  quarter: 'turned.quarter',
  any: 'turned.any',
} as const satisfies Readonly<Record<string, WordKey>>;

const EFFORT_WORDS = {
  quick: 'boards.quick',
  normal: 'boards.normal',
  thorough: 'boards.thorough',
} as const satisfies Readonly<Record<string, WordKey>>;

const isIn = <T extends object>(words: T, code: string): code is keyof T & string => Object.hasOwn(words, code);

/** The conditions that are not the same in all layouts. */
export function differingConditions(layouts: readonly KeptLayout[]): (keyof Conditions)[] {
  const names = Object.keys(CONDITION_WORDS) as (keyof Conditions)[];
  return names.filter((name) => new Set(layouts.map((layout) => JSON.stringify(layout.conditions[name]))).size > 1);
}

/** One condition of a layout as this user says it. */
export function conditionWords(conditions: Conditions, name: keyof Conditions, say: Say): string {
  switch (name) {
    case 'bed':
      return say.size(conditions.bed.width, conditions.bed.height);
    case 'boards':
      return conditions.boards.map(({ width, height }) => say.size(width, height)).join(', ');
    case 'spacingMm':
    case 'marginMm':
      return say.length(conditions[name]);
    case 'turns':
      if (isIn(TURNED_WORDS, conditions.turns)) return say.t(TURNED_WORDS[conditions.turns]);
      return /^\d/.test(conditions.turns) ? say.t('turned.steps', { degrees: conditions.turns }) : conditions.turns;
    case 'effort':
      if (isIn(EFFORT_WORDS, conditions.effort)) return say.t(EFFORT_WORDS[conditions.effort]);
      return say.t('boards.own-steps', { n: Number(conditions.effort) });
    default:
      return String(conditions[name]);
  }
}

/** Columns of the shelf: how long the search took is in the file alone. */
export const SHELF_COLUMNS = FIGURE_COLUMNS.filter(({ name }) => name !== 'seconds');

/** One figure as this user reads it; a dash where there is none. */
export function figureWords(
  figures: Figures,
  { name, kind, decimals }: FigureColumn,
  currency: string,
  say: Say,
): string {
  const value = figures[name];
  if (value === null || (kind === 'area' && value === 0)) return '\u2013';
  if (name === 'boardsLowerBound' && figures.isProved) return say.t('compare.proved', { n: value });
  switch (kind) {
    case 'share':
      return say.percent(value, decimals);
    case 'area':
      return say.t('unit.cm2', { area: say.number(value / 100) });
    case 'money':
      return say.t('compare.money', { sum: say.number(value, decimals), currency });
    default:
      return say.number(value, decimals);
  }
}

/**
 * One sentence on what makes the difference: the best layout against the one in front, and the conditions in which they
 * differ. Boards per sign decide, then yield.
 */
export function conclusion(layouts: readonly KeptLayout[], say: Say): string {
  const [front, ...others] = layouts;
  if (front === undefined || others.length === 0) return '';
  const ranked = [...layouts].sort((a, b) => compare(figuresOf(a), figuresOf(b)));
  const best = ranked[0] ?? front;
  const worst = ranked.at(-1) ?? front;
  const b = figuresOf(best);
  const w = figuresOf(worst);
  const causes = differingConditions([best, worst]).map((name) =>
    say.t('compare.cause', {
      name: say.t(CONDITION_WORDS[name]),
      best: conditionWords(best.conditions, name, say),
      worst: conditionWords(worst.conditions, name, say),
    }),
  );
  if (compare(b, w) === 0) return say.t('compare.same');
  const why =
    causes.length === 0 ? say.t('compare.same-conditions') : say.t('compare.with', { causes: say.list(causes) });
  const places = { best: best.name, worst: worst.name, boards: rounded(b.boardsPerSign), why };
  if (Math.abs(b.boardsPerSign - w.boardsPerSign) > 1e-9) {
    return say.t('compare.fewer', { ...places, more: say.number(w.boardsPerSign, 2) });
  }
  return say.t('compare.better-used', {
    ...places,
    share: say.percent(b.yield, 1),
    less: say.percent(w.yield, 1),
  });
}

function compare(a: Figures, b: Figures): number {
  const boards = a.boardsPerSign - b.boardsPerSign;
  if (Math.abs(boards) > 1e-9) return boards;
  return Math.abs(a.yield - b.yield) > 1e-4 ? b.yield - a.yield : 0;
}

/** To two places after the point. */
function rounded(value: number): number {
  return Math.round(value * 100) / 100;
}

const IN_MM: ReadonlySet<keyof Conditions> = new Set(['bed', 'boards', 'spacingMm', 'marginMm']);

/** Figures in a table are mm and have a point, whatever the user's units. */
function figureOf(conditions: Conditions, name: keyof Conditions): string {
  const size = ({ width, height }: Conditions['bed']): string => `${width} x ${height}`;
  if (name === 'bed') return size(conditions.bed);
  return name === 'boards' ? conditions.boards.map(size).join(', ') : String(conditions[name]);
}

/** The comparison as a table for a spreadsheet; numbers with a point. */
export function comparisonCsv(layouts: readonly KeptLayout[], say: Say): string {
  const names = Object.keys(CONDITION_WORDS) as (keyof Conditions)[];
  const head = [
    say.t('compare.layout'),
    ...names.map((name) =>
      IN_MM.has(name) ? say.t('csv.in-mm', { name: say.t(CONDITION_WORDS[name]) }) : say.t(CONDITION_WORDS[name]),
    ),
    ...FIGURE_COLUMNS.map(({ name, kind }) => {
      const words = say.t(`compare.figure-${name}`);
      return kind === 'area' ? say.t('csv.in-mm2', { name: words }) : words;
    }),
  ];
  const rows = layouts.map((layout) => [
    layout.name,
    ...names.map((name) => figureOf(layout.conditions, name)),
    ...FIGURE_COLUMNS.map((column) => csvFigure(figuresOf(layout), column)),
  ]);
  return csvOf([head, ...rows]);
}

/** Area of the largest offcut that any sheet of the layout leaves, mm2; 0 when none was computed. */
function largestOffcut(boards: BoardsView): number {
  return Math.max(0, ...boards.sheets.map((sheet) => sheet.offcut?.areaMm2 ?? 0));
}
