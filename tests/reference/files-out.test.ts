import { DEFAULT_SHEET_STYLE, sheetStyle } from '@underlap/artwork/process-style';
import type { SheetDrawing, SheetPath } from '@underlap/artwork/sheet-drawing';
import { CUTTING_ORDER } from '@underlap/artwork/sheet-drawing';
import { readSvg } from '@underlap/artwork/svg/read-svg';
import { writeSheetPdf } from '@underlap/artwork/write-pdf';
import { writeSheetSvg } from '@underlap/artwork/write-svg';
import { contourArea, transformContour } from '@underlap/geometry/contour';
import type { Contour } from '@underlap/geometry/curve';
import { flattenContour } from '@underlap/geometry/flatten';
import { decodePDFRawStream, PDFDict, PDFDocument, PDFHexString, PDFName, PDFRawStream } from 'pdf-lib';
import { describe, expect, it } from 'vitest';
import { inked, pdfPicture } from '../support/pdf-picture.ts';
import { randomSheet } from '../support/random-sheet.ts';
import { rasterArea } from '../support/raster-area.ts';

/*
 * Outside: @resvg/resvg-js 2.6 shows the SVG, PDFium (by @hyzyla/pdfium 2.1) shows the PDF; the coverage of their pixels
 * against exact areas. 1 in = 25.4 mm = 96 px (CSS Values and Units) = 72 pt (ISO 32000-1).
 */

const SEEDS = [1, 2, 3, 4];
const PIXELS = 1600;
const POINTS_PER_MM = 72 / 25.4;

const share = (got: number, wanted: number): number => Math.abs(got - wanted) / wanted;

function areaOf(sheet: SheetDrawing, process: string): number {
  return sheet.paths
    .filter((path) => path.process === process)
    .reduce((sum, { contour }) => sum + Math.abs(contourArea(contour)), 0);
}

/** The SVG with one process alone, filled. */
function filled(svg: string, process: string): string {
  return svg.replace(/<g [^>]*data-process="([^"]+)"[^>]*>([\s\S]*?)<\/g>/g, (_all, name: string, paths: string) =>
    name === process ? `<g fill="black">${paths}</g>` : '',
  );
}

/** The same pieces as engraved areas with their holes: the one process that every format fills. */
function asAreas(sheet: SheetDrawing): SheetDrawing {
  const outers = sheet.paths.filter(({ process }) => process === 'cut-outer');
  const paths = outers.map((outer): SheetPath => {
    const holes = sheet.paths.filter((path) => path.process === 'cut-inner' && path.pieceId === outer.pieceId);
    return {
      process: 'engrave',
      pieceId: outer.pieceId,
      contour: outer.contour,
      holes: holes.map((hole) => hole.contour),
    };
  });
  return { ...sheet, paths };
}

const netArea = (sheet: SheetDrawing) => areaOf(sheet, 'cut-outer') - areaOf(sheet, 'cut-inner');

describe('SVG shown by an independent renderer', () => {
  it('covers the area of the pieces', () => {
    for (const seed of SEEDS) {
      const sheet = randomSheet(seed);
      const svg = writeSheetSvg(sheet);
      const perPixel = (sheet.widthMm / PIXELS) ** 2;
      for (const process of ['cut-outer', 'cut-inner']) {
        expect(share(rasterArea(filled(svg, process), PIXELS) * perPixel, areaOf(sheet, process))).toBeLessThan(1e-3);
      }
      expect(share(rasterArea(writeSheetSvg(asAreas(sheet)), PIXELS) * perPixel, netArea(sheet))).toBeLessThan(1e-3);
    }
  });

  it('notices a piece that is 0.2 % too large (faulty twin)', () => {
    const sheet = randomSheet(1);
    const grown = sheet.paths.map((path) => ({ ...path, contour: scaledAboutStart(path.contour, 1.001) }));
    const perPixel = (sheet.widthMm / PIXELS) ** 2;
    const got = rasterArea(filled(writeSheetSvg({ ...sheet, paths: grown }), 'cut-outer'), PIXELS) * perPixel;
    expect(share(got, areaOf(sheet, 'cut-outer'))).toBeGreaterThan(1e-3);
  });

  it('is read back by the reader with the same areas, in true size', () => {
    for (const seed of SEEDS) {
      const sheet = randomSheet(seed);
      const drawing = readSvg(writeSheetSvg(sheet), { name: 'sheet.svg', repair: false });
      expect(drawing.size).toMatchObject({ kind: 'known', source: 'file' });
      if (drawing.size.kind === 'known') expect(Math.abs(drawing.size.widthMm - sheet.widthMm)).toBeLessThan(1e-4);
      const cuts = drawing.shapes.filter(({ stroke }) => stroke === DEFAULT_SHEET_STYLE.layers['cut-outer'].colour);
      const got = cuts.reduce((sum, shape) => sum + Math.abs(contourArea(shape.contours[0]!)), 0);
      expect(share(got, areaOf(sheet, 'cut-outer'))).toBeLessThan(1e-6);
    }
  });
});

