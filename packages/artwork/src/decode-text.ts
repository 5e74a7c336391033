/**
 * Text of a file: by its byte-order mark, else as UTF-16 where every second byte of the beginning is zero, else by the encoding
 * that an XML declaration names, else UTF-8, else (when it is not valid UTF-8, as in older files) by the code page that a DXF
 * header names, else Windows-1252, in which every byte means something. The mark itself is left out.
 * @remarks O(n). Wrong guesses can only spoil names, not geometry, which is ASCII in both formats.
 */
export function decodeText(bytes: Uint8Array): string {
  const [a, b, c] = bytes;
  if (a === 0xef && b === 0xbb && c === 0xbf)
    return decode('utf-8', bytes) ?? decode('windows-1252', bytes.subarray(3))!;
  if (a === 0xff && b === 0xfe) return decode('utf-16le', bytes)!;
  if (a === 0xfe && b === 0xff) return decode('utf-16be', bytes)!;
  const wide = unmarkedWide(bytes);
  if (wide !== null) return decode(wide, bytes)!;
  const declared = XML_ENCODING.exec(headOf(bytes, 200))?.[1];
  const told = declared === undefined || /^utf-?16/i.test(declared) ? null : decode(declared, bytes);
  return told ?? decode('utf-8', bytes) ?? decode(codePageOf(bytes), bytes) ?? decode('windows-1252', bytes)!;
}

const XML_ENCODING = /^\s*<\?xml[^>]*\sencoding\s*=\s*["']([\w.:-]+)["']/;

/** How much of a file is looked at for UTF-16 without its mark, bytes. */
const WIDE_HEAD = 64;

/** UTF-16 without a mark: all that SVG, DXF and JSON begin with is ASCII, so one byte of every pair is zero and the other is not. */
function unmarkedWide(bytes: Uint8Array): 'utf-16le' | 'utf-16be' | null {
  const length = Math.min(WIDE_HEAD, bytes.length) & ~1;
  if (length < 4) return null;
  const isZero = (odd: 0 | 1, zero: boolean): boolean => {
    for (let i: number = odd; i < length; i += 2) if ((bytes[i] === 0) !== zero) return false;
    return true;
  };
  if (isZero(1, true) && isZero(0, false)) return 'utf-16le';
  return isZero(0, true) && isZero(1, false) ? 'utf-16be' : null;
}

/** How far into a DXF its code page is looked for, bytes: the header comes first. */
const DXF_HEAD = 8192;

const DXF_CODE_PAGE = /\$DWGCODEPAGE\s*\r?\n\s*3\s*\r?\n\s*([\w-]+)/i;

/** Encodings by the numbers of code pages, where they are not `windows-` and the number. Source: Encoding Standard (WHATWG), labels. */
const CODE_PAGES: Readonly<Record<string, string>> = {
  '866': 'ibm866',
  '932': 'shift_jis',
  '936': 'gbk',
  '949': 'euc-kr',
  '950': 'big5',
};

/** The encoding that a DXF header names (`ANSI_1251`, `ISO8859-2`, ...); Windows-1252 without one. */
function codePageOf(bytes: Uint8Array): string {
  const page = DXF_CODE_PAGE.exec(headOf(bytes, DXF_HEAD))?.[1] ?? '';
  const iso = /^iso_?8859-?(\d{1,2})$/i.exec(page)?.[1];
  if (iso !== undefined) return `iso-8859-${iso}`;
  const number = /(\d+)$/.exec(page)?.[1] ?? '1252';
  return CODE_PAGES[number] ?? `windows-${number}`;
}

function headOf(bytes: Uint8Array, length: number): string {
  return String.fromCharCode(...bytes.subarray(0, length));
}

/** Windows-1252 above 0x7f, 0x80 to 0x9f, where it is not Latin-1. Source: Encoding Standard (WHATWG), index windows-1252. */
const WINDOWS_1252 =
  '\u20ac\u0081\u201a\u0192\u201e\u2026\u2020\u2021\u02c6\u2030\u0160\u2039\u0152\u008d\u017d\u008f\u0090\u2018\u2019\u201c\u201d\u2022\u2013\u2014\u02dc\u2122\u0161\u203a\u0153\u009d\u017e\u0178';

/** Bytes as Windows-1252. Node 20 leaves 0x80 to 0x9f as in Latin-1, which browsers do not: what is decoded right is not found here. */
export function windows1252(bytes: Uint8Array): string {
  const text = new TextDecoder('windows-1252').decode(bytes);
  return text.replace(/[\u0080-\u009f]/g, (letter) => WINDOWS_1252[letter.charCodeAt(0) - 0x80]!);
}

/** Null when the encoding is not known or UTF-8 is not what the bytes are. */
function decode(label: string, bytes: Uint8Array): string | null {
  try {
    const decoder = new TextDecoder(label, { fatal: /^utf-?8$/i.test(label) });
    return decoder.encoding === 'windows-1252' ? windows1252(bytes) : decoder.decode(bytes);
  } catch (error) {
    if (error instanceof RangeError || error instanceof TypeError) return null;
    throw error;
  }
}
