import { IDENTITY, type Matrix, multiply } from '@underlap/geometry/matrix';

const FUNCTION = /\s*,?\s*([a-z]+)\s*\(([^()]*)\)/iy;
const NUMBER = /^([+-]?(?:\d+\.?\d*|\.\d+)(?:e[+-]?\d+)?)([a-z]*)$/i;

const DEGREES: Readonly<Record<string, number>> = { '': 1, deg: 1, rad: 180 / Math.PI, grad: 0.9, turn: 360 };
const PIXELS: Readonly<Record<string, number>> = {
  '': 1,
  px: 1,
  in: 96,
  cm: 96 / 2.54,
  mm: 96 / 25.4,
  pt: 96 / 72,
  pc: 16,
};

/**
 * Read a transform list: SVG's matrix, translate, scale, rotate (with centre), skewX, skewY, and CSS's translateX, translateY,
 * scaleX, scaleY, skew with units on lengths and angles.
 * @returns null when it cannot be read or is not finite.
 */
export function parseTransform(text: string): Matrix | null {
  const list = text.trim();
  if (list === '' || list === 'none') return IDENTITY;
  let matrix = IDENTITY;
  FUNCTION.lastIndex = 0;
  while (FUNCTION.lastIndex < list.length) {
    const match = FUNCTION.exec(list);
    if (match === null) return null;
    const next = single(match[1]!.toLowerCase(), splitArguments(match[2]!));
    if (next === null) return null;
    matrix = multiply(matrix, next);
  }
  return Object.values(matrix).every(Number.isFinite) ? matrix : null;
}

/** `10-20` and `1.5.5` are two numbers each, as in path data. */
function splitArguments(body: string): string[] {
  return body.match(/[+-]?(?:\d+\.?\d*|\.\d+)(?:e[+-]?\d+)?[a-z%]*|[^\s,]+/gi) ?? [];
}

/**
 * What CSS's own properties `translate`, `rotate` and `scale` do, in this order (CSS Transforms Level 2, 'Individual transforms').
 * @returns null when one of them cannot be read, means a direction out of the plane, or needs a size that is not known here.
 */
function parseIndividual(properties: Readonly<Record<string, string>>): Matrix | null {
  const { translate = 'none', rotate = 'none', scale = 'none' } = properties;
  const shift = translate === 'none' ? IDENTITY : single('translate', wordsOf(translate, 3, '0'));
  const turn = rotate === 'none' ? IDENTITY : single('rotate', aboutDepth(rotate));
  const size = scale === 'none' ? IDENTITY : single('scale', wordsOf(scale, 3, '1').map(percentage));
  if (shift === null || turn === null || size === null) return null;
  const matrix = multiply(multiply(shift, turn), size);
  return Object.values(matrix).every(Number.isFinite) ? matrix : null;
}

/** CSS's own properties, if any, come before `transform`; null when one of them cannot be read. */
export function fullTransform(
  text: string | undefined,
  properties: Readonly<Record<string, string>> | null,
): Matrix | null {
  const last = text === undefined ? IDENTITY : parseTransform(text);
  const first = properties === null ? IDENTITY : parseIndividual(properties);
  if (first === IDENTITY) return last;
  return first === null || last === null ? null : multiply(first, last);
}

/** Values for across, down and depth, the last of which must do nothing and is left out. */
function wordsOf(text: string, most: number, still: string): string[] {
  const words = text.trim().split(/\s+/);
  return words.length === most && Number.parseFloat(words[most - 1]!) === Number(still) ? words.slice(0, -1) : words;
}

/** The angle of a turn about the axis that points out of the paper, which may be named; what is no angle cannot be read. */
function aboutDepth(text: string): string[] {
  const angle = text
    .trim()
    .toLowerCase()
    .replace(/^(?:z|0\s+0\s+1)\s+|\s+(?:z|0\s+0\s+1)$/, '');
  return /\s/.test(angle) ? [] : [angle];
}

