import { readArtwork } from '@underlap/artwork/read-artwork';
import { describe, expect, it } from 'vitest';
import { dxfText, type Groups, lightPolyline } from '../../packages/artwork/testing/dxf-text.ts';
import { differingShare, LETTER_FONT, letterPaths, page, pixels } from '../support/letters-against-renderer.ts';

/**
 * Texts of DXF against SVG texts that an independent renderer draws with the same font file (resvg 2.6). Group codes and meanings:
 * DXF reference, ENTITIES section; heights are those of capitals: an H of this font is 1493 units high (its glyf table).
 */
const SHARE_OF_CAPITALS = 1493 / 2048;
const board = lightPolyline(
  [
    [0, 0],
    [300, 0],
    [300, 100],
    [0, 100],
  ],
  true,
);
const dxf = (groups: Groups) => dxfText({ header: { $INSUNITS: 4 }, entities: [...board, ...groups] });
const read = (groups: Groups) => readArtwork(dxf(groups), { name: 'quay.dxf' });
const picture = (groups: Groups) => pixels(page(letterPaths(read(groups))));

/** A text with capitals `height` mm high; y upwards from the page's lower edge. */
const svg = (x: number, y: number, height: number, words: string, transform = '', attributes = '') =>
  `<text font-family="DejaVu Sans" font-size="${height / SHARE_OF_CAPITALS}" transform="translate(${x} ${100 - y}) ${transform}" ${attributes}>${words}</text>`;

const one = (...groups: Groups): Groups => [0, 'TEXT', 8, 'names', 40, 14, ...groups];

describe('texts of DXF are those of an independent renderer', () => {
  it.each<[string, Groups, string]>([
    ['a plain line', one(10, 30, 20, 40, 1, 'Old Quay'), svg(30, 40, 14, 'Old Quay')],
    ['turned', one(10, 60, 20, 30, 50, 12, 1, 'Tide'), svg(60, 30, 14, 'Tide', 'rotate(-12)')],
    [
      'to the right',
      one(10, 0, 20, 0, 11, 280, 21, 40, 72, 2, 1, 'Mole'),
      svg(280, 40, 14, 'Mole', '', 'text-anchor="end"'),
    ],
    [
      'in the middle, both ways',
      one(10, 0, 20, 0, 11, 150, 21, 50, 72, 4, 1, 'HIH'),
      svg(150, 50 - 7, 14, 'HIH', '', 'text-anchor="middle"'),
    ],
    [
      'from the top',
      one(10, 0, 20, 0, 11, 150, 21, 80, 72, 1, 73, 3, 1, 'Top'),
      svg(150, 80 - 14, 14, 'Top', '', 'text-anchor="middle"'),
    ],
    ['narrow letters', one(10, 30, 20, 40, 41, 0.6, 1, 'Narrow'), svg(30, 40, 14, 'Narrow', 'scale(0.6 1)')],
    ['backwards', one(10, 200, 20, 40, 71, 2, 1, 'Back'), svg(200, 40, 14, 'Back', 'scale(-1 1)')],
    ['slanted', one(10, 30, 20, 40, 51, 15, 1, 'Lean'), svg(30, 40, 14, 'Lean', 'skewX(-15)')],
    [
      'codes for signs',
      one(10, 30, 20, 40, 1, '45%%d %%p2 %%c8 100%%%'),
      svg(30, 40, 14, '45\u00b0 \u00b12 \u23008 100%'),
    ],
    [
      'as wide as two points are apart',
      one(10, 30, 20, 40, 11, 230, 21, 40, 72, 5, 1, 'Harbour'),
      svg(30, 40, 14, 'Harbour', '', 'textLength="200" lengthAdjust="spacingAndGlyphs"'),
    ],
    [
      'three lines, formats and escapes',
      [0, 'MTEXT', 8, '0', 10, 20, 20, 90, 40, 12, 71, 1, 3, 'Old\\Pq{\\fSeaside|b1;uay} \\{', 1, '\\}\\P\\U+00C5'],
      svg(20, 90 - 12, 12, 'Old') + svg(20, 90 - 32, 12, 'quay {}') + svg(20, 90 - 52, 12, '\u00c5'),
    ],
    [
      'lines hung in the middle, turned',
      [0, 'MTEXT', 8, '0', 10, 150, 20, 50, 11, 0, 21, 1, 40, 9, 71, 5, 44, 1.2, 1, 'AB\\PCD'],
      ['AB', 'CD']
        .map(
          (words, at) =>
            `<text font-family="DejaVu Sans" font-size="${9 / SHARE_OF_CAPITALS}" text-anchor="middle" transform="translate(150 50) rotate(-90)" x="0" y="${(9 - 18) / 2 + 18 * at}">${words}</text>`,
        )
        .join(''),
    ],
  ])('%s', (_, groups, drawn) => {
    const { ink, share } = differingShare(picture(groups), pixels(page(drawn)));
    expect(ink).toBeGreaterThan(2000);
    expect(share).toBeLessThan(0.02);
  });

  it('sees a text that stands half a millimetre higher', () => {
    const low = picture(one(10, 30, 20, 40, 1, 'Old Quay'));
    const high = pixels(page(svg(30, 40.5, 14, 'Old Quay')));
    expect(differingShare(low, high).share).toBeGreaterThan(0.02);
  });

  it('as large as two points are apart', () => {
    const groups = one(10, 30, 20, 20, 11, 270, 21, 20, 72, 3, 1, 'Mole');
    const { texts } = read(groups);
    const { advanceWidth } = LETTER_FONT.face.layout('Mole', undefined, undefined, undefined, 'ltr') as unknown as {
      advanceWidth: number;
    };
    const size = (240 / advanceWidth) * LETTER_FONT.face.unitsPerEm;
    expect(texts[0]!.layer).toBe('names');
    const drawn = `<text font-family="DejaVu Sans" font-size="${size}" x="30" y="80">Mole</text>`;
    expect(differingShare(picture(groups), pixels(page(drawn))).share).toBeLessThan(0.02);
  });
});

