import type { Point } from '@underlap/geometry/point';

/** Reads path data piece by piece; every method skips white space, and a comma where the grammar allows one. */
export interface PathScanner {
  /** Position of the next character, counted from 0. */
  readonly at: number;
  /** The next command letter, or null when something else (or nothing) follows. */
  command(): string | null;
  /** Does a number follow, so that the command is repeated? */
  hasNumber(): boolean;
  /** A finite number, or null. */
  number(): number | null;
  /** One digit 0 or 1, which needs no separator, or null. */
  flag(): boolean | null;
  /** Two numbers, moved by dx, dy; null when either is missing. */
  point(dx: number, dy: number): Point | null;
  isDone(): boolean;
  /** The next few characters, for messages. */
  rest(count: number): string;
}

const COMMANDS = 'MmLlHhVvCcSsQqTtAaZz';
const [ZERO, ONE, NINE, PLUS, MINUS, DOT, COMMA] = [48, 49, 57, 43, 45, 46, 44];
const [UPPER_E, LOWER_E] = [69, 101];

/** Scan path data; also serves lists of numbers (`points`, `viewBox`). */
export function scanPath(text: string): PathScanner {
  let at = 0;
  const end = text.length;

  const isSpace = (code: number): boolean => code === 32 || (code >= 9 && code <= 13 && code !== 11);
  const isDigit = (code: number): boolean => code >= ZERO && code <= NINE;
  const skipSpace = (): void => {
    while (at < end && isSpace(text.charCodeAt(at))) at++;
  };
  const skipComma = (): void => {
    skipSpace();
    if (at < end && text.charCodeAt(at) === COMMA) {
      at++;
      skipSpace();
    }
  };
  const digitsFrom = (from: number): number => {
    let i = from;
    while (i < end && isDigit(text.charCodeAt(i))) i++;
    return i;
  };
  /** Where the number that begins here ends; `at` itself when none begins here. */
  const numberEnd = (): number => {
    let i = at;
    const sign = text.charCodeAt(i);
    if (sign === PLUS || sign === MINUS) i++;
    const whole = digitsFrom(i);
    let mantissa = whole;
    let digits = whole - i;
    if (text.charCodeAt(whole) === DOT) {
      mantissa = digitsFrom(whole + 1);
      digits += mantissa - whole - 1;
    }
    if (digits === 0) return at;
    const letter = text.charCodeAt(mantissa);
    if (letter !== UPPER_E && letter !== LOWER_E) return mantissa;
    const expSign = text.charCodeAt(mantissa + 1);
    const exponent = mantissa + (expSign === PLUS || expSign === MINUS ? 2 : 1);
    const exponentEnd = digitsFrom(exponent);
    return exponentEnd > exponent ? exponentEnd : mantissa;
  };

  const scanner: PathScanner = {
    get at() {
      return at;
    },
    command() {
      skipSpace();
      if (at >= end || !COMMANDS.includes(text[at]!)) return null;
      return text[at++]!;
    },
    hasNumber() {
      const before = at;
      skipComma();
      const follows = numberEnd() > at;
      if (!follows) at = before;
      return follows;
    },
    number() {
      skipComma();
      const stop = numberEnd();
      if (stop === at) return null;
      const value = Number(text.slice(at, stop));
      if (!Number.isFinite(value)) return null;
      at = stop;
      return value;
    },
    flag() {
      skipComma();
      const code = text.charCodeAt(at);
      if (code !== ZERO && code !== ONE) return null;
      at++;
      return code === ONE;
    },
    point(dx, dy) {
      const x = scanner.number();
      const y = x === null ? null : scanner.number();
      return x === null || y === null ? null : { x: x + dx, y: y + dy };
    },
    isDone() {
      skipSpace();
      return at >= end;
    },
    rest(count) {
      return text.slice(at, at + count);
    },
  };
  return scanner;
}
