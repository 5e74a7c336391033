import { readDxf } from '@underlap/artwork/dxf/read-dxf';
import { indexedColour } from '@underlap/artwork/indexed-colour';
import type { SheetDrawing } from '@underlap/artwork/sheet-drawing';
import { readSvg } from '@underlap/artwork/svg/read-svg';
import { writeSheetDxf } from '@underlap/artwork/write-dxf';
import { writeSheetSvg } from '@underlap/artwork/write-svg';
import { contourArea, contourBounds, contourLength } from '@underlap/geometry/contour';
import { plainContour } from '@underlap/geometry/packed-segments';
import colourTable from 'dxf/lib/util/colors.js';
import DxfParser from 'dxf-parser';
import { describe, expect, it } from 'vitest';
import { type OutsideEntity, readWithDxf, readWithDxfParser } from '../support/dxf-outsiders.ts';
import { randomSheet } from '../support/random-sheet.ts';

/*
 * Outside: the packages dxf-parser 1.1 and dxf 5.3 (development dependencies) re-read what Underlap writes. Areas and
 * lengths are taken from their vertices with textbook formulas. Group codes, $INSUNITS and bulge = tan(sweep / 4) after
 * the DXF reference.
 */

const SEEDS = Array.from({ length: 9 }, (_, i) => i + 1);

const outsiders = [
  ['dxf-parser', readWithDxfParser],
  ['dxf', readWithDxf],
] as const;

const share = (got: number, wanted: number): number => Math.abs(got - wanted) / Math.max(Math.abs(wanted), 1e-12);

/** What the sheet holds on a layer, from its exact contours. */
function totals(sheet: SheetDrawing, process: string): { area: number; length: number; count: number } {
  const paths = sheet.paths.filter((path) => path.process === process && path.role !== 'number');
  return {
    area: paths.reduce((sum, { contour }) => sum + (contour.closed ? Math.abs(contourArea(contour)) : 0), 0),
    length: paths.reduce((sum, { contour }) => sum + contourLength(contour), 0),
    count: paths.length,
  };
}

function found(entities: readonly OutsideEntity[], layer: string): { area: number; length: number; count: number } {
  const own = entities.filter((entity) => entity.layer === layer);
  return {
    area: own.reduce((sum, { areaMm2 }) => sum + areaMm2, 0),
    length: own.reduce((sum, { lengthMm }) => sum + lengthMm, 0),
    count: own.length,
  };
}

describe.each(outsiders)('exported DXF re-read by %s', (_, reread) => {
  it('has the areas and lengths of what was written, for lines and arcs exactly', () => {
    for (const seed of SEEDS) {
      const sheet = randomSheet(seed, ['line', 'arc']);
      const entities = reread(writeSheetDxf(sheet));
      for (const process of ['cut-outer', 'cut-inner', 'score']) {
        const got = found(entities, process);
        const wanted = totals(sheet, process);
        expect(got.count).toBe(wanted.count);
        if (wanted.area > 0) expect(share(got.area, wanted.area)).toBeLessThan(1e-6);
        expect(share(got.length, wanted.length)).toBeLessThan(1e-6);
      }
    }
  });

  it('has them within 1e-4 where Beziers and ellipses had to be fitted', () => {
    for (const seed of SEEDS) {
      const sheet = randomSheet(seed);
      const entities = reread(writeSheetDxf(sheet));
      for (const process of ['cut-outer', 'cut-inner']) {
        const got = found(entities, process);
        const wanted = totals(sheet, process);
        expect(got.count).toBe(wanted.count);
        expect(share(got.area, wanted.area)).toBeLessThan(1e-4);
        expect(share(got.length, wanted.length)).toBeLessThan(1e-4);
      }
    }
  });

  it('has every vertex of a polygon in its place, y up', () => {
    const corners = [
      { x: 0, y: 0 },
      { x: 60, y: 0 },
      { x: 10, y: 20 },
    ];
    const contour = {
      start: corners[0]!,
      segments: [corners[1]!, corners[2]!, corners[0]!].map((to) => ({ kind: 'line' as const, to })),
      closed: true,
    };
    const sheet = {
      ...randomSheet(1),
      widthMm: 60,
      heightMm: 40,
      paths: [{ process: 'cut-outer' as const, pieceId: 'a#1', contour }],
    };
    const [entity] = reread(writeSheetDxf(sheet));
    const got = entity!.vertices.map(({ x, y }) => `${x} ${y}`).sort();
    expect(got).toEqual(['0 40', '10 20', '60 40']);
  });

  it('notices one bulge of the wrong sign (faulty twin)', () => {
    const sheet = randomSheet(3, ['arc']);
    const text = writeSheetDxf(sheet);
    const at = text.lastIndexOf('\r\n 42\r\n') + 7;
    const spoilt = text[at] === '-' ? text.slice(0, at) + text.slice(at + 1) : `${text.slice(0, at)}-${text.slice(at)}`;
    const all = (entities: readonly OutsideEntity[]) => entities.reduce((sum, { areaMm2 }) => sum + areaMm2, 0);
    expect(share(all(reread(spoilt)), all(reread(text)))).toBeGreaterThan(1e-6);
  });
});

