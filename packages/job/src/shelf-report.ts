import type { Report } from './report-schema.ts';
import { bookIn, bookOut, type NewOffcut, type Shelf } from './shelf.ts';

/**
 * What cutting a planned job does to the shelf: its offcuts that were used go, the usable rests of all its sheets come.
 * Booking the same report again changes nothing.
 * @param on - the day, "2026-05-31".
 */
export function bookReport(shelf: Shelf, report: Report, on: string): Shelf {
  const used = report.sheets.map(({ stock }) => stock);
  return bookIn(bookOut(shelf, used, report.job, on), restsIn(report), report.job, on);
}

/** The usable rests of all sheets of a report. */
export function restsIn(report: Report): NewOffcut[] {
  return report.sheets.flatMap((sheet) => {
    const stock = report.stocks.find(({ id }) => id === sheet.material);
    return sheet.rests.map(({ id, outline, areaMm2, rectangle }) => ({
      id,
      outline,
      areaMm2,
      rectangle,
      material: stock?.material ?? '',
      thickness: stock?.thickness ?? report.thickness,
      grain: false,
      from: `${report.job}, sheet ${sheet.number}`,
    }));
  });
}
