/** One group of a DXF file: what kind of value, the value as text, and the line it stands on (from 1). */
export interface Tag {
  readonly code: number;
  readonly value: string;
  readonly line: number;
}

const LINE_FEED = 10;
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
    this.#text = text;
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
      if (value === null) {
        if (trimmed !== '') this.brokenAt = line;
        return null;
      }
      const code = /^-?\d{1,4}$/.test(trimmed) ? Number(trimmed) : Number.NaN;
      if (Number.isNaN(code)) {
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
    let end = from;
    let c = 0;
    while (end < text.length) {
      c = text.charCodeAt(end);
      if (c === LINE_FEED || c === CARRIAGE_RETURN) break;
      end++;
    }
    const isPair = c === CARRIAGE_RETURN && text.charCodeAt(end + 1) === LINE_FEED;
    this.#at = end + (isPair ? 2 : 1);
    this.#line++;
    return text.slice(from, end);
  }
}
