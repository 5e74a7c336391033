import { describe, expect, it } from 'vitest';
import { dxfText, groupsText, line } from '../testing/dxf-text.ts';
import { artworkText } from './artwork-text.ts';
import { decodeText } from './decode-text.ts';
import { readArtwork } from './read-artwork.ts';

/** Bytes below 256 by hand; the two others from the tables of their code pages (Encoding Standard, WHATWG). */
const latin1 = (text: string): Uint8Array => Uint8Array.from(text, (letter) => letter.charCodeAt(0));
const utf8 = (text: string): Uint8Array => new TextEncoder().encode(text);

function utf16(text: string, isBig: boolean): Uint8Array {
  const view = new DataView(new ArrayBuffer(2 * text.length));
  for (let i = 0; i < text.length; i++) view.setUint16(2 * i, text.charCodeAt(i), !isBig);
  return new Uint8Array(view.buffer);
}

const svg = (head: string): string =>
  `${head}<svg xmlns="http://www.w3.org/2000/svg" width="50mm" height="40mm" viewBox="0 0 50 40"><rect id="möwe" width="50" height="40"/></svg>`;
const nameIn = (bytes: Uint8Array): string | null => readArtwork(bytes, { name: 'gull' }).shapes[0]!.name;
const layerIn = (bytes: Uint8Array): string | null => readArtwork(bytes, { name: 'gull' }).shapes[0]!.layer;

describe('decodeText', () => {
  it.each([
    ['UTF-8', utf8(svg(''))],
    ['UTF-8 with its mark', utf8(svg('\ufeff'))],
    ['UTF-16 little end first, with its mark', utf16(svg('\ufeff'), false)],
    ['UTF-16 big end first, with its mark', utf16(svg('\ufeff'), true)],
    ['UTF-16 little end first, without a mark', utf16(svg(''), false)],
    ['UTF-16 big end first, without a mark', utf16(svg(''), true)],
    ['UTF-16 that declares itself', utf16(svg('\ufeff<?xml version="1.0" encoding="UTF-16"?>'), false)],
    ['Latin-1 that declares itself', latin1(svg('<?xml version="1.0" encoding="ISO-8859-1"?>'))],
    ['Windows-1252 that declares itself', latin1(svg("<?xml version='1.0' encoding='windows-1252' ?>\n"))],
    ['Latin-1 that says nothing', latin1(svg(''))],
    ['Latin-1 that claims to be UTF-8', latin1(svg('<?xml version="1.0" encoding="UTF-8"?>'))],
  ])('reads a drawing in %s', (_, bytes) => {
    expect(nameIn(bytes)).toBe('möwe');
    expect(decodeText(bytes)).not.toContain('\ufeff');
  });

  it.each([
    ['that declares itself', '<?xml version="1.0" encoding="windows-1252"?>'],
    ['under the name of Latin-1, as the Encoding Standard has it', '<?xml version="1.0" encoding="ISO-8859-1"?>'],
    ['that says nothing', ''],
  ])('reads quotes, dashes and the euro sign of Windows-1252 %s', (_, head) => {
    const bytes = latin1(svg(head).replace('möwe', '\x93M\xf6we\x94 \x96 5 \x80'));
    expect(nameIn(bytes)).toBe('\u201cMöwe\u201d \u2013 5 \u20ac');
  });

  it('reads a declared code page in which letters have other bytes', () => {
    // 0xB1 is the Polish a with ogonek in ISO-8859-2, and plus-minus in Latin-1.
    const bytes = latin1(svg('<?xml version="1.0" encoding="ISO-8859-2"?>').replace('ö', '\xb1'));
    expect(nameIn(bytes)).toBe('mąwe');
  });

  it.each([
    ['ANSI_1252', '\xf6', 'ö'],
    ['ansi_1251', '\xe6', 'ж'],
    ['ANSI_932', '\x8aC', '海'],
    ['ISO8859-2', '\xb1', 'ą'],
    ['UNKNOWN', '\xf6', 'ö'],
  ])('reads the layers of a DXF by its code page %s', (page, bytes, letter) => {
    const header = groupsText([0, 'SECTION', 2, 'HEADER', 9, '$DWGCODEPAGE', 3, page, 0, 'ENDSEC']);
    const text = header + dxfText({ header: { $INSUNITS: 4 }, entities: line(0, 0, 50, 60, `m${bytes}we`) });
    expect(layerIn(latin1(text))).toBe(`m${letter}we`);
  });

  it('takes valid UTF-8 as such whatever the code page of a DXF: newer programs write both', () => {
    const header = groupsText([0, 'SECTION', 2, 'HEADER', 9, '$DWGCODEPAGE', 3, 'ANSI_1252', 0, 'ENDSEC']);
    const text = header + dxfText({ header: { $INSUNITS: 4 }, entities: line(0, 0, 50, 60, 'möwe') });
    expect(layerIn(utf8(text))).toBe('möwe');
  });

  it('reads job files with a mark', () => {
    expect(JSON.parse(decodeText(utf8('\ufeff{"name": "möwe"}')))).toEqual({ name: 'möwe' });
    expect(JSON.parse(decodeText(utf16('\ufeff{"name": "möwe"}', false)))).toEqual({ name: 'möwe' });
  });

  it('leaves bytes that are no text to the reader, which says what they are', () => {
    const picture = Uint8Array.of(0x89, 0x50, 0x4e, 0x47, 13, 10, 26, 10);
    expect(() => readArtwork(artworkText(picture), { name: 'photo' })).toThrow('photo is a bitmap');
    const packed = Uint8Array.of(0x1f, 0x8b, 8, 0);
    expect(() => readArtwork(artworkText(packed), { name: 'gull.svgz' })).toThrow('is compressed');
  });
});
