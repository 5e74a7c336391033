import { DEFAULT_SHEET_STYLE } from '@underlap/artwork/process-style';
import type { SheetDrawing } from '@underlap/artwork/sheet-drawing';
import { writeSheetSvg } from '@underlap/artwork/write-svg';
import { polylineContour } from '@underlap/geometry/contour';
import type { Contour } from '@underlap/geometry/curve';
import { describe, expect, it } from 'vitest';
import { jobFrom } from './parse-job.ts';
import { proveFiles } from './prove-files.ts';
import type { CutFile } from './sheet-drawings.ts';

const circle: Contour = {
  start: { x: 80, y: 50 },
  segments: [
    { kind: 'arc', to: { x: 20, y: 50 }, centre: { x: 50, y: 50 }, radius: 30, sweep: Math.PI },
    { kind: 'arc', to: { x: 80, y: 50 }, centre: { x: 50, y: 50 }, radius: 30, sweep: Math.PI },
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
  widthMm: 100,
  heightMm: 100,
  seed: 1,
  kerfState: 'compensated',
  kerfMm: 0.2,
  toleranceMm: 0.01,
  paths: [
    { process: 'score', pieceId: 'a#1', contour: number, role: 'number' },
    { process: 'cut-inner', pieceId: 'a#1', contour: square, role: 'part' },
    { process: 'cut-outer', pieceId: 'a#1', contour: circle, role: 'part' },
  ],
};

const job = jobFrom({ bed: '120x120', boards: ['100x100'] }, 'test');
const cut = { name: 'test-sheet-01', drawing, sheets: [0] } as unknown as CutFile;
const prove = (text: string) => proveFiles(new Map([['test-sheet-01.svg', text]]), [cut], job);

describe('the proof of written sheets', () => {
  const text = writeSheetSvg(drawing, DEFAULT_SHEET_STYLE);

  it('accepts what the writer wrote', () => {
    expect(() => prove(text)).not.toThrow();
  });

  // Its faulty twins: a wrong size, a lost outline, a moved one, one with another radius.
  it.each([
    ['another size', text.replace('width="100mm"', 'width="99mm"'), /true size/],
    ['a lost outline', text.replace(/<path[^>]*d="M45 45[^>]*>/, ''), /not hold what was meant/],
    ['a moved outline', text.replace('M45 45', 'M45.01 45'), /near 45\.0, 45\.0 mm/],
    ['a scaled circle', text.replaceAll('A30 30', 'A31 31'), /not hold what was meant/],
  ])('refuses %s', (_, faulty, sentence) => {
    expect(faulty).not.toBe(text);
    expect(() => prove(faulty)).toThrow(sentence);
  });

  it('refuses a file that one loading cannot reach', () => {
    const small = jobFrom({ bed: '100x99', boards: ['100x100'] }, 'test');
    expect(() => proveFiles(new Map([['test-sheet-01.svg', text]]), [cut], small)).toThrow(/not lie within the bed/);
  });
});