describe('what an SVG sheet says', () => {
  const sheet = randomSheet(2);
  const svg = writeSheetSvg(sheet);
  const groups = [...svg.matchAll(/<g [^>]*data-process="([^"]+)"[^>]*>/g)].map((match) => match[1]!);

  it('has processes in cutting order and a placement on every path', () => {
    const ranks = groups.map((name) => CUTTING_ORDER.indexOf(name as never));
    expect(ranks).toEqual([...ranks].sort((a, b) => a - b));
    expect(svg.match(/<path /g)).toHaveLength(sheet.paths.length);
    expect(svg.match(/<path data-piece="gull-\d+#1"/g)).toHaveLength(sheet.paths.length);
  });

  it('states units, kerf, job, sheet, seed, tolerance and cautions', () => {
    for (const fact of [
      'units: mm',
      'kerf: compensated',
      'job: harbour',
      'sheet: 1 of 3',
      'seed: 2',
      '0.01 mm',
      'Never cut PVC',
      'data-units="mm"',
      'data-kerf="compensated"',
      'data-seed="2"',
      'data-sheet="1"',
      'data-job="harbour"',
    ]) {
      expect(svg).toContain(fact);
    }
    expect(writeSheetSvg({ ...sheet, kerfState: 'nominal' })).toContain('kerf: nominal');
  });

  it('keeps curves: as many segments as were drawn, and no line that was a curve', () => {
    const drawn = sheet.paths.flatMap(({ contour }) => contour.segments);
    const count = (kind: string) => drawn.filter((segment) => segment.kind === kind).length;
    const data = [...svg.matchAll(/ d="([^"]+)"/g)].map((match) => match[1]!).join('');
    expect(data.match(/C/g)!.length).toBe(count('cubic'));
    // Arcs longer than a half turn (in numbers) are written in halves.
    expect(data.match(/A/g)!.length).toBeGreaterThanOrEqual(count('arc') + count('ellipse'));
    expect(data.match(/L/g)!.length).toBeLessThanOrEqual(count('line'));
  });

  it('leaves part numbers out when told, and nothing else', () => {
    const bare = writeSheetSvg(sheet, sheetStyle({ showsNumbers: false }));
    const numbers = sheet.paths.filter(({ role }) => role === 'number').length;
    expect(bare).not.toContain('data-role="numbers"');
    expect(bare.match(/<path /g)).toHaveLength(sheet.paths.length - numbers);
  });

  it('takes colours and layer names from the job', () => {
    const own = writeSheetSvg(sheet, sheetStyle({ layers: { 'cut-outer': { colour: '#123456', layer: 'through' } } }));
    expect(own).toContain('data-process="cut-outer" data-layer="through" fill="none" stroke="#123456"');
  });
});

