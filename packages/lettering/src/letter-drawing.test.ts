import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { readArtwork } from '@underlap/artwork/read-artwork';
import { contourArea, contourBounds, shapeArea } from '@underlap/geometry/contour';
import { plainContour } from '@underlap/geometry/packed-segments';
import { shapesFromContours } from '@underlap/geometry/shapes-from-contours';
import { describe, expect, it } from 'vitest';
import { type LetterFont, openFont } from './font.ts';
import { type LetteringOptions, letterDrawing } from './letter-drawing.ts';

const require = createRequire(import.meta.url);
const fontOf = (file: string): Promise<LetterFont> =>
  openFont(new Uint8Array(readFileSync(require.resolve(file))), file);
const SANS = await fontOf('dejavu-fonts-ttf/ttf/DejaVuSans.ttf');
const BOLD = await fontOf('dejavu-fonts-ttf/ttf/DejaVuSans-Bold.ttf');
const SCRIPT = await fontOf('@fontsource/pacifico/files/pacifico-latin-400-normal.woff2');

const OPTIONS: LetteringOptions = {
  fonts: [SANS, BOLD],
  letters: 'apart',
  weldMm: 0,
  leastStrokeMm: 0.5,
  words: {},
  rooms: {},
};

const draw = (body: string) =>
  readArtwork(
    `<svg xmlns="http://www.w3.org/2000/svg" width="300mm" height="100mm" viewBox="0 0 300 100">${body}</svg>`,
    {
      name: 'quay.svg',
    },
  );
const lettered = (body: string, options: Partial<LetteringOptions> = {}) =>
  letterDrawing(draw(body), { ...OPTIONS, ...options });
const codes = (drawing: ReturnType<typeof lettered>) => drawing.complaints.map(({ code }) => code);
const boxOf = (drawing: ReturnType<typeof lettered>) => {
  const boxes = drawing.shapes.flatMap((shape) => shape.contours.map(contourBounds));
  return {
    minX: Math.min(...boxes.map((box) => box.minX)),
    maxX: Math.max(...boxes.map((box) => box.maxX)),
    minY: Math.min(...boxes.map((box) => box.minY)),
    maxY: Math.max(...boxes.map((box) => box.maxY)),
  };
};

