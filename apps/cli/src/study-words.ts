import type { ComparisonRow } from '@underlap/job/comparison';
import { effortOfRow } from '@underlap/job/study-effort';
import type { Effort } from '@underlap/nest/problem';

/** Below the options of commands that lay a job out many times. */
export const STUDY_EFFORT_HELP = `
Effort: "normal" and "thorough" are shared out among the layouts, so that a long table takes little longer than a short one; a number of
work units is spent on every layout, and "quick" lays out without a search. A layout begins with what stricter turns or smaller
batches have led to. Ctrl-C ends with the rows made so far.`;

/** What came of one layout, for a line of progress. */
export function boardsOf(row: Pick<ComparisonRow, 'boards' | 'boardsLowerBound' | 'yield'>): string {
  if (row.boards === 0) return 'no layout';
  const boards = row.boards === 1 ? '1 board' : `${row.boards} boards`;
  return `${boards} (at least ${row.boardsLowerBound}), ${(row.yield * 100).toFixed(1)} % used`;
}

/** Work units that each layout of a table gets. */
export function unitsOf(effort: Effort, rows: number): number {
  const share = effortOfRow(effort, rows);
  return typeof share === 'number' ? share : 0;
}

/** The sentence after Ctrl-C. */
export function stoppedAfter(made: number, count: number): string {
  return `stopped after ${made} of ${count} layouts; these are told.`;
}