describe('PDF shown by an independent renderer', () => {
  it('has the size of the sheet within 0.01 mm', async () => {
    for (const seed of SEEDS) {
      const sheet = randomSheet(seed);
      const bytes = await writeSheetPdf(sheet);
      const { widthPt, heightPt } = await pdfPicture(bytes, 0.5);
      expect(Math.abs(widthPt / POINTS_PER_MM - sheet.widthMm)).toBeLessThan(0.01);
      expect(Math.abs(heightPt / POINTS_PER_MM - sheet.heightMm)).toBeLessThan(0.01);
    }
  });

  it('covers the area of the pieces, at their place', async () => {
    for (const seed of SEEDS) {
      const sheet = randomSheet(seed);
      const picture = await pdfPicture(await writeSheetPdf(asAreas(sheet)), 2);
      const got = inked(picture);
      expect(share(got.area / POINTS_PER_MM ** 2, netArea(sheet))).toBeLessThan(2e-3);
      const svg = centreOf(sheet);
      expect(Math.abs(got.x / POINTS_PER_MM - svg.x)).toBeLessThan(0.05);
      expect(Math.abs(got.y / POINTS_PER_MM - svg.y)).toBeLessThan(0.05);
    }
  });

  it('notices a sheet turned upside down (faulty twin)', async () => {
    const sheet = asAreas(randomSheet(1));
    const flip = { a: 1, b: 0, c: 0, d: -1, e: 0, f: sheet.heightMm };
    const one = { ...sheet, paths: sheet.paths.slice(0, 1) };
    const flipped = one.paths.map((path) => ({ ...path, contour: transformContour(path.contour, flip) }));
    const [right, wrong] = await Promise.all([writeSheetPdf(one), writeSheetPdf({ ...one, paths: flipped })]);
    const off = inked(await pdfPicture(right, 1)).y - inked(await pdfPicture(wrong, 1)).y;
    expect(Math.abs(off)).toBeGreaterThan(10);
  });

  it('has a layer for each process, states its facts, and is the same every time', async () => {
    const sheet = randomSheet(3);
    const bytes = await writeSheetPdf(sheet);
    expect(await writeSheetPdf(sheet)).toEqual(bytes);
    const document = await PDFDocument.load(bytes, { updateMetadata: false });
    expect(document.getTitle()).toBe(sheet.title);
    for (const fact of [
      'units: mm',
      'kerf: compensated',
      'job: harbour',
      'seed: 3',
      'sheet: 1 of 3',
      'within 0.01 mm',
      'fit: 0.05 mm',
    ]) {
      expect(document.getSubject()).toContain(fact);
    }
    expect(document.getKeywords()).toContain('Never leave a running laser');
    const names = document.context
      .enumerateIndirectObjects()
      .map(([, object]) => object)
      .filter(
        (object): object is PDFDict =>
          object instanceof PDFDict && object.get(PDFName.of('Type')) === PDFName.of('OCG'),
      );
    expect(names).toHaveLength(4);
  });

  it('marks every path with its piece', async () => {
    const sheet = randomSheet(3);
    const document = await PDFDocument.load(await writeSheetPdf(sheet), { updateMetadata: false });
    const content = document.context
      .enumerateIndirectObjects()
      .flatMap(([, object]) => (object instanceof PDFRawStream ? [decodePDFRawStream(object).decode()] : []))
      .map((bytes) => new TextDecoder('latin1').decode(bytes))
      .join('');
    const carried = [...content.matchAll(/\/Piece <<\/Id <([0-9A-F]+)>>> BDC/g)].map((match) =>
      PDFHexString.of(match[1]!).decodeText(),
    );
    expect(carried.sort()).toEqual(sheet.paths.map(({ pieceId }) => pieceId).sort());
  });
});

function scaledAboutStart(contour: Contour, scale: number): Contour {
  const { x, y } = contour.start;
  return transformContour(contour, { a: scale, b: 0, c: 0, d: scale, e: x * (1 - scale), f: y * (1 - scale) });
}

/** Centre of all pieces less their holes, mm, by sums over fine chords. */
function centreOf(sheet: SheetDrawing): { x: number; y: number } {
  let [area, mx, my] = [0, 0, 0];
  for (const path of sheet.paths) {
    if (path.process !== 'cut-outer' && path.process !== 'cut-inner') continue;
    const ring = flattenContour(path.contour, 0.001);
    for (let i = 0; i < ring.length; i += 2) {
      const [px, py] = [ring[i]!, ring[i + 1]!];
      const [qx, qy] = [ring[(i + 2) % ring.length]!, ring[(i + 3) % ring.length]!];
      const cross = (px * qy - qx * py) / 2;
      area += cross;
      mx += (cross * (px + qx)) / 3;
      my += (cross * (py + qy)) / 3;
    }
  }
  return { x: mx / area, y: my / area };
}
