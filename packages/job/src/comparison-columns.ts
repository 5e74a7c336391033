/** What is told of a layout that is compared with others; null where it was not reckoned. */
export interface ComparedFigures {
  readonly boards: number;
  readonly boardsLowerBound: number;
  readonly boardsPerSign: number;
  readonly yield: number;
  readonly waste: number;
  readonly largestOffcutMm2: number;
  readonly costPerSign: number | null;
  readonly minutesPerSign: number | null;
  readonly seconds: number | null;
}

export type FigureName = keyof ComparedFigures;

/** One column of a comparison: the same in the terminal, in a study's page, in CSV and on the page's shelf. */
export interface FigureColumn {
  readonly name: FigureName;
  /** Its head in English; the page says it in its languages. */
  readonly head: string;
  readonly csv: string;
  readonly kind: 'count' | 'share' | 'area' | 'number' | 'money';
  /** Digits after the point where people read it (of a percentage, of cm2), and in CSV (of the share, of mm2). */
  readonly decimals: number;
  readonly csvDecimals: number;
}

export const FIGURE_COLUMNS: readonly FigureColumn[] = [
  { name: 'boards', head: 'boards', csv: 'boards', kind: 'count', decimals: 0, csvDecimals: 0 },
  { name: 'boardsLowerBound', head: 'at least', csv: 'boards_lower_bound', kind: 'count', decimals: 0, csvDecimals: 0 },
  { name: 'boardsPerSign', head: 'a sign', csv: 'boards_per_sign', kind: 'number', decimals: 2, csvDecimals: 4 },
  { name: 'yield', head: 'used', csv: 'yield', kind: 'share', decimals: 1, csvDecimals: 6 },
  { name: 'waste', head: 'waste', csv: 'waste', kind: 'share', decimals: 1, csvDecimals: 6 },
  {
    name: 'largestOffcutMm2',
    head: 'largest offcut cm2',
    csv: 'largest_offcut_mm2',
    kind: 'area',
    decimals: 0,
    csvDecimals: 1,
  },
  { name: 'costPerSign', head: 'cost a sign', csv: 'cost_per_sign', kind: 'money', decimals: 2, csvDecimals: 2 },
  { name: 'minutesPerSign', head: 'minutes', csv: 'minutes_per_sign', kind: 'number', decimals: 1, csvDecimals: 2 },
  { name: 'seconds', head: 'seconds', csv: 'seconds', kind: 'number', decimals: 1, csvDecimals: 3 },
];

/** A figure as CSV has it: mm2, shares of 1, a point; empty where it was not reckoned. */
export function csvFigure(figures: ComparedFigures, { name, csvDecimals }: FigureColumn): string {
  return figures[name]?.toFixed(csvDecimals) ?? '';
}

/** A figure as people read it in a study. */
export function figureText(figures: ComparedFigures, { name, kind, decimals }: FigureColumn): string {
  const value = figures[name];
  if (value === null) return '';
  if (kind === 'share') return `${(value * 100).toFixed(decimals)} %`;
  return (kind === 'area' ? value / 100 : value).toFixed(decimals);
}

/** Would two layouts read the same in this column? */
export function readsTheSame(a: ComparedFigures, b: ComparedFigures, column: FigureColumn): boolean {
  return figureText(a, column) === figureText(b, column);
}
