import { DEFAULT_SHEET_STYLE } from '@underlap/artwork/process-style';
import type { SheetDrawing } from '@underlap/artwork/sheet-drawing';
import { polylineContour } from '@underlap/geometry/contour';
import type { Contour } from '@underlap/geometry/curve';
import { describe, expect, it } from 'vitest';
import { jobFrom } from './parse-job.ts';
import { proveFiles } from './prove-files.ts';
import type { CutFile } from './sheet-drawings.ts';
import { SHEET_FORMATS } from './sheet-formats.ts';

const circle = (x: number, radius: number): Contour => ({
  start: { x: x + radius, y: 50 },
  segments: [
    { kind: 'arc', to: { x: x - radius, y: 50 }, centre: { x, y: 50 }, radius, sweep: Math.PI },
    { kind: 'arc', to: { x: x + radius, y: 50 }, centre: { x, y: 50 }, radius, sweep: Math.PI },
  ],
  closed: true,
});
/** A boat of a line and two Beziers, as drawn. */
const boat: Contour = {
  start: { x: 90, y: 30 },
  segments: [
    { kind: 'line', to: { x: 120, y: 30 } },
    { kind: 'cubic', c1: { x: 118, y: 50 }, c2: { x: 112, y: 60 }, to: { x: 105, y: 62 } },
    { kind: 'cubic', c1: { x: 97, y: 58 }, c2: { x: 91, y: 48 }, to: { x: 90, y: 30 } },
  ],
  closed: true,
};
const square = polylineContour(Float64Array.of(45, 45, 45, 55, 55, 55, 55, 45), true);
const number = polylineContour(Float64Array.of(30, 50, 35, 50), false);

const drawing: SheetDrawing = {
  title: 'test',
  job: 'test',
  sheetNumber: 1,
  sheetCount: 1,
  widthMm: 130,
  heightMm: 100,
  seed: 1,
  kerfState: 'compensated',
  kerfMm: 0.2,
  toleranceMm: 0.01,
  paths: [
    { process: 'score', pieceId: 'a & b#1', contour: number, role: 'number' },
    { process: 'cut-inner', pieceId: 'a & b#1', contour: square, role: 'part' },
    { process: 'cut-outer', pieceId: 'a & b#1', contour: circle(50, 30), role: 'part' },
    { process: 'cut-outer', pieceId: 'boat#1', contour: boat, role: 'part' },
  ],
};

const job = jobFrom({ bed: '140x120', boards: ['130x100'], spacing: 2, margin: 5 }, 'test');
const cutOf = (meant: SheetDrawing): CutFile => ({
  name: 'test-sheet-01',
  drawing: meant,
  sheets: [0],
  loading: {
    number: 1,
    count: 1,
    kind: 'whole',
    page: { minX: 0, minY: 0, maxX: 130, maxY: 100 },
    isTurned: false,
    widthMm: 130,
    heightMm: 100,
    copies: [
      { pieceId: 'a & b', copy: 1 },
      { pieceId: 'boat', copy: 1 },
    ],
    board: { minX: 0, minY: 0, maxX: 130, maxY: 100 },
    move: null,
  },
});

/** What is written is one drawing, what is meant is another. */
async function prove(format: 'svg' | 'dxf' | 'pdf', written: SheetDrawing, by = job): Promise<void> {
  const content = await SHEET_FORMATS[format].write(written, DEFAULT_SHEET_STYLE);
  await proveFiles(new Map([[`test-sheet-01.${format}`, content]]), [cutOf(drawing)], by);
}

const withPath = (at: number, change: Partial<SheetDrawing['paths'][number]>): SheetDrawing => ({
  ...drawing,
  paths: drawing.paths.map((path, index) => (index === at ? { ...path, ...change } : path)),
});
const without = (at: number): SheetDrawing => ({ ...drawing, paths: drawing.paths.filter((_, index) => index !== at) });

describe.each(['svg', 'dxf', 'pdf'] as const)('the proof of a written %s', (format) => {
  it('accepts what the writer wrote', async () => {
    await expect(prove(format, drawing)).resolves.toBeUndefined();
  });

  // Its faulty twins.
  it.each<[string, SheetDrawing, RegExp]>([
    ['another size', { ...drawing, widthMm: 129 }, /true size/],
    ['a lost hole', without(1), /1 outlines too few/],
    ['a lost mark', without(0), /1 outlines too few/],
    ['an outline too many', { ...drawing, paths: [...drawing.paths, drawing.paths[3]!] }, /1 outlines too many/],
    ['a wrong process', withPath(0, { process: 'engrave', role: 'part' }), /too (few|many)/],
    [
      'a moved mark',
      withPath(0, { contour: polylineContour(Float64Array.of(30, 50.03, 35, 50.03), false) }),
      /not as meant/,
    ],
    ['a moved piece', withPath(2, { contour: circle(50.03, 30) }), /near 20\.0, 20\.0 mm is not as meant/],
    ['a wrong scale', withPath(2, { contour: circle(50, 30.03) }), /not as meant/],
    ['an open outline', withPath(1, { contour: { ...square, closed: false } }), /not as meant/],
  ])('refuses %s', async (_, faulty, sentence) => {
    await expect(prove(format, faulty)).rejects.toThrow(sentence);
  });

  it('refuses pieces nearer to one another, or to the edge, than was asked', async () => {
    // the boat lies some 11 mm from the disc and 10 mm from the edge
    const near = jobFrom({ bed: '140x120', boards: ['130x100'], spacing: 13, margin: 5 }, 'test');
    await expect(prove(format, drawing, near)).rejects.toThrow(/ mm apart instead of 13 mm/);
    const edge = jobFrom({ bed: '140x120', boards: ['130x100'], spacing: 2, margin: 10.05 }, 'test');
    await expect(prove(format, drawing, edge)).rejects.toThrow(/nearer to the edge than the margin/);
  });

  it('refuses a file that one loading cannot reach', async () => {
    const small = jobFrom({ bed: '130x99', boards: ['130x100'] }, 'test');
    await expect(prove(format, drawing, small)).rejects.toThrow(/more than the bed reaches at one loading/);
  });
});
