import { calc } from '@csstools/css-calc';
import { type LengthBase, lengthToPx, parseLength } from '../units.ts';

/** Longest expression that is solved, characters: hand-made ones are far shorter, and the library descends into nesting. */
const LONGEST = 400;

/** A number with a unit that means something only in its place. */
const RELATIVE = /([+-]?(?:\d+\.?\d*|\.\d+)(?:e[+-]?\d+)?)(%|(?:r?em|ex)\b)/gi;

/** Digits that a solved expression keeps: all that a double has for sure. */
const DIGITS = 15;

/** px of a length as written, `calc()`, `min()`, `max()` and the like among them; null when it cannot be read or is not finite. */
export function lengthInPx(text: string, base: LengthBase): number | null {
  const length = parseLength(text.includes('(') ? (solved(text, base) ?? '') : text);
  const px = length === null ? null : lengthToPx(length, base);
  return px !== null && Number.isFinite(px) ? px : null;
}

/** A plain number as written or calculated; null when it is none. */
export function plainNumber(text: string): number | null {
  const words = text.includes('(') ? (solved(text, NOWHERE) ?? '') : text.trim();
  const value = words === '' ? Number.NaN : Number(words);
  return Number.isFinite(value) ? value : null;
}

/** Is it an expression to be calculated? Whether it has a value shows where it is used. */
export function isCalculated(text: string): boolean {
  return /^(?:calc|min|max|clamp|round|mod|rem|abs|sign|sin|cos|tan|hypot|sqrt|pow|exp|log)\(/i.test(text.trim());
}

const NOWHERE: LengthBase = { whole: 0, fontSize: 0, rootFontSize: 0 };

/** The expression's value as a number with a unit, as text. */
function solved(text: string, base: LengthBase): string | null {
  if (text.length > LONGEST || !isCalculated(text)) return null;
  const absolute = text.replace(RELATIVE, (word) => {
    const length = parseLength(word);
    const px = length === null ? null : lengthToPx(length, base);
    return px === null ? word : `${px}px`;
  });
  const value = calc(absolute, { precision: DIGITS });
  return parseLength(value) === null ? null : value;
}
