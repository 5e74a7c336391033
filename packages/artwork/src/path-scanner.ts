import type { Point } from '@underlap/geometry/point';

const COMMANDS = 'MmLlHhVvCcSsQqTtAaZz';
const [ZERO, ONE, NINE, PLUS, MINUS, DOT, COMMA] = [48, 49, 57, 43, 45, 46, 44];
const [UPPER_E, LOWER_E] = [69, 101];

/**
 * Reads path data piece by piece; every method skips white space, and a comma where the grammar allows one. Also serves lists of
 * numbers (`points`, `viewBox`).
 */
export class PathScanner {
  /** Position of the next character, counted from 0. */
  at = 0;
  private readonly text: string;

  constructor(text: string) {
    this.text = text;
  }

  /** The next command letter, or null when something else (or nothing) follows. */
  command(): string | null {
    this.skipSpace();
    if (this.at >= this.text.length || !COMMANDS.includes(this.text[this.at]!)) return null;
    return this.text[this.at++]!;
  }

  /** Does a number follow, so that the command is repeated? */
  hasNumber(): boolean {
    const before = this.at;
    this.skipComma();
    const follows = this.numberEnd() > this.at;
    if (!follows) this.at = before;
    return follows;
  }

  /** A finite number, or null. */
  number(): number | null {
    this.skipComma();
    const stop = this.numberEnd();
    if (stop === this.at) return null;
    const value = Number(this.text.slice(this.at, stop));
    if (!Number.isFinite(value)) return null;
    this.at = stop;
    return value;
  }

  /** One digit 0 or 1, which needs no separator, or null. */
  flag(): boolean | null {
    this.skipComma();
    const code = this.text.charCodeAt(this.at);
    if (code !== ZERO && code !== ONE) return null;
    this.at++;
    return code === ONE;
  }

  /** Two numbers, moved by dx, dy; null when either is missing. */
  point(dx: number, dy: number): Point | null {
    const x = this.number();
    const y = x === null ? null : this.number();
    return x === null || y === null ? null : { x: x + dx, y: y + dy };
  }

  isDone(): boolean {
    this.skipSpace();
    return this.at >= this.text.length;
  }

  /** The next few characters, for messages. */
  rest(count: number): string {
    return this.text.slice(this.at, this.at + count);
  }

  private skipSpace(): void {
    while (isSpace(this.text.charCodeAt(this.at))) this.at++;
  }

  private skipComma(): void {
    this.skipSpace();
    if (this.text.charCodeAt(this.at) !== COMMA) return;
    this.at++;
    this.skipSpace();
  }

  /** Where the number that begins here ends; `at` itself when none begins here. */
  private numberEnd(): number {
    const { text, at } = this;
    let i = at;
    const sign = text.charCodeAt(i);
    if (sign === PLUS || sign === MINUS) i++;
    const whole = digitsFrom(text, i);
    let mantissa = whole;
    let digits = whole - i;
    if (text.charCodeAt(whole) === DOT) {
      mantissa = digitsFrom(text, whole + 1);
      digits += mantissa - whole - 1;
    }
    if (digits === 0) return at;
    const letter = text.charCodeAt(mantissa);
    if (letter !== UPPER_E && letter !== LOWER_E) return mantissa;
    const expSign = text.charCodeAt(mantissa + 1);
    const exponent = mantissa + (expSign === PLUS || expSign === MINUS ? 2 : 1);
    const exponentEnd = digitsFrom(text, exponent);
    return exponentEnd > exponent ? exponentEnd : mantissa;
  }
}

function digitsFrom(text: string, from: number): number {
  let i = from;
  for (let code = text.charCodeAt(i); code >= ZERO && code <= NINE; code = text.charCodeAt(i)) i++;
  return i;
}

function isSpace(code: number): boolean {
  return code === 32 || (code >= 9 && code <= 13 && code !== 11);
}
