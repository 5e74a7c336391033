import type { BoardsView } from '../workers/views.ts';
import type { Conditions, KeptLayout } from './desk.ts';

/** The figures of one layout that the table compares. */
export interface Figures {
  readonly boards: number;
  readonly bound: number;
  readonly isProved: boolean;
  readonly boardsPerSign: number;
  readonly yield: number;
  readonly waste: number;
  readonly offcutMm2: number;
}

export function figuresOf(layout: KeptLayout): Figures {
  const { boards, conditions } = layout;
  return {
    boards: boards.sheets.length,
    bound: boards.lowerBound.boards,
    isProved: boards.isProvedMinimal,
    boardsPerSign: boards.sheets.length / Math.max(conditions.batch, 1),
    yield: boards.yield,
    waste: 1 - boards.yield,
    offcutMm2: largestOffcut(boards),
  };
}

/** Conditions by name, as the table and the sentence say them. */
export const CONDITION_WORDS: Readonly<Record<keyof Conditions, string>> = {
  bed: 'bed',
  boards: 'boards',
  offcuts: 'offcuts on hand',
  turns: 'turning',
  spacingMm: 'spacing',
  marginMm: 'margin',
  batch: 'signs in the batch',
  effort: 'search',
  seed: 'seed',
};

/** The conditions that are not the same in all layouts. */
export function differingConditions(layouts: readonly KeptLayout[]): (keyof Conditions)[] {
  const names = Object.keys(CONDITION_WORDS) as (keyof Conditions)[];
  return names.filter((name) => new Set(layouts.map((layout) => JSON.stringify(layout.conditions[name]))).size > 1);
}

/** How figures are said to a user. */
export interface FigureWords {
  length(mm: number): string;
  size(width: number, height: number): string;
  percent(share: number, decimals?: number): string;
  number(value: number, decimals?: number): string;
}

/** One condition of a layout as this user says it. */
export function conditionWords(conditions: Conditions, name: keyof Conditions, say: FigureWords): string {
  switch (name) {
    case 'bed':
      return say.size(conditions.bed.width, conditions.bed.height);
    case 'boards':
      return conditions.boards.map(({ width, height }) => say.size(width, height)).join(', ');
    case 'spacingMm':
    case 'marginMm':
      return say.length(conditions[name]);
    default:
      return String(conditions[name]);
  }
}

/**
 * One sentence on what makes the difference: the best layout against the one in front, and the conditions in which they
 * differ. Boards per sign decide, then yield.
 */
export function conclusion(layouts: readonly KeptLayout[], say: FigureWords): string {
  const [front, ...others] = layouts;
  if (front === undefined || others.length === 0) return '';
  const ranked = [...layouts].sort((a, b) => compare(figuresOf(a), figuresOf(b)));
  const best = ranked[0] ?? front;
  const worst = ranked.at(-1) ?? front;
  const b = figuresOf(best);
  const w = figuresOf(worst);
  const causes = differingConditions([best, worst]).map(
    (name) =>
      `${CONDITION_WORDS[name]} ${conditionWords(best.conditions, name, say)} instead of ${conditionWords(worst.conditions, name, say)}`,
  );
  if (compare(b, w) === 0) return 'They come out the same: none of these conditions makes a difference here.';
  const why = causes.length === 0 ? 'under the same conditions' : `with ${causes.join(' and ')}`;
  if (Math.abs(b.boardsPerSign - w.boardsPerSign) > 1e-9) {
    return `"${best.name}" needs ${say.number(b.boardsPerSign, 2)} boards a sign where "${worst.name}" needs ${say.number(w.boardsPerSign, 2)}, ${why}.`;
  }
  return `Both need ${say.number(b.boardsPerSign, 2)} boards a sign; "${best.name}" uses ${say.percent(b.yield, 1)} of them and "${worst.name}" ${say.percent(w.yield, 1)}, ${why}.`;
}

function compare(a: Figures, b: Figures): number {
  const boards = a.boardsPerSign - b.boardsPerSign;
  if (Math.abs(boards) > 1e-9) return boards;
  return Math.abs(a.yield - b.yield) > 1e-4 ? b.yield - a.yield : 0;
}

function round(value: number): string {
  return String(Math.round(value * 100) / 100);
}

const IN_MM: ReadonlySet<keyof Conditions> = new Set(['bed', 'boards', 'spacingMm', 'marginMm']);

/** Figures in a table are mm and have a point, whatever the user's units and language. */
const SPREADSHEET_WORDS: FigureWords = {
  length: (mm) => String(mm),
  size: (width, height) => `${width} x ${height}`,
  percent: (share) => String(share),
  number: (value) => String(value),
};

/** The comparison as a table for a spreadsheet (RFC 4180: comma, CRLF, quotes doubled); numbers with a point. */
export function comparisonCsv(layouts: readonly KeptLayout[]): string {
  const names = Object.keys(CONDITION_WORDS) as (keyof Conditions)[];
  const head = [
    'layout',
    ...names.map((name) => (IN_MM.has(name) ? `${CONDITION_WORDS[name]} mm` : CONDITION_WORDS[name])),
    'boards used',
    'at least',
    'boards a sign',
    'yield',
    'waste',
    'largest offcut mm2',
    'seconds',
  ];
  const rows = layouts.map((layout) => {
    const figures = figuresOf(layout);
    return [
      layout.name,
      ...names.map((name) => conditionWords(layout.conditions, name, SPREADSHEET_WORDS)),
      figures.boards,
      figures.bound,
      round(figures.boardsPerSign),
      figures.yield.toFixed(4),
      figures.waste.toFixed(4),
      Math.round(figures.offcutMm2),
      layout.seconds === null ? '' : layout.seconds.toFixed(1),
    ].map(String);
  });
  return [head, ...rows]
    .map((row) => row.map(quoted).join(','))
    .join('\r\n')
    .concat('\r\n');
}

function quoted(field: string): string {
  return /[",\r\n]/.test(field) ? `"${field.replaceAll('"', '""')}"` : field;
}

/** Area of the largest offcut that any sheet of the layout leaves, mm2; 0 when none was computed. */
function largestOffcut(boards: BoardsView): number {
  return Math.max(0, ...boards.sheets.map((sheet) => sheet.offcut?.areaMm2 ?? 0));
}
