import { artworkText } from './artwork-text.ts';
import { windows1252 } from './decode-text.ts';
import type { Drawing, ReadOptions } from './drawing.ts';
import { readDxf } from './dxf/read-dxf.ts';
import { ArtworkError, type ArtworkErrorCode } from './error.ts';
import { readSvg } from './svg/read-svg.ts';

/** Files larger than this are not even decoded, bytes. */
const MAX_BYTES = 128_000_000;

/** How much of the text is looked at to tell what it is, characters. */
const HEAD = 4096;

/** Share of control characters from which on a file is no text. */
const BINARY_SHARE = 0.02;

/** First characters of files that makers take for drawings, and what to do with them. */
const KNOWN_OTHERS: readonly {
  readonly starts: readonly string[];
  readonly code: ArtworkErrorCode;
  readonly advice: string;
}[] = [
  { starts: ['\x1f\x8b'], code: 'compressed', advice: 'is compressed: unpack it first (an .svgz becomes an .svg)' },
  { starts: ['PK\x03\x04'], code: 'compressed', advice: 'is an archive: unpack it and choose the SVG or DXF in it' },
  {
    starts: ['\x89PNG', '\xff\xd8\xff', 'GIF8', 'BM', 'II*\0', 'MM\0*'],
    code: 'binary',
    advice: 'is a bitmap: trace it to paths in a drawing program and save it as SVG',
  },
  {
    starts: ['%PDF', '%!PS'],
    code: 'not-artwork',
    advice: 'is a print file: open it in a drawing program and save it as SVG or DXF',
  },
];

/**
 * Read artwork of either format, told apart by its content and not by its file name.
 * @param input - the file's bytes, or its text when it has been decoded already.
 * @throws ArtworkError `not-artwork`, `binary`, `compressed`, `too-large`, and whatever `readSvg` and `readDxf` throw.
 */
export function readArtwork(input: string | Uint8Array, options: ReadOptions): Drawing {
  const head = typeof input === 'string' ? input.slice(0, HEAD) : String.fromCharCode(...input.subarray(0, HEAD));
  const other = KNOWN_OTHERS.find(({ starts }) =>
    starts.some((start) => spellings(start).some((spelling) => head.startsWith(spelling))),
  );
  if (other !== undefined) throw new ArtworkError(other.code, `${options.name} ${other.advice}`);
  if (input.length > MAX_BYTES) {
    const size = `${Math.round(input.length / 1e6)} MB`;
    throw new ArtworkError('too-large', `${options.name} is ${size}, more than a drawing needs: simplify it`);
  }
  const text = typeof input === 'string' ? input : artworkText(input);
  const start = text.slice(0, HEAD);
  if (start.trim() === '') throw new ArtworkError('empty-drawing', `${options.name} is empty`);
  if (isBinary(start)) {
    throw new ArtworkError('binary', `${options.name} is no text: choose the artwork as an SVG or a text DXF file`);
  }
  if (/^\uFEFF?\s*</.test(start) || start.includes('<svg')) return readSvg(text, options);
  // A DXF begins with a group code on a line of its own.
  if (/^\uFEFF?\s*\d{1,4}[ \t]*\r?\n/.test(start) || start.includes('SECTION')) return readDxf(text, options);
  throw new ArtworkError(
    'not-artwork',
    `${options.name} is neither SVG nor DXF: save the artwork in one of these formats`,
  );
}

/** The bytes, and what the decoders of UTF-8 and of Windows-1252 make of them. */
function spellings(start: string): string[] {
  const bytes = Uint8Array.from(start, (letter) => letter.charCodeAt(0));
  const lost = [...start].map((letter) => (letter > '\x7f' ? '\ufffd' : letter)).join('');
  return [start, lost, windows1252(bytes)];
}

/** Control characters, and what a decoder puts where bytes were no text. */
function isBinary(text: string): boolean {
  let strange = 0;
  for (let i = 0; i < text.length; i++) {
    const code = text.charCodeAt(i);
    if (code === 0) return true;
    if ((code < 32 && code !== 9 && code !== 10 && code !== 12 && code !== 13) || code === 0xfffd) strange++;
  }
  return strange > BINARY_SHARE * text.length;
}
