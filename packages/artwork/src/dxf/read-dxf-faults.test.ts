import { describe, expect, it } from 'vitest';
import { box, codes, entities, length, MM, read } from '../../testing/dxf-reading.ts';
import { dxfText, lightPolyline, line, spline } from '../../testing/dxf-text.ts';
import { ArtworkError } from '../error.ts';
import { readDxf } from './read-dxf.ts';

describe('what is not read is told', () => {
  it.each([
    ['TEXT', 'text'],
    ['MTEXT', 'text'],
    ['DIMENSION', 'dimension'],
    ['IMAGE', 'bitmap'],
    ['MPOLYGON', 'filled-area'],
    ['3DFACE', 'three-d'],
    ['POINT', 'construction'],
    ['SEXTANT', 'unknown-element'],
  ])('%s', (type, code) => {
    const drawing = entities([...lightPolyline(box, true), 0, type, 8, '0', 10, 5, 20, 10, 1, 'pier']);
    expect(drawing.shapes).toHaveLength(1);
    expect(drawing.complaints).toHaveLength(1);
    expect(drawing.complaints[0]).toMatchObject({ code, place: { at: { x: 5, y: 20 } } });
  });

  it('HATCH, at its boundary and not at its height point', () => {
    const hatch = [
      0,
      'HATCH',
      8,
      '0',
      10,
      0,
      20,
      0,
      30,
      0,
      91,
      1,
      92,
      2,
      93,
      3,
      10,
      5,
      20,
      10,
      10,
      9,
      20,
      10,
      10,
      9,
      20,
      20,
    ];
    const drawing = entities([...lightPolyline(box, true), ...hatch]);
    expect(drawing.complaints).toMatchObject([{ code: 'hatch', place: { at: { x: 5, y: 20 } } }]);
  });

  it('attributes once, not also as the block defines them', () => {
    const mark = { name: 'mark', entities: [...lightPolyline(box, true), 0, 'ATTDEF', 10, 1, 20, 1, 2, 'NAME'] };
    const insert = [0, 'INSERT', 2, 'mark', 66, 1, 10, 0, 20, 0, 0, 'ATTRIB', 10, 1, 20, 1, 1, 'pier', 0, 'SEQEND'];
    expect(codes(read({ blocks: [mark], entities: insert }))).toEqual(['text']);
  });

  it('names a file with nothing but text', () => {
    expect(() => entities([0, 'TEXT', 10, 0, 20, 0, 40, 5, 1, 'pier'])).toThrow(/nothing to cut.*outlines/);
  });

  it('tells of height, wide lines, tilted planes and meshes', () => {
    const drawing = entities([
      ...lightPolyline(box, true),
      ...[0, 'LINE', 10, 0, 20, 0, 30, 0, 11, 10, 21, 0, 31, 50],
      ...[0, 'CIRCLE', 10, 0, 20, 0, 40, 5, 210, 1, 220, 0, 230, 0],
      ...[0, 'POLYLINE', 70, 64, 0, 'VERTEX', 10, 0, 20, 0, 70, 192, 0, 'SEQEND'],
      ...[0, 'LWPOLYLINE', 43, 3, 70, 0, 10, 0, 20, 50, 10, 10, 20, 50],
    ]);
    expect(codes(drawing)).toEqual(['not-flat', 'tilted', 'three-d', 'wide-line']);
  });
});

describe('hostile and broken files', () => {
  const text = dxfText({ header: MM, entities: [...lightPolyline(box, true), ...line(0, 0, 50, 60)] });

  it.each([
    ['', 'not-dxf'],
    ['a boat\non a wave', 'not-dxf'],
    ['  0\nSECTION\n  2\nENTITIES\n  0\nENDSEC\n  0\nEOF\n', 'empty-drawing'],
    ['AnyProgram Binary DXF\r\n\x1a\0', 'binary'],
    ['\0\x01\x02', 'binary'],
    ['  0\nSECTION\n  2\nENTITIES\nxyz\n', 'broken-dxf'],
  ])('%j is refused as %s', (bad, code) => {
    try {
      readDxf(bad, { name: 'bad.dxf' });
      expect.unreachable();
    } catch (error) {
      expect(error).toBeInstanceOf(ArtworkError);
      expect((error as ArtworkError).code).toBe(code);
    }
  });

  it('reads what came before a file breaks off, and says that it does', () => {
    const drawing = readDxf(text.slice(0, text.indexOf('ENDSEC', text.indexOf('LWPOLYLINE'))), { name: 'cut off' });
    expect(drawing.shapes.length).toBeGreaterThan(0);
    expect(codes(drawing)).toContain('truncated');
    const broken = readDxf(text.replace(/ {2}0\nLINE/, 'oops\nLINE'), { name: 'broken' });
    expect(broken.complaints[0]).toMatchObject({
      code: 'broken-dxf',
      place: { element: expect.stringMatching(/^line \d+$/) },
    });
  });

  it.each(['NaN', 'Infinity', '1e308', '1e400', 'twelve', '', '0x10000000000000'])(
    'a coordinate of "%s" is told, not used',
    (bad) => {
      const drawing = entities([...lightPolyline(box, true), 0, 'LINE', 10, bad, 20, 0, 11, 5, 21, 5]);
      expect(drawing.shapes).toHaveLength(1);
      expect(codes(drawing)).toEqual(['non-finite']);
    },
  );

  it('leaves out a stray beyond all reach', () => {
    const drawing = entities([...lightPolyline(box, true), ...line(0, 0, 1, 1), ...line(1e10, 0, 1e10, 5)]);
    expect(drawing.size).toMatchObject({ widthMm: 40, heightMm: 30 });
    expect(codes(drawing)).toContain('out-of-range');
  });

  it('reads any kind of line ends, comments and blanks', () => {
    const expected = readDxf(text, { name: 'x' });
    for (const variant of [
      text.replace(/\n/g, '\r\n'),
      text.replace(/\n/g, '\r'),
      `999\na comment\n${text}`,
      `\ufeff${text}`,
      text.replace(/ {2}0\nLINE/, '  0 \n LINE '),
    ]) {
      expect(readDxf(variant, { name: 'x' }).shapes.map(length)).toEqual(expected.shapes.map(length));
    }
  });

  it('refuses splines whose numbers do not fit together', () => {
    const wrong = spline({
      degree: 3,
      knots: [0, 0, 0, 1, 1, 1],
      controls: [
        [0, 0],
        [1, 1],
        [2, 0],
        [3, 1],
      ],
    });
    expect(codes(entities([...lightPolyline(box, true), ...wrong]))).toEqual(['broken-shape']);
  });

  it('reads the same text to the same ids every time, each once', () => {
    const many = dxfText({ entities: [...line(0, 0, 10, 0), 5, 'A1', ...line(50, 0, 60, 0), 5, 'A1'] });
    const ids = readDxf(many, { name: 'x' }).shapes.map(({ id }) => id);
    expect(ids).toEqual(['line-A1', 'line-A1~2']);
  });
});

it('a circle of 1e-15 alone is refused with a sentence', () => {
  expect(() => entities([0, 'CIRCLE', 8, '0', 10, 50, 20, 50, 40, 1e-15])).toThrow(
    /nothing to cut: CIRCLE.*smaller than 0\.005 mm/,
  );
});
