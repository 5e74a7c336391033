import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { readArtwork } from '@underlap/artwork/read-artwork';
import { describe, expect, it } from 'vitest';
import { LetteringError } from './error.ts';
import { openFont } from './font.ts';
import { letterDrawing } from './letter-drawing.ts';

const require = createRequire(import.meta.url);
const bytesOf = (file: string) => new Uint8Array(readFileSync(require.resolve(file)));
const SANS = bytesOf('dejavu-fonts-ttf/ttf/DejaVuSans.ttf');
const drawing = readArtwork(
  '<svg xmlns="http://www.w3.org/2000/svg" width="200mm" height="80mm" viewBox="0 0 200 80"><text y="50" font-size="30">Gull e\u0301 fi</text></svg>',
  { name: 'quay.svg' },
);

/** Letters set with a font file. */
async function lettersWith(bytes: Uint8Array, file: string) {
  const fonts = [await openFont(bytes, file)];
  return letterDrawing(drawing, { fonts, letters: 'apart', weldMm: 0, leastStrokeMm: 0.1, words: {}, rooms: {} });
}

/** A collection of one font (OpenType, 'TTC Header'): its tables' places are moved by the header's length. */
function collection(font: Uint8Array): Uint8Array {
  const header = 16;
  const out = new Uint8Array(header + font.length);
  out.set(font, header);
  const view = new DataView(out.buffer);
  view.setUint32(0, 0x74746366);
  view.setUint32(4, 0x00010000);
  view.setUint32(8, 1);
  view.setUint32(12, header);
  const tables = view.getUint16(header + 4);
  for (let at = 0; at < tables; at++) {
    const place = header + 12 + 16 * at + 8;
    view.setUint32(place, view.getUint32(place) + header);
  }
  return out;
}

describe('font files', () => {
  it.each([
    ['woff2', '@fontsource/pacifico/files/pacifico-latin-400-normal.woff2'],
    ['woff', '@fontsource/pacifico/files/pacifico-latin-400-normal.woff'],
    ['ttf', 'dejavu-fonts-ttf/ttf/DejaVuSans.ttf'],
  ])('%s is read', async (_, file) => {
    expect((await lettersWith(bytesOf(file), file)).shapes.length).toBeGreaterThanOrEqual(5);
  });

  it('of a collection the first font is taken', async () => {
    const outlines = async (bytes: Uint8Array) =>
      (await lettersWith(bytes, 'sans.ttc')).shapes.map(({ contours }) => contours);
    expect(await outlines(collection(SANS))).toEqual(await outlines(SANS));
  });

  it.each<[string, Uint8Array]>([
    ['empty', new Uint8Array()],
    ['a text', new TextEncoder().encode('family,count\nHolm,2\n')],
    ['a drawing', new TextEncoder().encode('<svg xmlns="http://www.w3.org/2000/svg"/>')],
    ['only a head', SANS.slice(0, 200)],
    ['cut off in the middle', SANS.slice(0, SANS.length / 2)],
    ['a collection without fonts', collection(SANS).fill(0, 8, 16)],
    ['a woff2 cut off', bytesOf('@fontsource/pacifico/files/pacifico-latin-400-normal.woff2').slice(0, 9000)],
  ])('%s is refused with a sentence that names the file', async (_, bytes) => {
    const outcome = await lettersWith(bytes, 'letters.ttf').then(
      (found) => found,
      (error: unknown) => error,
    );
    expect(outcome).toBeInstanceOf(LetteringError);
    expect(outcome).toMatchObject({ code: 'bad-font', place: 'letters.ttf' });
    expect((outcome as Error).message).toContain('letters.ttf');
  });
});
