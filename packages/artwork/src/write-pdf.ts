import { transformContour } from '@underlap/geometry/contour';
import type { Contour } from '@underlap/geometry/curve';
import type { Point } from '@underlap/geometry/point';
import {
  closePath,
  PDFDocument,
  PDFHexString,
  PDFName,
  PDFNumber,
  PDFOperator,
  PDFOperatorNames,
  type PDFRef,
  rgb,
  setFillingColor,
  setLineCap,
  setLineWidth,
  setStrokingColor,
  stroke,
} from 'pdf-lib';
import { arcInCubics } from './arc-in-cubics.ts';
import { type CuttingGroup, cuttingGroups } from './cutting-groups.ts';
import { DEFAULT_SHEET_STYLE, type LayerStyle, type SheetStyle } from './process-style.ts';
import { CAUTIONS, type SheetDrawing, type SheetPath, sheetFacts } from './sheet-drawing.ts';

/** PDF knows no arcs: cubics leave the circle by at most this, mm. */
export const PDF_ARC_TOLERANCE_MM = 1e-4;

/** 72 points to the inch (PDF, ISO 32000-1, 8.3.2.3: default user space). */
const POINTS_PER_MM = 72 / 25.4;

/** Digits of a coordinate in points: 0.04 micrometre. */
const DECIMALS = 4;

/**
 * One sheet as PDF, vector and true size: the page is the sheet, 1 mm = 72/25.4 pt. One optional-content layer per process,
 * in its colour, in cutting order; part numbers are a layer of their own. Every path is marked content `Piece` with its
 * placement (ISO 32000-1, 14.6). Document properties state units, kerf state,
 * job, sheet, seed and tolerance.
 * @returns the file's bytes; the same sheet and style always give the same bytes.
 */
export async function writeSheetPdf(sheet: SheetDrawing, style: SheetStyle = DEFAULT_SHEET_STYLE): Promise<Uint8Array> {
  // Dates and producer would make two runs differ.
  const document = await PDFDocument.create({ updateMetadata: false });
  document.setTitle(sheet.title);
  document.setSubject([...sheetFacts(sheet), `curves: arcs as cubics within ${PDF_ARC_TOLERANCE_MM} mm`].join('; '));
  document.setKeywords(CAUTIONS.slice());
  const page = document.addPage([sheet.widthMm * POINTS_PER_MM, sheet.heightMm * POINTS_PER_MM]);
  // PDF y grows upwards: one flip for the whole sheet, so nothing comes out mirrored.
  const toPage = { a: POINTS_PER_MM, b: 0, c: 0, d: -POINTS_PER_MM, e: 0, f: sheet.heightMm * POINTS_PER_MM };
  const layers: { name: PDFName; ref: PDFRef }[] = [];
  page.pushOperators(setLineWidth(style.lineWidthMm * POINTS_PER_MM), setLineCap(1));
  cuttingGroups(sheet, style).forEach((group, index) => {
    const look = group.isNumbers ? style.numbers : style.layers[group.process];
    const name = PDFName.of(`Layer${index + 1}`);
    const entry = { Type: 'OCG', Name: PDFHexString.fromText(look.layer) };
    layers.push({ name, ref: document.context.register(document.context.obj(entry)) });
    page.pushOperators(
      PDFOperator.of(PDFOperatorNames.BeginMarkedContentSequence, [PDFName.of('OC'), name]),
      ...groupOperators(group, look, toPage),
      PDFOperator.of(PDFOperatorNames.EndMarkedContent),
    );
  });
  const refs = layers.map(({ ref }) => ref);
  document.catalog.set(
    PDFName.of('OCProperties'),
    document.context.obj({ OCGs: refs, D: { Order: refs, ON: refs, BaseState: 'ON' } }),
  );
  const properties = document.context.obj({});
  for (const { name, ref } of layers) properties.set(name, ref);
  page.node.Resources()?.set(PDFName.of('Properties'), properties);
  return document.save({ useObjectStreams: false });
}

type ToPage = Parameters<typeof transformContour>[1];

function groupOperators(group: CuttingGroup, look: LayerStyle, toPage: ToPage): PDFOperator[] {
  const [r, g, b] = [1, 3, 5].map((at) => Number.parseInt(look.colour.slice(at, at + 2), 16) / 255);
  const colour = rgb(r ?? 0, g ?? 0, b ?? 0);
  const operators = [setStrokingColor(colour), setFillingColor(colour)];
  for (const path of group.paths) {
    const isArea = group.process === 'engrave' && path.contour.closed && !group.isNumbers;
    operators.push(PDFOperator.of(PDFOperatorNames.BeginMarkedContentSequence, [PDFName.of('Piece'), pieceOf(path)]));
    for (const contour of [path.contour, ...(path.holes ?? [])]) {
      pushContour(operators, transformContour(inCubics(contour), toPage));
    }
    operators.push(isArea ? PDFOperator.of(PDFOperatorNames.FillEvenOdd) : stroke());
    operators.push(PDFOperator.of(PDFOperatorNames.EndMarkedContent));
  }
  return operators;
}

/** The property list of a path's marked content. */
function pieceOf({ pieceId }: SheetPath): string {
  return `<</Id ${PDFHexString.fromText(pieceId)}>>`;
}

/** Arcs become cubics in mm, where the tolerance has its meaning. */
function inCubics(contour: Contour): Contour {
  let from = contour.start;
  const segments = contour.segments.flatMap((segment) => {
    const start = from;
    from = segment.to;
    if (segment.kind === 'line' || segment.kind === 'cubic') return [segment];
    return arcInCubics(start, segment, PDF_ARC_TOLERANCE_MM);
  });
  return { ...contour, segments };
}

function pushContour(operators: PDFOperator[], contour: Contour): void {
  const number = (value: number) => PDFNumber.of(Number(value.toFixed(DECIMALS)));
  const pair = ({ x, y }: Point) => [number(x), number(y)];
  operators.push(PDFOperator.of(PDFOperatorNames.MoveTo, pair(contour.start)));
  for (const segment of contour.segments) {
    if (segment.kind === 'cubic') {
      const operands = [...pair(segment.c1), ...pair(segment.c2), ...pair(segment.to)];
      operators.push(PDFOperator.of(PDFOperatorNames.AppendBezierCurve, operands));
    } else {
      operators.push(PDFOperator.of(PDFOperatorNames.LineTo, pair(segment.to)));
    }
  }
  if (contour.closed) operators.push(closePath());
}