describe('the DXF file', () => {
  it('is R12 in mm with one layer per process, and says so', () => {
    const text = writeSheetDxf(randomSheet(1));
    const parsed = new DxfParser().parseSync(text)!;
    expect(parsed.header).toMatchObject({ $ACADVER: 'AC1009', $INSUNITS: 4 });
    expect(Object.keys(parsed.tables.layer.layers)).toEqual(['0', 'numbers', 'score', 'cut-inner', 'cut-outer']);
    const indices = Object.values(parsed.tables.layer.layers).map((layer) => layer.colorIndex);
    expect(new Set(indices).size).toBe(indices.length);
    for (const fact of [
      'units: mm',
      'kerf: compensated',
      'seed: 1',
      'sheet: 1 of 3',
      'job: harbour',
      'fit: 0.05 mm',
      'within 0.01 mm',
      'Never leave a running laser',
    ]) {
      expect(text).toContain(fact);
    }
    expect(text).toMatch(/^[\x20-\x7e\r\n]*$/);
  });

  it('carries the piece of every entity as registered extended data, and no parser stumbles over it', () => {
    const sheet = randomSheet(1);
    const text = writeSheetDxf(sheet);
    expect(text).toMatch(/APPID\r\n {2}2\r\nUNDERLAP/);
    const carried = [...text.matchAll(/1001\r\nUNDERLAP\r\n1000\r\n([^\r]+)/g)].map((match) => match[1]!);
    expect(carried.sort()).toEqual(sheet.paths.map(({ pieceId }) => pieceId).sort());
    // Source: DXF reference, 'Extended data': groups from 1000 on follow all others of their entity.
    expect(text).not.toMatch(/1000\r\n[^\r]+\r\n(?! {2}0\r)/);
    for (const [, reread] of outsiders) expect(reread(text)).toHaveLength(sheet.paths.length);
  });

  it('keeps curves: no run of tiny lines, arcs of a useful size', () => {
    for (const seed of SEEDS) {
      const sheet = randomSheet(seed);
      const entities = readWithDxfParser(writeSheetDxf(sheet)).filter(({ layer }) => layer === 'cut-outer');
      const vertices = entities.flatMap((entity) => entity.vertices);
      const drawn = sheet.paths
        .filter(({ process }) => process === 'cut-outer')
        .flatMap(({ contour }) => contour.segments);
      const straight = drawn.filter(({ kind }) => kind === 'line').length;
      // A line only where a line was drawn (a Bezier may be straight in places: none of these is).
      expect(vertices.filter(({ bulge }) => bulge === 0).length).toBeLessThanOrEqual(straight);
      expect(vertices.length / drawn.length).toBeLessThan(16);
    }
  });

  it('uses the usual colour numbers', () => {
    // Number 7 (black on a drawing) and 8, 9 differ by background and program; the darker levels by rounding.
    for (let index = 1; index < 250; index++) {
      if (index >= 7 && index <= 9) continue;
      const outside = colourTable[index]!;
      const own = [1, 3, 5].map((at) => Number.parseInt(indexedColour(index).slice(at, at + 2), 16));
      for (const [channel, value] of own.entries()) expect(Math.abs(value - outside[channel]!)).toBeLessThanOrEqual(1);
    }
  });
});

describe('SVG -> DXF -> SVG', () => {
  it('keeps area and length of every outline within 1e-4, and its place', () => {
    for (const seed of SEEDS) {
      const sheet = randomSheet(seed);
      const before = readSvg(writeSheetSvg(sheet), { name: 'sheet.svg', repair: false });
      const drawn = before.shapes.flatMap(({ contours }) => contours).filter(({ closed }) => closed);
      const through = readDxf(writeSheetDxf(sheet), { name: 'sheet.dxf', repair: false });
      const paths = through.shapes.map((shape) => ({
        process: 'cut-outer' as const,
        pieceId: shape.id,
        contour: plainContour(shape.contours[0]!),
      }));
      const after = readSvg(writeSheetSvg({ ...sheet, paths }), { name: 'again.svg', repair: false });
      const got = after.shapes.flatMap(({ contours }) => contours).filter(({ closed }) => closed);
      expect(got).toHaveLength(drawn.length);
      // Another writer may order the outlines otherwise: compare by size.
      const key = (contours: typeof drawn) =>
        [...contours].sort((a, b) => Math.abs(contourArea(a)) - Math.abs(contourArea(b)));
      const [was, is] = [key(drawn), key(got)];
      const corner = (contours: typeof drawn) => {
        const boxes = contours.map(contourBounds);
        return { x: Math.min(...boxes.map(({ minX }) => minX)), y: Math.min(...boxes.map(({ minY }) => minY)) };
      };
      const [from, to] = [corner(drawn), corner(got)];
      was.forEach((contour, i) => {
        expect(share(contourArea(is[i]!) ** 2, contourArea(contour) ** 2)).toBeLessThan(2e-4);
        expect(share(contourLength(is[i]!), contourLength(contour))).toBeLessThan(1e-4);
        const [a, b] = [contourBounds(contour), contourBounds(is[i]!)];
        expect(Math.abs(a.minX - from.x - (b.minX - to.x))).toBeLessThan(0.02);
        expect(Math.abs(a.minY - from.y - (b.minY - to.y))).toBeLessThan(0.02);
      });
    }
  });

  it('notices a mirrored sheet (faulty twin)', () => {
    const sheet = randomSheet(5);
    const mirrored = readDxf(
      writeSheetDxf(sheet).replace(/( 10\r\n)(-?[\d.]+)/g, (_all, code, x) => `${code}${-Number(x)}`),
      { name: 'mirrored.dxf', repair: false },
    );
    const straight = readDxf(writeSheetDxf(sheet), { name: 'sheet.dxf', repair: false });
    const left = (drawing: typeof straight) => drawing.shapes.map(({ contours }) => contourBounds(contours[0]!).minX);
    const off = left(straight).reduce((most, x, i) => Math.max(most, Math.abs(x - left(mirrored)[i]!)), 0);
    expect(off).toBeGreaterThan(1);
  });
});
