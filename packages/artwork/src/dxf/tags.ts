/** One group of a DXF file: what kind of value, the value as text, and the line it stands on (from 1). */
export interface Tag {
  readonly code: number;
  readonly value: string;
  readonly line: number;
}

const CARRIAGE_RETURN = 13;

/**
 * Reads a DXF text group by group: a line with the group code, a line with the value. Comments (999) are left out.
 * Nothing is copied but the value at hand, so a file costs little more than its text. O(n).
 */
export class TagReader {
  readonly #text: string;
  #at: number;
  #line = 1;
  #held: Tag | null = null;
  /** Where the pairs of lines stopped making sense; null while all is well. */
  brokenAt: number | null = null;

  constructor(text: string) {
    // Line ends of any kind; a lone carriage return (old programs) is rare enough to pay for a copy.
    this.#text = /\r(?!\n)/.test(text) ? text.replace(/\r\n?/g, '\n') : text;
    this.#at = text.charCodeAt(0) === 0xfeff ? 1 : 0;
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
      const codeText = this.#nextLine();
      if (codeText === null) return null;
      const value = this.#nextLine();
      const trimmed = codeText.trim();
      // A code whose value is missing is the end of a file that was cut off.
      if (value === null && (trimmed === '' || Number.isInteger(Number(trimmed)))) return null;
      const code = trimmed === '' ? Number.NaN : Number(trimmed);
      if (value === null || !Number.isInteger(code) || Math.abs(code) > 9999) {
        this.brokenAt = line;
        return null;
      }
      if (code !== 999) return { code, value, line };
    }
  }

  /** Gives the last group back, to be read again. */
  hold(tag: Tag): void {
    this.#held = tag;
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
