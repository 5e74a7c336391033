/** What a binary DXF begins with: a line that ends in these four bytes. */
const MARK_END = 'Binary DXF\r\n\x1a\0';

/** Longest name of a program before it, characters. */
const LONGEST_MARK = 48;

/** How the value of a group is written; source: DXF reference, 'Binary DXF Files' and 'Group Code Value Types'. */
type ValueKind = 'text' | 'double' | 'int16' | 'int32' | 'int64' | 'byte' | 'chunk';

/** Ranges of group codes with the kind of their values, in order; a code belongs to the first whose end it does not exceed. */
const KINDS: readonly (readonly [last: number, kind: ValueKind])[] = [
  [9, 'text'],
  [59, 'double'],
  [79, 'int16'],
  [99, 'int32'],
  [109, 'text'],
  [149, 'double'],
  [169, 'int64'],
  [179, 'int16'],
  [239, 'double'],
  [289, 'int16'],
  [299, 'byte'],
  [309, 'text'],
  [319, 'chunk'],
  [369, 'text'],
  [389, 'int16'],
  [399, 'text'],
  [409, 'int16'],
  [419, 'text'],
  [429, 'int32'],
  [439, 'text'],
  [459, 'int32'],
  [469, 'double'],
  [999, 'text'],
  [1003, 'text'],
  [1004, 'chunk'],
  [1009, 'text'],
  [1059, 'double'],
  [1070, 'int16'],
  [1071, 'int32'],
];

/**
 * A binary DXF as the bytes of the text DXF that says the same, in the encoding of its own strings; null for any other file. What
 * cannot be read ends the text, so that the reader tells of a file that breaks off.
 * @remarks O(n) time; the text takes two to three times the file.
 */
export function binaryDxfAsText(bytes: Uint8Array): Uint8Array | null {
  const head = String.fromCharCode(...bytes.subarray(0, LONGEST_MARK));
  const at = head.indexOf(MARK_END);
  return at < 0 ? null : new BinaryGroups(bytes, at + MARK_END.length).asText();
}

class BinaryGroups {
  readonly #bytes: Uint8Array;
  readonly #view: DataView;
  readonly #isOld: boolean;
  #at: number;
  #out = new Uint8Array(1 << 16);
  #length = 0;

  constructor(bytes: Uint8Array, start: number) {
    this.#bytes = bytes;
    this.#view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
    this.#at = start;
    // The first group is `0 SECTION`: codes of two bytes have a zero more in front of the word.
    this.#isOld = bytes[start] === 0 && bytes[start + 1] !== 0;
  }

  asText(): Uint8Array {
    while (this.#at < this.#bytes.length) {
      const code = this.#code();
      const kind = code === null ? undefined : KINDS.find(([last]) => code <= last)?.[1];
      if (code === null || kind === undefined || code < 0) break;
      const mark = this.#length;
      this.#ascii(`${code}\n`);
      if (!this.#value(kind)) {
        this.#length = mark;
        break;
      }
      this.#byte(10);
    }
    return this.#out.subarray(0, this.#length);
  }

  /** One byte in files up to R12, where 255 says that two more follow; two bytes later. Null at the end. */
  #code(): number | null {
    if (!this.#isOld) return this.#take(2, (at) => this.#view.getInt16(at, true));
    const short = this.#take(1, (at) => this.#view.getUint8(at));
    return short === 255 ? this.#take(2, (at) => this.#view.getInt16(at, true)) : short;
  }

  /** Writes the value; false when the file ends within it. */
  #value(kind: ValueKind): boolean {
    switch (kind) {
      case 'text':
        return this.#text();
      case 'chunk':
        return this.#chunk();
      case 'double':
        return this.#number(8, (at) => this.#view.getFloat64(at, true));
      case 'int16':
        return this.#number(2, (at) => this.#view.getInt16(at, true));
      case 'int32':
        return this.#number(4, (at) => this.#view.getInt32(at, true));
      case 'int64':
        return this.#number(8, (at) => this.#view.getBigInt64(at, true));
      case 'byte':
        return this.#number(1, (at) => this.#view.getUint8(at));
    }
  }

  #number(size: number, read: (at: number) => number | bigint): boolean {
    const value = this.#take(size, read);
    if (value !== null) this.#ascii(String(value));
    return value !== null;
  }

  /** Up to a zero byte. Line ends within a value would end it in a text. */
  #text(): boolean {
    const end = this.#bytes.indexOf(0, this.#at);
    if (end < 0) return false;
    for (let i = this.#at; i < end; i++) {
      const byte = this.#bytes[i]!;
      this.#byte(byte === 10 || byte === 13 ? 32 : byte);
    }
    this.#at = end + 1;
    return true;
  }

  /** Bytes of other programs' data, which no drawing needs. */
  #chunk(): boolean {
    const size = this.#take(1, (at) => this.#view.getUint8(at));
    if (size === null || this.#at + size > this.#bytes.length) return false;
    this.#at += size;
    return true;
  }

  #take<T>(size: number, read: (at: number) => T): T | null {
    if (this.#at + size > this.#bytes.length) return null;
    const value = read(this.#at);
    this.#at += size;
    return value;
  }

  #ascii(text: string): void {
    for (let i = 0; i < text.length; i++) this.#byte(text.charCodeAt(i));
  }

  #byte(value: number): void {
    if (this.#length === this.#out.length) {
      const grown = new Uint8Array(2 * this.#out.length);
      grown.set(this.#out);
      this.#out = grown;
    }
    this.#out[this.#length++] = value;
  }
}
