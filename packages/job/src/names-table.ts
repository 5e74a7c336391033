import Papa from 'papaparse';
import type { Job } from './document.ts';
import { JobError } from './error.ts';

/** One sign of a table of names. */
export interface NamedSign {
  /** What is filled into the named places. */
  readonly words: Readonly<Record<string, string>>;
  readonly count: number;
  /** Empty = as the design says. */
  readonly order: string;
}

/** Rows beyond this are no day's work. */
const MOST_ROWS = 500;

type Names = Job['lettering']['names'];

/**
 * The signs of a table: its rows, and those of its text (comma, semicolon or tab between columns, the first line names them).
 * @param field - where the table stands in the job, for messages. @returns none without a table.
 * @throws JobError `job-invalid` for a table without columns or rows, ragged rows, an empty cell, a count that is none.
 */
export function namedSigns(names: Names, field: string): NamedSign[] {
  if (names.file !== null && names.text === null && names.rows.length === 0)
    throw fault(field, `names the file "${names.file}", which has not been read: give its table as text or rows`);
  const rows = [...names.rows, ...(names.text === null ? [] : rowsOf(names.text, field))];
  if (rows.length > MOST_ROWS)
    throw fault(field, `has ${rows.length} rows; at most ${MOST_ROWS} signs of a design can be named`);
  const signs = rows.map((row, at) => signOf(row, at + 1, field));
  // The same words for the same order twice are two of one sign.
  const merged = new Map<string, NamedSign>();
  for (const sign of signs) {
    const key = JSON.stringify([Object.entries(sign.words).sort(), sign.order]);
    const before = merged.get(key);
    merged.set(key, before === undefined ? sign : { ...before, count: before.count + sign.count });
  }
  return [...merged.values()];
}

/** A table as it is pasted from a spreadsheet or read from a CSV file, as rows by column. @throws JobError `job-invalid`. */
export function rowsOf(text: string, field: string): Record<string, string>[] {
  const plain = text.replace(/^\ufeff/, '').trimEnd();
  const { data, meta, errors } = Papa.parse<Record<string, string>>(plain, {
    header: true,
    skipEmptyLines: 'greedy',
    transformHeader: (name) => name.trim(),
    // A single column has no delimiter to be guessed from.
    ...(/[,;\t]/.test(plain.split(/\r?\n/, 1)[0] ?? '') ? {} : { delimiter: ',' }),
  });
  const columns = meta.fields ?? [];
  if (columns.length === 0 || columns.some((name) => name === ''))
    throw fault(field, 'needs a first line that names its columns after the places in the drawing, such as "family"');
  const broken = errors.find(({ code }) => code !== 'UndetectableDelimiter');
  if (broken !== undefined) {
    const row = broken.row === undefined ? '' : ` (row ${broken.row + 1})`;
    throw fault(field, `cannot be read${row}: ${broken.message.replace(/\.$/, '')}`);
  }
  if (data.length === 0) throw fault(field, 'has no rows below its column names');
  return data;
}

function signOf(row: Readonly<Record<string, string>>, number: number, field: string): NamedSign {
  const words: Record<string, string> = {};
  let count = 1;
  let order = '';
  for (const [column, cell] of Object.entries(row)) {
    // What steers a terminal or a printer is no letter.
    const value = cell.replace(/[^\P{Cc}\n]/gu, '').trim();
    const name = column.toLowerCase();
    if (name === 'count') {
      count = value === '' ? 1 : Number(value);
      if (!Number.isInteger(count) || count < 1 || count > 500)
        throw fault(field, `row ${number}: count is "${value}", but must be a whole number from 1 to 500`);
    } else if (name === 'order') order = value;
    else if (value === '')
      throw fault(field, `row ${number}: the place "${column}" is empty: fill it, or take the row out`);
    else words[column] = value;
  }
  if (Object.keys(words).length === 0) throw fault(field, `row ${number} names no place of the drawing`);
  return { words, count, order };
}

function fault(field: string, message: string): JobError {
  return new JobError('job-invalid', `${field} ${message}.`, { field });
}
