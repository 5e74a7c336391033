/** What a distance may fall short of what was asked and still pass, mm: far below what a laser can place. */
export const CHECK_TOLERANCE_MM = 0.001;

/** A length for a sentence: micrometres are told, digits of rounding are not. */
export function told(mm: number): string {
  return String(Math.round(mm * 1000) / 1000);
}

/** A place on a sheet for a sentence. */
export function placeOf(x: number, y: number, sheet: number): string {
  return `on sheet ${sheet + 1} at ${Math.round(x * 10) / 10}, ${Math.round(y * 10) / 10}`;
}
