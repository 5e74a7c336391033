/** Millimetres in one of each unit a maker may write. 1 in = 25.4 mm exactly (international inch, 1959). */
export const MM_PER_UNIT = {
  mm: 1,
  cm: 10,
  m: 1000,
  in: 25.4,
  inch: 25.4,
  '"': 25.4,
  '″': 25.4,
} as const;

const NUMBER = String.raw`[+-]?(?:\d+(?:\.\d*)?|\.\d+)(?:e[+-]?\d+)?`;
const UNIT = `(?:${Object.keys(MM_PER_UNIT).join('|')})`;
const LENGTH = new RegExp(
  String.raw`^\s*(?:(${NUMBER})(?:[\s-]+(\d+)\s*/\s*(\d+))?|(\d+)\s*/\s*(\d+))\s*(${UNIT})?\s*$`,
  'i',
);

/** A width and a height, mm. */
export interface Size {
  readonly width: number;
  readonly height: number;
}

/**
 * Read a length as a maker writes it: `508`, `20in`, `20 1/2 in`, `3/4"`, `50.8 cm`, `0,2`, `1.234,5`. Without a unit it is
 * millimetres.
 * @returns mm, or null when the text is not a length (see `lengthAdvice`). The sign is kept: limits are the caller's business.
 */
export function parseLength(text: string, defaultUnit = 'mm'): number | null {
  const plain = withPoint(text);
  const match = plain === null ? null : LENGTH.exec(plain);
  if (match === null) return null;
  const [, whole, top, bottom, bareTop, bareBottom, unit] = match;
  const fraction = bareTop === undefined ? fractionOf(top, bottom) : fractionOf(bareTop, bareBottom);
  const base = whole === undefined ? 0 : Number(whole);
  const value = base < 0 || whole?.startsWith('-') ? base - fraction : base + fraction;
  // 12 in is 304.8 mm, not 304.79999999999995: a nanometre is far below anything that is cut.
  const mm = Math.round(value * perUnit(unit ?? defaultUnit) * 1e6) / 1e6;
  return Number.isFinite(mm) ? mm : null;
}

/**
 * Read `508x305`, `20x12in`, `20 in x 305 mm`. A unit after the second number serves the first as well when that has none.
 * @returns mm, or null when the text is not a size.
 */
export function parseSize(text: string): Size | null {
  const sides = text.split(/[x×*]|\bby\b/i);
  if (sides.length !== 2) return null;
  const unit = new RegExp(String.raw`(${UNIT})\s*$`, 'i').exec(sides[1]!)?.[1];
  const width = parseLength(sides[0]!, unit);
  const height = parseLength(sides[1]!);
  return width === null || height === null ? null : { width, height };
}

/**
 * Read several sizes: `508x305,610x305`, also with decimal commas, `50,8x30,5cm; 61x30,5cm`.
 * @returns sizes in mm; null where one is none; 'ambiguous' where commas could be read in two ways.
 */
export function parseSizes(text: string): Size[] | null | 'ambiguous' {
  if (text.includes(';')) return allOf(text.split(';').map(parseSize));
  const readings = readingsOf(text.split(','));
  return readings.length > 1 ? 'ambiguous' : (readings[0] ?? null);
}

/** Every way to take neighbours between commas together so that all are sizes; looking ends at the second. */
function readingsOf(segments: readonly string[]): Size[][] {
  if (segments.length === 0) return [[]];
  const readings: Size[][] = [];
  // A size has two numbers, hence two decimal commas at most, and thousands are marked by one more each.
  for (let taken = 1; taken <= Math.min(segments.length, 5) && readings.length < 2; taken++) {
    const size = parseSize(segments.slice(0, taken).join(','));
    if (size === null) continue;
    for (const rest of readingsOf(segments.slice(taken))) readings.push([size, ...rest]);
  }
  return readings.slice(0, 2);
}

function allOf(sizes: readonly (Size | null)[]): Size[] | null {
  const read = sizes.filter((size) => size !== null);
  return read.length === sizes.length ? read : null;
}

/** The same text with a decimal point and no marks between thousands; null where a comma may be either. */
function withPoint(text: string): string | null {
  if (!text.includes(',')) return text;
  return text.replace(DIGITS, (digits) => {
    const last = Math.max(digits.lastIndexOf(','), digits.lastIndexOf('.'));
    const [whole, decimals] = [digits.slice(0, last), digits.slice(last + 1)];
    const between = whole.replace(/\d/g, '');
    const isGrouped = /^\d{1,3}(?:([.,])\d{3})(?:\1\d{3})*$/.test(whole) && !between.includes(digits[last]!);
    // "1,234" alone is a thousand and more to some and little more than one to others.
    if (between === '' ? decimals.length === 3 : !isGrouped) return '?';
    return `${whole.replace(/[.,]/g, '')}.${decimals}`;
  });
}

const DIGITS = /\d[\d.,]*\d/g;

/** Units that people write and that are not read, with the ones to write instead. */
const OTHER_UNITS: readonly (readonly [RegExp, string])[] = [
  [/(?:ft|feet|foot|'|′)\s*$/i, 'write feet as inches, such as 24in for 2 ft'],
  [/(?:px|pt|pc|dpi)\s*$/i, 'pixels and points have no size of their own: write mm or in'],
  [/(?:zoll|tum|pouces?|pulgadas?)\s*$/i, 'write inches as in, such as 20in'],
  [/(?:inches|ins)\s*$/i, 'write inches as in, such as 20in'],
  [/(?:yd|yards?|thou|mil|mils|µm|um)\s*$/i, 'the units read are mm, cm, m and in'],
];

/** What to do about text that is no length, ready to follow a colon; '' when nothing better can be said. */
export function lengthAdvice(text: string): string {
  const comma = /\d+,\d{3}(?!\d)/.exec(text);
  if (comma !== null && withPoint(text)?.includes('?') === true) {
    return `"${comma[0]}" may mean ${comma[0].replace(',', '')} or ${comma[0].replace(',', '.')}: write it without the comma`;
  }
  return OTHER_UNITS.find(([unit]) => unit.test(text))?.[1] ?? '';
}

function perUnit(unit: string): number {
  return (MM_PER_UNIT as Readonly<Record<string, number>>)[unit.toLowerCase()]!;
}

function fractionOf(top: string | undefined, bottom: string | undefined): number {
  return top === undefined || bottom === undefined ? 0 : Number(top) / Number(bottom);
}
