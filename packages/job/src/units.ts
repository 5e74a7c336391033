/** Millimetres in one of each unit a maker may write. 1 in = 25.4 mm exactly (international inch, 1959). */
const MM_PER_UNIT: Readonly<Record<string, number>> = {
  mm: 1,
  cm: 10,
  m: 1000,
  in: 25.4,
  inch: 25.4,
  '"': 25.4,
  '″': 25.4,
};

const NUMBER = String.raw`[+-]?(?:\d+(?:\.\d*)?|\.\d+)(?:e[+-]?\d+)?`;
const UNIT = `(?:mm|cm|m|inch|in|"|″)`;
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
 * Read a length as a maker writes it: `508`, `20in`, `20 1/2 in`, `3/4"`, `50.8 cm`. Without a unit it is millimetres.
 * @returns mm, or null when the text is not a length. The sign is kept: limits are the caller's business.
 */
export function parseLength(text: string, defaultUnit = 'mm'): number | null {
  const match = LENGTH.exec(text);
  if (match === null) return null;
  const [, whole, top, bottom, bareTop, bareBottom, unit] = match;
  const fraction = bareTop === undefined ? fractionOf(top, bottom) : fractionOf(bareTop, bareBottom);
  const base = whole === undefined ? 0 : Number(whole);
  const value = base < 0 || whole?.startsWith('-') ? base - fraction : base + fraction;
  // 12 in is 304.8 mm, not 304.79999999999995: a nanometre is far below anything that is cut.
  const mm = Math.round(value * MM_PER_UNIT[(unit ?? defaultUnit).toLowerCase()]! * 1e6) / 1e6;
  return Number.isFinite(mm) ? mm : null;
}

/**
 * Read `508x305`, `20x12in`, `20 in x 305 mm`. A unit after the second number serves the first as well when that has none.
 * @returns mm, or null when the text is not a size.
 */
export function parseSize(text: string): Size | null {
  const sides = text.split(/[x×]/i);
  if (sides.length !== 2) return null;
  const unit = new RegExp(String.raw`(${UNIT})\s*$`, 'i').exec(sides[1]!)?.[1];
  const width = parseLength(sides[0]!, unit);
  const height = parseLength(sides[1]!);
  return width === null || height === null ? null : { width, height };
}

function fractionOf(top: string | undefined, bottom: string | undefined): number {
  return top === undefined || bottom === undefined ? 0 : Number(top) / Number(bottom);
}
