/**
 * Text of a file: by its byte-order mark, else by the encoding that an XML declaration names, else UTF-8, else (when it is
 * not valid UTF-8, as in older DXF files) Windows-1252, in which every byte means something.
 * @remarks O(n). Wrong guesses can only spoil names, not geometry, which is ASCII in both formats.
 */
export function decodeText(bytes: Uint8Array): string {
  const [a, b, c] = bytes;
  if (a === 0xef && b === 0xbb && c === 0xbf) return decode('utf-8', bytes)!;
  if (a === 0xff && b === 0xfe) return decode('utf-16le', bytes)!;
  if (a === 0xfe && b === 0xff) return decode('utf-16be', bytes)!;
  const head = String.fromCharCode(...bytes.subarray(0, 200));
  const declared = /^\s*<\?xml[^>]*\sencoding\s*=\s*["']([\w.:-]+)["']/.exec(head)?.[1];
  const told = declared === undefined || /^utf-?16/i.test(declared) ? null : decode(declared, bytes);
  return told ?? decode('utf-8', bytes) ?? decode('windows-1252', bytes)!;
}

/** Null when the encoding is not known or UTF-8 is not what the bytes are. */
function decode(label: string, bytes: Uint8Array): string | null {
  try {
    return new TextDecoder(label, { fatal: /^utf-?8$/i.test(label) }).decode(bytes);
  } catch (error) {
    if (error instanceof RangeError || error instanceof TypeError) return null;
    throw error;
  }
}
