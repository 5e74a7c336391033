import type { ComparisonRow } from './comparison.ts';

/** A comparison as CSV (RFC 4180): comma, CRLF, point as decimal mark, quotes where needed. */
export function comparisonCsv(rows: readonly ComparisonRow[]): string {
  const head = [
    'board_mm',
    'turns',
    'batch',
    'boards',
    'boards_lower_bound',
    'yield',
    'waste',
    'largest_offcut_mm2',
    'seconds',
    'problem',
  ];
  const lines = rows.map((row) => [
    row.board,
    row.turns,
    String(row.batch),
    String(row.boards),
    String(row.boardsLowerBound),
    row.yield.toFixed(6),
    row.waste.toFixed(6),
    row.largestOffcutMm2.toFixed(1),
    row.seconds.toFixed(3),
    row.problem ?? '',
  ]);
  return csvOf([head, ...lines]);
}

/** A table as CSV (RFC 4180): comma, CRLF, quotes doubled. */
export function csvOf(rows: readonly (readonly string[])[]): string {
  return rows.map((row) => `${row.map(field).join(',')}\r\n`).join('');
}

function field(text: string): string {
  return /[",\r\n]/.test(text) ? `"${text.replace(/"/g, '""')}"` : text;
}
