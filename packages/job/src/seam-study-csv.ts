import { csvOf } from './csv.ts';
import { type SeamRow, savingOf, wayWords } from './seam-study.ts';

/** A study of seams as CSV (RFC 4180), the job as it is first. @param rows - at least one. */
export function seamStudyCsv(rows: readonly SeamRow[]): string {
  const head = [
    'way',
    'part',
    'pieces',
    'boards',
    'boards_lower_bound',
    'boards_saved',
    'yield',
    'boards_price',
    'cost_per_sign',
    'minutes_per_sign',
    'joints_per_sign',
    'showing_mm',
    'not_held_mm',
    'problem',
  ];
  const lines = rows.map((row) => [
    wayWords(row),
    row.part ?? '',
    String(row.pieces),
    String(row.boards),
    String(row.boardsLowerBound),
    String(savingOf(row, rows[0]!).boards),
    row.yield.toFixed(6),
    row.boardsPrice.toFixed(2),
    row.costPerSign.toFixed(2),
    row.minutesPerSign.toFixed(2),
    String(row.joints),
    row.showingMm.toFixed(1),
    row.looseMm.toFixed(1),
    row.problem ?? '',
  ]);
  return csvOf([head, ...lines]);
}