describe('text becomes letters', () => {
  it("one shape a letter, in the text's place in the stack, and the text is not told as missing any more", () => {
    const body =
      '<rect id="a" width="300" height="90" fill="navy"/><text x="20" y="60" font-size="40">Gull</text><rect id="b" width="9" height="9" fill="red"/>';
    expect(codes(draw(body) as never)).toContain('text');
    const drawing = lettered(body);
    expect(drawing.shapes.map((shape) => shape.name)).toEqual(
      [null, 'G', 'u', 'l', 'l', null].map((n, i) => (n === null ? drawing.shapes[i]!.name : n)),
    );
    expect(drawing.shapes.map((shape) => shape.id).at(0)).toBe('a');
    expect(drawing.shapes.map((shape) => shape.id).at(-1)).toBe('b');
    expect(codes(drawing)).not.toContain('text');
  });

  it('without a font nothing is lost in silence: the text stays told', () => {
    const drawing = lettered('<rect width="9" height="9" fill="red"/><text x="20" y="60">Gull</text>', { fonts: [] });
    expect(codes(drawing)).toContain('text');
    expect(drawing.texts).toHaveLength(1);
  });

  it('advances as the font says: width of an em dash at 40 units', () => {
    // U+2014 of this font advances by a whole em (2048 of 2048 units, from the font's own hmtx table).
    const { minX: one } = boxOf(lettered('<text x="0" y="60" font-size="40">I</text>'));
    const { minX: two } = boxOf(lettered('<text x="0" y="60" font-size="40">\u00a0I</text>'));
    const space = SANS.face.layout('\u00a0', undefined, undefined, undefined, 'ltr').positions[0]!.xAdvance;
    expect(two - one).toBeCloseTo((space / SANS.face.unitsPerEm) * 40, 6);
  });

  it('kerns and makes ligatures, unless letters are spaced', () => {
    const width = (attributes: string, words: string) => {
      const { minX, maxX } = boxOf(lettered(`<text x="0" y="60" font-size="40" ${attributes}>${words}</text>`));
      return maxX - minX;
    };
    const apart = ['A', 'V'].map(
      (letter) => SANS.face.layout(letter, undefined, undefined, undefined, 'ltr').positions[0]!.xAdvance,
    );
    const plain = ((apart[0]! + apart[1]!) / SANS.face.unitsPerEm) * 40;
    expect(width('', 'AV')).toBeLessThan(plain - 1);
    expect(lettered('<text y="60" font-size="40">fi</text>').shapes).toHaveLength(1);
    expect(lettered('<text y="60" font-size="40" letter-spacing="2">fi</text>').shapes).toHaveLength(2);
    expect(width('letter-spacing="3"', 'HH') - width('', 'HH')).toBeCloseTo(3, 6);
    expect(width('word-spacing="7"', 'H H') - width('', 'H H')).toBeCloseTo(7, 6);
  });

  it('anchors, lists of places, lines and shifts', () => {
    const middle = boxOf(lettered('<text x="150" y="60" font-size="40" text-anchor="middle">HIH</text>'));
    expect((middle.minX + middle.maxX) / 2).toBeCloseTo(150, 1);
    const end = boxOf(lettered('<text x="150" y="60" font-size="40" text-anchor="end">H</text>'));
    expect(end.maxX).toBeLessThan(150);
    const listed = lettered('<text x="10 90 200" y="60" font-size="40">HHH</text>');
    const lefts = listed.shapes.map((shape) => contourBounds(shape.contours[0]!).minX);
    expect(lefts[1]! - lefts[0]!).toBeCloseTo(80, 6);
    expect(lefts[2]! - lefts[1]!).toBeCloseTo(110, 6);
    const lines = lettered('<text font-size="20"><tspan x="10" y="30">H</tspan><tspan x="10" dy="25">H</tspan></text>');
    const tops = lines.shapes.map((shape) => contourBounds(shape.contours[0]!).minY);
    expect(tops[1]! - tops[0]!).toBeCloseTo(25, 6);
  });

  it('runs from right to left where the script does', () => {
    const { glyphs } = { glyphs: lettered('<text x="10" y="60" font-size="40">\u05d0\u05d1</text>').shapes };
    const lefts = new Map(glyphs.map((shape) => [shape.name, contourBounds(shape.contours[0]!).minX]));
    expect(lefts.get('\u05d1')!).toBeLessThan(lefts.get('\u05d0')!);
  });

  it('follows a line, and tells what finds no room on it', () => {
    const arc = '<defs><path id="arc" d="M50 90 A100 100 0 0 1 250 90"/></defs>';
    const drawing = lettered(
      `${arc}<text font-size="20"><textPath href="#arc" startOffset="50%" text-anchor="middle">HARBOUR</textPath></text>`,
    );
    const boxes = drawing.shapes.map((shape) => contourBounds(shape.contours[0]!));
    const middle = boxes[3]!;
    expect((middle.minX + middle.maxX) / 2).toBeGreaterThan(130);
    expect((middle.minX + middle.maxX) / 2).toBeLessThan(170);
    expect(boxes[0]!.maxY).toBeGreaterThan(middle.maxY);
    const short = lettered(
      `<defs><path id="s" d="M0 50 H40"/></defs><text font-size="20"><textPath href="#s">HARBOUR</textPath></text>`,
    );
    expect(codes(short)).toContain('text-off-path');
  });

  it('joins the letters of a script into one part, and welds letters that do not touch', () => {
    const script = lettered('<text x="10" y="60" font-size="40">anna</text>', { fonts: [SCRIPT], letters: 'joined' });
    expect(script.shapes).toHaveLength(1);
    const found = (drawing: typeof script) =>
      shapesFromContours(drawing.shapes[0]!.contours.map(plainContour), 'nonzero').shapes.length;
    expect(found(script)).toBe(1);
    const block = lettered('<text x="10" y="60" font-size="40">HHH</text>', { letters: 'joined' });
    expect(found(block)).toBe(3);
    expect(codes(block)).toContain('loose-pieces');
    const welded = lettered('<text x="10" y="60" font-size="40">HHH</text>', { letters: 'joined', weldMm: 0.6 });
    expect(found(welded)).toBe(1);
    const sum = block.shapes[0]!.contours.reduce((total, contour) => total + Math.abs(contourArea(contour)), 0);
    const united = shapesFromContours(welded.shapes[0]!.contours.map(plainContour), 'nonzero').shapes;
    const heights = contourBounds(block.shapes[0]!.contours[0]!);
    // Each of two joints covers the weld's width over the height of an upright.
    expect(sum - shapeArea(united[0]!)).toBeCloseTo(2 * 0.6 * (heights.maxY - heights.minY), 0);
  });

  it('tells thin strokes, other fonts and missing letters', () => {
    // One sentence a text, whatever the number of letters.
    const thin = lettered('<text y="60" font-size="20">Hull</text>', { leastStrokeMm: 6 }).complaints;
    expect(thin.map(({ code }) => code)).toEqual(['thin-stroke']);
    expect(thin[0]!.message).toContain('"H", "u", "l" of "Hull": strokes are thinner than 6 mm, first near');
    expect(
      codes(lettered('<text y="60" font-size="90" font-weight="bold">H</text>', { leastStrokeMm: 6 })),
    ).not.toContain('thin-stroke');
    expect(codes(lettered('<text y="60" font-size="20" font-family="Seaside">Hull</text>'))).toContain('other-font');
    expect(codes(lettered('<text y="60" font-size="20" font-family="DejaVu Sans">Hull</text>'))).not.toContain(
      'other-font',
    );
    const missing = lettered('<text y="60" font-size="20">H\u{1f99e}</text>', { fonts: [SCRIPT] });
    expect(codes(missing)).toContain('missing-letter');
    expect(missing.shapes).toHaveLength(1);
  });

  it('fills named places and keeps them in their room', () => {
    const body = '<text id="family" x="150" y="60" font-size="40" text-anchor="middle">Name</text>';
    const room = { family: { width: 120 } };
    const short = lettered(body, { words: { family: 'Ek' }, rooms: room });
    expect(codes(short)).not.toContain('text-set-smaller');
    const long = lettered(body, { words: { family: 'Petersen' }, rooms: room });
    expect(codes(long)).toContain('text-set-smaller');
    expect(boxOf(long).maxX - boxOf(long).minX).toBeLessThanOrEqual(120 + 1e-6);
    expect((boxOf(long).maxX + boxOf(long).minX) / 2).toBeCloseTo(150, 0);
    const fill = (words: string) => () => lettered(body, { words: { family: words }, rooms: room });
    expect(fill(' ')).toThrow(expect.objectContaining({ code: 'empty-text' }));
    expect(fill('Petersen and all their cousins by the sea')).toThrow(expect.objectContaining({ code: 'too-long' }));
    expect(() => lettered(body, { words: { family: 'Ek' }, fonts: [] })).toThrow(
      expect.objectContaining({ code: 'no-font' }),
    );
  });

  it('breaks words where they are broken, the first line in the place, all of them in its room', () => {
    const body = '<text id="family" x="150" y="40" font-size="20" text-anchor="middle">Name</text>';
    const two = lettered(body, { words: { family: 'HIH\nHIH' } });
    const tops = two.shapes.map((shape) => contourBounds(shape.contours[0]!).minY);
    expect(two.shapes.map(({ name }) => name).join('')).toBe('HIHHIH');
    expect(tops[3]! - tops[0]!).toBeCloseTo(1.2 * 20, 6);
    const low = lettered(body, { words: { family: 'HIH\nHIH' }, rooms: { family: { width: 120, height: 25 } } });
    expect(boxOf(low).maxY - boxOf(low).minY).toBeCloseTo(25, 6);
    expect(boxOf(low).maxX - boxOf(low).minX).toBeLessThan(boxOf(two).maxX - boxOf(two).minX);
  });

  it('refuses what is no font', async () => {
    await expect(openFont(new TextEncoder().encode('no font'), 'name.ttf')).rejects.toMatchObject({
      code: 'bad-font',
      place: 'name.ttf',
    });
  });
});