function percentage(word: string): string {
  return word.endsWith('%') ? String(Number(word.slice(0, -1)) / 100) : word;
}

function single(name: string, words: readonly string[]): Matrix | null {
  const plain = words.map((word) => quantity(word, { '': 1 }));
  const lengths = words.map((word) => quantity(word, PIXELS));
  const angles = words.map((word) => quantity(word, DEGREES));
  const [a, b] = plain;
  switch (name) {
    case 'matrix':
      return words.length === 6 && isNumbers(plain)
        ? { a: plain[0]!, b: plain[1]!, c: plain[2]!, d: plain[3]!, e: plain[4]!, f: plain[5]! }
        : null;
    case 'translate':
      return hasCount(words, 1, 2) && isNumbers(lengths) ? moved(lengths[0]!, lengths[1] ?? 0) : null;
    case 'translatex':
      return hasCount(words, 1, 1) && isNumbers(lengths) ? moved(lengths[0]!, 0) : null;
    case 'translatey':
      return hasCount(words, 1, 1) && isNumbers(lengths) ? moved(0, lengths[0]!) : null;
    case 'scale':
      return hasCount(words, 1, 2) && isNumbers(plain) ? { ...IDENTITY, a: a!, d: b ?? a! } : null;
    case 'scalex':
      return hasCount(words, 1, 1) && isNumbers(plain) ? { ...IDENTITY, a: a! } : null;
    case 'scaley':
      return hasCount(words, 1, 1) && isNumbers(plain) ? { ...IDENTITY, d: a! } : null;
    case 'rotate':
      return rotated(words, angles, lengths);
    case 'skewx':
      return hasCount(words, 1, 1) && isNumbers(angles) ? { ...IDENTITY, c: tangent(angles[0]!) } : null;
    case 'skewy':
      return hasCount(words, 1, 1) && isNumbers(angles) ? { ...IDENTITY, b: tangent(angles[0]!) } : null;
    case 'skew':
      return hasCount(words, 1, 2) && isNumbers(angles)
        ? { ...IDENTITY, c: tangent(angles[0]!), b: tangent(angles[1] ?? 0) }
        : null;
    default:
      return null;
  }
}

function rotated(
  words: readonly string[],
  angles: readonly (number | null)[],
  lengths: readonly (number | null)[],
): Matrix | null {
  const turn = angles[0];
  if (turn === null || turn === undefined || (words.length !== 1 && words.length !== 3)) return null;
  const x = words.length === 3 ? lengths[1]! : 0;
  const y = words.length === 3 ? lengths[2]! : 0;
  if (x === null || y === null) return null;
  const { cos, sin } = exactTurn(turn);
  return multiply(multiply(moved(x, y), { a: cos, b: sin, c: -sin, d: cos, e: 0, f: 0 }), moved(-x, -y));
}

/** Quarter turns without the rounding of pi. */
function exactTurn(degrees: number): { cos: number; sin: number } {
  const quarter = (((degrees / 90) % 4) + 4) % 4;
  if (Number.isInteger(quarter)) return { cos: [1, 0, -1, 0][quarter]!, sin: [0, 1, 0, -1][quarter]! };
  return { cos: Math.cos((degrees * Math.PI) / 180), sin: Math.sin((degrees * Math.PI) / 180) };
}

function quantity(word: string, units: Readonly<Record<string, number>>): number | null {
  const match = NUMBER.exec(word);
  const perUnit = match === null ? undefined : units[match[2]!.toLowerCase()];
  return perUnit === undefined ? null : Number(match![1]) * perUnit;
}

function moved(x: number, y: number): Matrix {
  return { ...IDENTITY, e: x, f: y };
}

function tangent(degrees: number): number {
  return Math.tan((degrees * Math.PI) / 180);
}

function hasCount(words: readonly string[], least: number, most: number): boolean {
  return words.length >= least && words.length <= most;
}

function isNumbers(values: readonly (number | null)[]): boolean {
  return values.every((value) => value !== null && Number.isFinite(value));
}