describe('texts of DXF without a font', () => {
  it('are told, each once, with its place; attributes are called by their tag and come with every block', () => {
    const mark = {
      name: 'mark',
      entities: [
        ...lightPolyline(
          [
            [0, 0],
            [9, 0],
            [9, 9],
          ],
          true,
        ),
        0,
        'TEXT',
        10,
        1,
        20,
        2,
        40,
        3,
        1,
        'Gull',
      ],
    };
    const insert = (x: number) => [
      0,
      'INSERT',
      2,
      'mark',
      66,
      1,
      10,
      x,
      20,
      0,
      0,
      'ATTRIB',
      8,
      '0',
      10,
      x,
      20,
      20,
      40,
      5,
      2,
      'FAMILY',
      1,
      'Holm',
      0,
      'SEQEND',
    ];
    const drawing = readArtwork(
      dxfText({ header: { $INSUNITS: 4 }, blocks: [mark], entities: [...board, ...insert(40), ...insert(80)] }),
      { name: 'marks.dxf' },
    );
    expect(drawing.complaints.map(({ code }) => code)).toEqual(['text', 'text', 'text', 'text']);
    expect(drawing.texts.map(({ name, runs }) => [name, runs[0]!.text])).toEqual([
      [null, 'Gull'],
      ['FAMILY', 'Holm'],
      [null, 'Gull'],
      ['FAMILY', 'Holm'],
    ]);
    expect(new Set(drawing.texts.map(({ id }) => id)).size).toBe(4);
    expect(drawing.texts.map(({ place }) => place.at?.x)).toEqual([41, 40, 81, 80]);
  });

  it('kinds of text that are not read stay told when a font is given', () => {
    const drawing = read([0, 'RTEXT', 8, '0', 10, 5, 20, 5, 40, 5, 1, '$(date)', ...one(10, 30, 20, 40, 1, 'Gull')]);
    expect(drawing.complaints.map(({ code }) => code)).toEqual(['text', 'text']);
    expect(drawing.texts).toHaveLength(1);
  });
});
