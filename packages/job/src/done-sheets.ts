import { applyEdits, modify } from 'jsonc-parser';
import { didYouMean } from './did-you-mean.ts';
import type { Job } from './document.ts';
import { JobError } from './error.ts';
import type { Report } from './report-schema.ts';

/** A sheet that is cut, as the job keeps it. */
export type DoneSheet = Job['done'][number];

/**
 * Sheets of a report by the names of their files (with or without ending), their numbers where the report has one stock, or "all".
 * @returns every board that was cut from a named file: a file that is cut three times stands for three.
 * @throws JobError `job-invalid` naming what the report has not.
 */
export function doneSheets(report: Report, names: readonly string[]): DoneSheet[] {
  const { sheets } = report;
  const isOneStock = new Set(sheets.map(({ material }) => material)).size === 1;
  const namesOf = (sheet: Report['sheets'][number]) => [
    ...sheet.files.flatMap((file) => [file, withoutEnding(file)]),
    ...sheet.files.map((file) => withoutEnding(file).replace(/-(?:loading|panel)-\d+(?=$|-x\d+$)/, '')),
    sheet.id,
    ...(isOneStock ? [String(sheet.number)] : []),
  ];
  const wanted = new Set<Report['sheets'][number]>();
  for (const name of names) {
    const found = name === 'all' ? sheets : sheets.filter((sheet) => namesOf(sheet).includes(name));
    if (found.length === 0) {
      const known = [...new Set(sheets.flatMap(({ files }) => files.map(withoutEnding)))];
      throw new JobError(
        'job-invalid',
        `The report has no sheet "${name}"${didYouMean(name, known)}: its sheets are ${known.join(', ') || 'none'}.`,
        { field: 'done' },
      );
    }
    for (const sheet of found) wanted.add(sheet);
  }
  return sheets
    .filter((sheet) => wanted.has(sheet))
    .map(({ id, material, stock, number, placements }) => ({
      sheet: id,
      stock: material,
      board: stock,
      number,
      pieces: placements.map(({ piece, sign, shape, number: carried }) => ({
        piece,
        copy: sign,
        shape,
        number: carried,
      })),
    }));
}

/**
 * The text of a job file with more sheets that are cut; comments and layout of the rest stay as they are.
 * @param done - what the file holds already. @returns the same text when all of them are in it.
 */
export function withDone(text: string, done: readonly DoneSheet[], more: readonly DoneSheet[]): string {
  const keyOf = ({ stock, sheet, pieces }: DoneSheet) =>
    JSON.stringify([stock, sheet, pieces.map(({ piece, copy, shape }) => [piece, copy, shape])]);
  const known = new Set(done.map(keyOf));
  const added = more.filter((sheet) => !known.has(keyOf(sheet)));
  if (added.length === 0) return text;
  const edits = modify(text, ['done'], [...done, ...added], {
    formattingOptions: { insertSpaces: true, tabSize: 2, eol: '\n' },
  });
  return applyEdits(text, edits);
}

function withoutEnding(file: string): string {
  return file.replace(/\.[a-z]+$/, '');
}
