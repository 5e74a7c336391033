import type { ComparisonRow } from './comparison.ts';
import { type ComparedFigures, csvFigure, FIGURE_COLUMNS, figureText } from './comparison-columns.ts';
import { csvOf } from './csv.ts';

/** One cell of a study's table. */
export interface StudyCell {
  readonly text: string;
  readonly isNumber: boolean;
  /** The best of its column. */
  readonly isBest: boolean;
}

export interface StudyTable {
  readonly heads: readonly StudyCell[];
  readonly rows: readonly (readonly StudyCell[])[];
}

/** Columns that a study reckons; the others are the page's. */
const STUDIED = FIGURE_COLUMNS.filter(({ name }) => name !== 'costPerSign' && name !== 'minutesPerSign');

/** A study as a table for people: the terminal and the page of the study show the same. */
export function studyTable(rows: readonly ComparisonRow[]): StudyTable {
  const best = Math.max(...rows.map((row) => (row.problem === null ? row.yield : 0)));
  const hasProblems = rows.some((row) => row.problem !== null);
  const words = (text: string): StudyCell => ({ text, isNumber: false, isBest: false });
  const number = (text: string, isBest = false): StudyCell => ({ text, isNumber: true, isBest });
  return {
    heads: [
      words('board mm'),
      words('turns'),
      number('batch'),
      ...STUDIED.map(({ head }) => number(head)),
      ...(hasProblems ? [words('problem')] : []),
    ],
    rows: rows.map((row) => [
      words(row.board),
      words(row.turns),
      number(String(row.batch)),
      ...STUDIED.map((column) =>
        number(
          figureText(figuresOf(row), column),
          column.name === 'yield' && row.problem === null && row.yield === best,
        ),
      ),
      ...(hasProblems ? [words(row.problem ?? '')] : []),
    ]),
  };
}

/** A study as CSV (RFC 4180): comma, CRLF, point as decimal mark, quotes where needed. */
export function comparisonCsv(rows: readonly ComparisonRow[]): string {
  return csvOf([
    ['board_mm', 'turns', 'batch', ...STUDIED.map(({ csv }) => csv), 'problem'],
    ...rows.map((row) => [
      row.board,
      row.turns,
      String(row.batch),
      ...STUDIED.map((column) => csvFigure(figuresOf(row), column)),
      row.problem ?? '',
    ]),
  ]);
}

function figuresOf(row: ComparisonRow): ComparedFigures {
  return { ...row, boardsPerSign: row.boards / Math.max(1, row.batch), costPerSign: null, minutesPerSign: null };
}
