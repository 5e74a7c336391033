import { describe, expect, it } from 'vitest';
import { ArtworkError } from './error.ts';
import { readArtwork } from './read-artwork.ts';

const SVG =
  '<svg xmlns="http://www.w3.org/2000/svg" width="50mm" height="40mm" viewBox="0 0 50 40"><rect id="möwe" width="50" height="40"/></svg>';
const DXF = [
  '0',
  'SECTION',
  '2',
  'ENTITIES',
  '0',
  'CIRCLE',
  '8',
  '0',
  '10',
  '0',
  '20',
  '0',
  '40',
  '25',
  '0',
  'ENDSEC',
  '0',
  'EOF',
  '',
].join('\n');
const bytes = (text: string) => new TextEncoder().encode(text);
const read = (input: string | Uint8Array) => readArtwork(input, { name: 'gull' });

function codeOf(input: string | Uint8Array): string {
  try {
    read(input);
    return 'none';
  } catch (error) {
    if (!(error instanceof ArtworkError)) throw error;
    expect(error.message).toContain('gull');
    return error.code;
  }
}

/** UTF-16 with a byte-order mark. */
function utf16(text: string): Uint8Array {
  const out = new Uint8Array(2 + text.length * 2);
  out.set([0xff, 0xfe]);
  [...text].forEach((letter, i) => {
    out.set([letter.charCodeAt(0) & 255, letter.charCodeAt(0) >> 8], 2 + 2 * i);
  });
  return out;
}

describe('readArtwork', () => {
  it('tells the formats apart by content', () => {
    expect(read(SVG).format).toBe('svg');
    expect(read(`\ufeff\n${SVG}`).format).toBe('svg');
    expect(read(DXF).format).toBe('dxf');
    expect(read(`999\nmade by hand\n${DXF}`).format).toBe('dxf');
  });

  it('decodes what programs write', () => {
    expect(read(bytes(SVG)).shapes[0]!.name).toBe('möwe');
    expect(read(utf16(SVG)).shapes[0]!.name).toBe('möwe');
    const latin = Uint8Array.from([...SVG].map((letter) => letter.charCodeAt(0)));
    expect(read(latin).shapes[0]!.name).toBe('möwe');
    const declared = bytes('<?xml version="1.0" encoding="iso-8859-1"?>');
    expect(read(Uint8Array.from([...declared, ...latin])).shapes[0]!.name).toBe('möwe');
    const unknown = bytes('<?xml version="1.0" encoding="no-such-code"?>');
    expect(read(Uint8Array.from([...unknown, ...bytes(SVG)])).shapes[0]!.name).toBe('möwe');
  });

  it.each([
    ['', 'empty-drawing'],
    [' \n\t', 'empty-drawing'],
    ['a letter to the harbour master', 'not-artwork'],
    ['%PDF-1.7', 'not-artwork'],
    ['{"boards": 3}', 'not-artwork'],
    ['<!doctype html><html><p>sign</p></html>', 'not-svg'],
    ['<?xml version="1.0"?><signs/>', 'not-svg'],
    ['<', 'not-svg'],
    ['PK\x03\x04 and so on', 'compressed'],
    ['\x1f\ufffd and so on', 'compressed'],
    ['\ufffdPNG\r\n', 'binary'],
  ])('refuses %j as %s', (text, code) => {
    expect(codeOf(text)).toBe(code);
    // Bytes that a decoder has given up on cannot be had back.
    if (!text.includes('\ufffd')) expect(codeOf(bytes(text))).toBe(code);
  });

  it('refuses bytes that are no text', () => {
    expect(codeOf(new Uint8Array(5000).map((_, i) => (i * 7919) & 255))).toBe('binary');
    expect(codeOf(Uint8Array.of(0x89, 0x50, 0x4e, 0x47, 13, 10))).toBe('binary');
    expect(codeOf(Uint8Array.of(0x1f, 0x8b, 8, 0))).toBe('compressed');
  });
});
