import { MM_PER_UNIT } from '@underlap/job/units';
import { formatNumber, type NumberStyle, parseNumber } from './number.ts';

interface UnitStyle {
  readonly mm: number;
  /** Digits after the point beyond those that a length in mm is given. */
  readonly moreDecimals: number;
  /** Written as a fraction where it is one. */
  readonly hasFractions: boolean;
  /** What one press of an arrow key adds, mm; on small lengths `smallStep`. */
  readonly step: number;
  readonly smallStep: number;
}

/** Units that the page can speak in; a further one is an entry here and its two phrases (`unit.mm`, `unit.name-mm`). */
export const LENGTH_UNITS = {
  mm: { mm: MM_PER_UNIT.mm, moreDecimals: 0, hasFractions: false, step: 1, smallStep: 0.05 },
  in: { mm: MM_PER_UNIT.in, moreDecimals: 0, hasFractions: true, step: 25.4 / 16, smallStep: 25.4 / 16 },
} as const satisfies Readonly<Record<string, UnitStyle>>;

export type LengthUnit = keyof typeof LENGTH_UNITS;

export const UNIT_NAMES = Object.keys(LENGTH_UNITS) as LengthUnit[];

/** How the units are written: as in a job, and in the languages of the page. */
const SPELLINGS: Readonly<Record<string, number>> = { ...MM_PER_UNIT, inches: MM_PER_UNIT.in, zoll: MM_PER_UNIT.in };
const LENGTH = new RegExp(`^(.*?)\\s*(${Object.keys(SPELLINGS).join('|')})?$`);

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
 * Read a length in mm. The unit may be written (`mm`, `cm`, `m`, `in`, `Zoll`, `"`); without one the user's unit counts. Inches may be
 * whole, decimal or with a fraction (`20 1/2`, `3/4`).
 * @returns mm, or null when the text is not a length.
 */
export function parseLength(text: string, unit: LengthUnit, style: NumberStyle): number | null {
  let plain = text.trim().toLowerCase();
  for (const [sign, written] of Object.entries(VULGAR)) plain = plain.replace(sign, ` ${written}`);
  const [, body = '', suffix] = LENGTH.exec(plain) ?? [];
  const perUnit = suffix === undefined ? LENGTH_UNITS[unit].mm : SPELLINGS[suffix]!;
  const value = parseWithFraction(body.trim(), style);
  return value === null ? null : value * perUnit;
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
  const { mm: perUnit, moreDecimals, hasFractions } = LENGTH_UNITS[unit];
  const length = mm / perUnit;
  if (!hasFractions) return formatNumber(length, style, decimals + moreDecimals);
  return fraction(length) ?? formatNumber(length, style, Math.abs(length) < 1 ? 4 : 3);
}

/** What one press of an arrow key adds to a length, mm. */
export function stepOf(mm: number, unit: LengthUnit): number {
  const { step, smallStep } = LENGTH_UNITS[unit];
  return Math.abs(mm) < 2 ? smallStep : step;
}

export function isLengthUnit(word: unknown): word is LengthUnit {
  return UNIT_NAMES.some((unit) => unit === word);
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

function fraction(inches: number): string | null {
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
