import { harmlessText } from '../harmless-text.ts';
import type { Tag } from './tags.ts';

/** A number that cannot be used, with the line it stands on. */
export class BadNumber extends Error {
  constructor(
    readonly value: string,
    readonly line: number,
  ) {
    super(`"${value}" is not a usable number`);
    this.name = 'BadNumber';
  }
}

/** Beyond this no unit makes sense, and products of two coordinates would lose every digit. */
const LARGEST = 1e12;

/** The groups of one entity or table entry, in order. */
export class EntityTags {
  readonly #tags: readonly Tag[];

  constructor(
    /** Entity type, upper case: LINE, LWPOLYLINE, ... */
    readonly type: string,
    /** Line of the entity's 0 group. */
    readonly line: number,
    tags: readonly Tag[],
  ) {
    this.#tags = tags;
  }

  get all(): readonly Tag[] {
    return this.#tags;
  }

  has(code: number): boolean {
    return this.#first(code) !== null;
  }

  /** First value with the code, trimmed; `fallback` when there is none. */
  text(code: number, fallback: string): string {
    const tag = this.#first(code);
    return tag === null ? fallback : plainText(tag.value);
  }

  /** @throws BadNumber when the value is no finite number of sane size. */
  number(code: number, fallback: number): number {
    const tag = this.#first(code);
    return tag === null ? fallback : tagNumber(tag);
  }

  /** Whole number; what is not one counts as `fallback` (flags and counts are often written as reals). */
  integer(code: number, fallback: number): number {
    const value = this.number(code, fallback);
    return Number.isInteger(value) ? value : fallback;
  }

  #first(code: number): Tag | null {
    for (const tag of this.#tags) if (tag.code === code) return tag;
    return null;
  }
}

/** `12,5` as some programs write 12.5, against the standard; a comma cannot mean anything else within one number. */
const DECIMAL_COMMA = /^[+-]?\d*,\d+(?:[eE][+-]?\d+)?$/;

/** @throws BadNumber when the value is no finite number of sane size. */
export function tagNumber(tag: Tag): number {
  const written = tag.value.trim();
  const text = DECIMAL_COMMA.test(written) ? written.replace(',', '.') : written;
  const value = text === '' ? Number.NaN : Number(text);
  if (!Number.isFinite(value) || Math.abs(value) > LARGEST)
    throw new BadNumber(harmlessText(text.slice(0, 40)), tag.line);
  return value;
}

/** Names without surrounding blanks, with \U+XXXX as the character it stands for, and without any that steers a terminal. */
function plainText(value: string): string {
  const text = value
    .trim()
    .replace(/\\U\+([0-9A-Fa-f]{4})/g, (_, hex: string) => String.fromCharCode(Number.parseInt(hex, 16)));
  return harmlessText(text);
}
