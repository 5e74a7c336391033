import { createHash } from 'node:crypto';
import { DEFAULT_SHEET_STYLE } from '@underlap/artwork/process-style';
import type { SheetDrawing, SheetPath } from '@underlap/artwork/sheet-drawing';
import { writeSheetDxf } from '@underlap/artwork/write-dxf';
import { writeSheetSvg } from '@underlap/artwork/write-svg';
import { polylineContour } from '@underlap/geometry/contour';
import type { Contour } from '@underlap/geometry/curve';
import { nest } from '@underlap/nest/nest';
import type { NestPiece, NestProblem } from '@underlap/nest/problem';
import { describe, expect, it } from 'vitest';

/**
 * Results that nothing was meant to change. A change that is meant replaces the checksum in the same commit, and says why there.
 */
const sumOf = (text: string): string => createHash('sha256').update(text).digest('hex').slice(0, 16);

const corner = (width: number, height: number, thick: number): Float64Array =>
  Float64Array.of(0, 0, width, 0, width, thick, thick, thick, thick, height, 0, height);

const piece = (id: string, outer: Float64Array, quantity: number): NestPiece => ({
  id,
  region: { outer, holes: [] },
  outline: null,
  quantity,
  turns: 'quarter',
  baseTurnDeg: 0,
  mayMirror: false,
  keepsGrain: false,
  groups: [],
});

const problem: NestProblem = {
  pieces: [
    piece('jetty', corner(120, 90, 30), 7),
    piece('mast', corner(70, 140, 25), 7),
    piece('buoy', corner(60, 50, 40), 9),
  ],
  stock: [
    {
      id: 'board',
      outline: { outer: Float64Array.of(0, 0, 300, 0, 300, 200, 0, 200), holes: [] },
      count: null,
      price: 1,
      forbidden: [],
      hasGrain: false,
    },
  ],
  // biome-ignore lint/suspicious/noThenProperty: a word in the nester's contract; nobody awaits rules
  rules: { spacing: 2, margin: 5, aim: 'fewest-boards', then: 'largest-offcut' },
  pinned: [],
};

const circle = (x: number, y: number, radius: number): Contour => ({
  start: { x: x + radius, y },
  segments: [{ kind: 'arc', to: { x: x + radius, y }, centre: { x, y }, radius, sweep: 2 * Math.PI }],
  closed: true,
});
const boat: Contour = {
  start: { x: 90, y: 30 },
  segments: [
    { kind: 'line', to: { x: 120, y: 30 } },
    { kind: 'cubic', c1: { x: 118, y: 50 }, c2: { x: 112, y: 60 }, to: { x: 105, y: 62 } },
    { kind: 'cubic', c1: { x: 97, y: 58 }, c2: { x: 91, y: 48 }, to: { x: 90, y: 30 } },
  ],
  closed: true,
};
const paths: readonly SheetPath[] = [
  { process: 'cut-outer', pieceId: 'boat#1', contour: boat },
  { process: 'cut-outer', pieceId: 'buoy#1', contour: circle(40, 50, 20) },
  { process: 'cut-inner', pieceId: 'buoy#1', contour: circle(40, 50, 5) },
  {
    process: 'score',
    pieceId: 'buoy#1',
    contour: polylineContour(Float64Array.of(30, 60, 50, 60), false),
    role: 'guide',
  },
];
const sheet: SheetDrawing = {
  title: 'harbour, sheet 1 of 1',
  job: 'harbour',
  sheetNumber: 1,
  sheetCount: 1,
  widthMm: 150,
  heightMm: 100,
  seed: 1,
  kerfState: 'compensated',
  kerfMm: 0.2,
  toleranceMm: 0.01,
  paths,
};

describe('results that nothing was meant to change', () => {
  it.each([
    ['quick', '4bb8d05f40974b0f'],
    [1, 'd25c07760c7e1f41'],
  ] as const)('has the same layout at effort %s', async (effort, sum) => {
    const { layout } = await nest(problem, effort, { seed: 1 });
    const places = layout.sheets.map(({ placements }) =>
      placements.map(
        ({ pieceId, copy, x, y, turnDeg }) => `${pieceId}#${copy} ${x.toFixed(4)} ${y.toFixed(4)} ${turnDeg}`,
      ),
    );
    expect(sumOf(JSON.stringify(places))).toBe(sum);
  });

  it('has the same sheets', () => {
    expect(sumOf(writeSheetSvg(sheet, DEFAULT_SHEET_STYLE))).toBe('c7946aa2b748f7b7');
    expect(sumOf(writeSheetDxf(sheet, DEFAULT_SHEET_STYLE))).toBe('71a2cab5cab10889');
  });
});
