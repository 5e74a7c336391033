import { formatNumber, type NumberStyle, parseNumber } from './number.ts';

export type LengthUnit = 'mm' | 'in';

const MM_PER_INCH = 25.4;
/** Makers' rules are divided down to 1/64. */
const FINEST_FRACTION = 64;
/** A length this near a 1/64 division is meant to be that fraction; wider and a typed 0.2 mm kerf would turn into 1/128-ish lies. */
const FRACTION_SLACK_IN = 0.0006;

const VULGAR: Readonly<Record<string, string>> = {
  '\u00bd': '1/2',
  '\u00bc': '1/4',
  '\u00be': '3/4',
  '\u215b': '1/8',
  '\u215c': '3/8',
  '\u215d': '5/8',
  '\u215e': '7/8',
};

/**
 * Read a length in mm. The unit may be written (`mm`, `cm`, `in`, `Zoll`, `"`); without one the user's unit counts. Inches may be
 * whole, decimal or with a fraction (`20 1/2`, `3/4`).
 * @returns mm, or null when the text is not a length.
 */
export function parseLength(text: string, unit: LengthUnit, style: NumberStyle): number | null {
  let plain = text.trim().toLowerCase();
  for (const [sign, written] of Object.entries(VULGAR)) plain = plain.replace(sign, ` ${written}`);
  const match = /^(.*?)\s*(mm|cm|inches|inch|in|zoll|"|\u2033)?$/.exec(plain);
  const [, body = '', suffix] = match ?? [];
  const perUnit = suffix === undefined ? (unit === 'in' ? MM_PER_INCH : 1) : mmPer(suffix);
  const value = parseWithFraction(body.trim(), style);
  return value === null ? null : value * perUnit;
}

function mmPer(suffix: string): number {
  if (suffix === 'mm') return 1;
  return suffix === 'cm' ? 10 : MM_PER_INCH;
}

function parseWithFraction(text: string, style: NumberStyle): number | null {
  const match = /^(-)?(?:(\d+)[\s-]+)?(\d+)\s*\/\s*(\d+)$/.exec(text);
  if (match === null) return parseNumber(text, style);
  const [, sign, whole, over, under] = match;
  if (Number(under) === 0) return null;
  const value = Number(whole ?? 0) + Number(over) / Number(under);
  return sign === undefined ? value : -value;
}

/** A length without its unit, as the user would type it: mm with up to `decimals`, inches as a fraction where they are one. */
export function formatLength(mm: number, unit: LengthUnit, style: NumberStyle, decimals = 2): string {
  if (unit === 'mm') return formatNumber(mm, style, decimals);
  const inches = mm / MM_PER_INCH;
  return inchFraction(inches) ?? formatNumber(inches, style, Math.abs(inches) < 1 ? 4 : 3);
}

/** A length with its unit; `word` is how the language calls it. */
export function formatLengthUnit(
  mm: number,
  unit: LengthUnit,
  style: NumberStyle,
  decimals = 2,
  word: string = unit,
): string {
  return `${formatLength(mm, unit, style, decimals)} ${word}`;
}

/** Width x height with one unit. */
export function formatSize(
  width: number,
  height: number,
  unit: LengthUnit,
  style: NumberStyle,
  word: string = unit,
): string {
  return `${formatLength(width, unit, style, 0)} \u00d7 ${formatLength(height, unit, style, 0)} ${word}`;
}

function inchFraction(inches: number): string | null {
  const size = Math.abs(inches);
  const parts = Math.round(size * FINEST_FRACTION);
  if (Math.abs(size - parts / FINEST_FRACTION) > FRACTION_SLACK_IN) return null;
  const sign = inches < 0 && parts > 0 ? '-' : '';
  const whole = Math.floor(parts / FINEST_FRACTION);
  let over = parts % FINEST_FRACTION;
  let under = FINEST_FRACTION;
  while (over > 0 && over % 2 === 0) {
    over /= 2;
    under /= 2;
  }
  if (over === 0) return `${sign}${whole}`;
  return whole === 0 ? `${sign}${over}/${under}` : `${sign}${whole} ${over}/${under}`;
}
