/** One group of a DXF file: what kind of value, the value as text, and the line it stands on (from 1). */
export interface Tag {
  readonly code: number;
  readonly value: string;
  readonly line: number;
}

/** Where a reader stands in its text. */
export interface TextPlace {
  readonly at: number;
  readonly line: number;
}

const [CARRIAGE_RETURN, SPACE, ZERO, NINE] = [13, 32, 48, 57];

/** Codes have up to four digits; what is longer is looked at more closely. */
const MOST_DIGITS = 4;

/**
 * Reads a DXF text group by group: a line with the group code, a line with the value. Comments (999) are left out.
 * Nothing is copied but the value at hand, so a file costs little more than its text. O(n).
 */
export class TagReader {
  readonly #text: string;
  #at: number;
  #line: number;
  #held: Tag | null = null;
  /** Where the pairs of lines stopped making sense; null while all is well. */
  brokenAt: number | null = null;

  /**
   * @param text - with line ends of any kind: `plainLineEnds` makes a lone carriage return a line end.
   * @param place - where to begin; the whole text when left out.
   */
  constructor(text: string, place: TextPlace | null = null) {
    this.#text = text;
    this.#at = place?.at ?? (text.charCodeAt(0) === 0xfeff ? 1 : 0);
    this.#line = place?.line ?? 1;
  }

  /** Where the next group begins, when none is held. */
  get place(): TextPlace {
    return { at: this.#at, line: this.#line };
  }

  /** The next group, or null at the end of the text or where it stops being DXF. */
  next(): Tag | null {
    if (this.#held !== null) {
      const held = this.#held;
      this.#held = null;
      return held;
    }
    for (;;) {
      const line = this.#line;
      const code = this.#nextCode();
      if (code === null) return null;
      const value = this.#nextLine();
      if (!this.#isGroup(code, value, line)) return null;
      if (code !== 999) return { code, value: value!, line };
    }
  }

  /** The next group with code 0; what lies before it is passed over. */
  nextWord(): Tag | null {
    if (this.#held !== null) {
      const held = this.#held;
      this.#held = null;
      if (held.code === 0) return held;
    }
    for (;;) {
      const line = this.#line;
      const code = this.#nextCode();
      if (code === null) return null;
      const value = code === 0 || this.#at >= this.#text.length ? this.#nextLine() : this.#passLine();
      if (!this.#isGroup(code, value, line)) return null;
      if (code === 0) return { code, value: value!, line };
    }
  }

  /** Gives the last group back, to be read again. */
  hold(tag: Tag): void {
    this.#held = tag;
  }

  #isGroup(code: number, value: string | null, line: number): boolean {
    const isCode = Number.isInteger(code) && Math.abs(code) <= 9999;
    if (value !== null && isCode) return true;
    // A code whose value is missing is the end of a file that was cut off.
    if (value !== null || !Number.isInteger(code)) this.brokenAt = line;
    return false;
  }

  /** The code on the next line: NaN when it is none, null at the end of the text. */
  #nextCode(): number | null {
    const text = this.#text;
    let i = this.#at;
    while (text.charCodeAt(i) === SPACE) i++;
    let code = 0;
    const first = i;
    for (let digit = text.charCodeAt(i); digit >= ZERO && digit <= NINE; digit = text.charCodeAt(i)) {
      code = code * 10 + digit - ZERO;
      i++;
    }
    const digits = i - first;
    if (text.charCodeAt(i) === CARRIAGE_RETURN) i++;
    if (digits > 0 && digits <= MOST_DIGITS && text[i] === '\n') {
      this.#at = i + 1;
      this.#line++;
      return code;
    }
    const written = this.#nextLine()?.trim();
    if (written === undefined) return null;
    if (written !== '') return Number(written);
    // Blank lines at the end are no fault.
    return this.#at >= text.length ? 0 : Number.NaN;
  }

  #passLine(): string {
    const feed = this.#text.indexOf('\n', this.#at);
    this.#at = feed < 0 ? this.#text.length : feed + 1;
    this.#line++;
    return '';
  }

  #nextLine(): string | null {
    const text = this.#text;
    const from = this.#at;
    if (from >= text.length) return null;
    const feed = text.indexOf('\n', from);
    const end = feed < 0 ? text.length : feed;
    this.#at = end + 1;
    this.#line++;
    return text.slice(from, text.charCodeAt(end - 1) === CARRIAGE_RETURN ? end - 1 : end);
  }
}

/** Lone carriage returns (old programs) as line ends: rare enough to pay for a copy. */
export function plainLineEnds(text: string): string {
  return /\r(?!\n)/.test(text) ? text.replace(/\r\n?/g, '\n') : text;
}
