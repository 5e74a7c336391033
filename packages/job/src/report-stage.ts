import { CAUTIONS } from '@underlap/artwork/sheet-drawing';
import { contourBounds, shapeArea } from '@underlap/geometry/contour';
import type { Contour } from '@underlap/geometry/curve';
import { contourToPathData, shapeToPathData } from '@underlap/geometry/path-data';
import { regionArea } from '@underlap/geometry/region';
import { copyName } from '@underlap/nest/copy';
import type { Layout } from '@underlap/nest/problem';
import { type SheetTime, totalTime } from '@underlap/shop/sheet-time';
import { buildOrder } from '@underlap/stack/build-order';
import { equalParts } from '@underlap/stack/equal-parts';
import { buildPlaces } from '@underlap/stack/levels';
import { paintNeeds } from '@underlap/stack/paint';
import { styleOfJob } from './files-stage.ts';
import { loadingWords } from './loadings.ts';
import { numberingOf } from './numbering.ts';
import { reportCost, reportPaintPlan, reportTime } from './report-cost.ts';
import { REPORT_DECIMALS, type ReportInput } from './report-input.ts';
import { notFittingOf, reportMessages } from './report-messages.ts';
import type { Report, ReportSheet } from './report-schema.ts';
import { reportSeams, reportSplits } from './report-seams.ts';
import { sheetRun } from './run-estimate.ts';
import { shapeFromRegion } from './shape-from-region.ts';
import { paintPlanOf } from './shop-needs.ts';
import { thicknessesOf } from './thickness.ts';

/** Put everything that is known of a planned job into the report's form. O(size of the layout). */
export function reportStage(input: ReportInput): Report {
  const { job, drawing, sign, split, pieces, nested, verdict } = input;
  const layout = nested?.layout ?? null;
  const style = styleOfJob(job);
  const runs = input.cuts.map((cut) => ({ sheets: cut.sheets, time: sheetRun(cut.drawing, style, job.costs.speeds) }));
  const times = (layout?.sheets ?? []).map((_, at) =>
    totalTime(runs.filter(({ sheets }) => sheets.includes(at)).map(({ time }) => time)),
  );
  const sheets = reportSheets(input, layout, times);
  const placed = layout?.sheets.reduce((sum, sheet) => sum + sheet.placements.length, 0) ?? 0;
  const netYield = nominalYield(input, layout);
  const places = buildPlaces(sign, thicknessesOf(job));
  const numbering = numberingOf(split);
  const piecesOf = new Map(split.parts.map((part) => [part.partId, part.pieces]));
  const numbersOf = (partId: string) => (piecesOf.get(partId) ?? []).map((piece) => numbering.pieces.get(piece.id)!);
  const equals = equalParts(sign.parts);
  const likeNumberOf = (partId: string): string | null => {
    const first = equals.get(partId);
    return first === undefined || numbersOf(partId).length !== 1 ? null : (numbersOf(first)[0] ?? null);
  };
  return {
    version: 1,
    units: 'mm',
    job: input.jobName,
    artwork: {
      name: drawing.name,
      widthMm: drawing.size.kind === 'known' ? drawing.size.widthMm : sign.widthMm,
      heightMm: drawing.size.kind === 'known' ? drawing.size.heightMm : sign.heightMm,
      parts: sign.parts.length,
      sizeSource: drawing.size.kind === 'known' ? drawing.size.source : 'user',
      mode: sign.mode,
    },
    bed: { width: job.bed.width, height: job.bed.height, margin: job.bed.margin, passThrough: job.bed.passThrough },
    thickness: job.thickness,
    kerf: job.kerf,
    fit: job.fit,
    compensate: job.compensate,
    spacing: job.spacing,
    margin: job.margin,
    batch: job.batch,
    boards: layout?.sheets.length ?? 0,
    boardsLowerBound: nested?.result.lowerBound.boards ?? 0,
    boardsLowerBoundBy: nested?.result.lowerBound.by ?? 'none',
    isProvedMinimal: nested?.result.isProvedMinimal ?? false,
    yield: netYield,
    waste: layout === null ? 0 : 1 - netYield,
    sheets,
    loadings: reportLoadings(input),
    parts: sign.parts.map((part) => ({
      id: part.id,
      name: part.name,
      layer: part.layer,
      paint: part.paint,
      areaMm2: shapeArea(part.shape),
      ...extent(part.shape.outer),
      numbers: numbersOf(part.id),
      like: likeNumberOf(part.id),
      pieces: numbersOf(part.id).length,
      ...paths(part.shape.outer, part.shape.holes),
    })),
    seams: reportSeams(split, sign, job),
    pieces: split.parts
      .filter((part) => part.plan !== null)
      .flatMap((part) =>
        part.pieces.map((piece) => ({
          id: piece.id,
          number: numbering.pieces.get(piece.id)!,
          part: piece.partId,
          ...paths(piece.shape.outer, piece.shape.holes),
          areaMm2: shapeArea(piece.shape),
          fitsBedTurnDeg: piece.fitsTurnDeg.bed,
        })),
      ),
    splits: reportSplits(split, sign, job),
    check: {
      ok: verdict?.ok ?? false,
      smallestGapMm: finiteOrNull(verdict?.smallestGapMm),
      smallestMarginMm: finiteOrNull(verdict?.smallestMarginMm),
      violations: (verdict?.violations ?? []).map(({ copies, ...violation }) => ({
        ...violation,
        pieces: copies.map(copyName),
      })),
      splitsProven: input.splitsProven,
      piecesExpected: pieces.length * job.batch,
      piecesPlaced: placed,
    },
    notFitting: notFittingOf(split, layout),
    paint: paintNeeds(sign, places).map((need) => ({
      colour: need.paint,
      parts: [...need.partIds],
      faceAreaMm2: need.faceAreaMm2,
      visibleAreaMm2: need.visibleAreaMm2,
      bareAreaMm2: need.bareAreaMm2,
    })),
    buildOrder: buildOrder(places).map(({ step, partId, name, onto, glueAreaMm2 }) => ({
      step,
      part: partId,
      name,
      onto: [...onto],
      glueAreaMm2,
    })),
    cost: reportCost(input, times),
    paintPlan: reportPaintPlan(paintPlanOf(sign, job, places)),
    complaints: [...sign.complaints].map((complaint) => ({
      code: complaint.code,
      severity: complaint.severity,
      message: complaint.message,
      place: complaint.place.element,
      at: complaint.place.at,
    })),
    repairs: sign.repairs.map((repair) => ({
      kind: repair.kind,
      message: repair.message,
      place: repair.place.element,
      at: repair.place.at,
      sizeMm: repair.sizeMm,
    })),
    messages: reportMessages(input),
    cautions: [...CAUTIONS],
    seed: job.seed,
    effort: job.effort,
    endedBy: nested?.result.endedBy ?? 'nothing laid out',
    seconds: input.seconds,
  };
}

function reportLoadings(input: ReportInput): Report['loadings'] {
  return input.cuts.map(({ name, loading, sheets }) => ({
    files: fileNames(input, name),
    times: sheets.length,
    sheets: sheets.map((sheet) => sheet + 1),
    kind: loading.kind,
    number: loading.number,
    count: loading.count,
    x: loading.page.minX,
    y: loading.page.minY,
    width: loading.page.maxX - loading.page.minX,
    height: loading.page.maxY - loading.page.minY,
    isTurned: loading.isTurned,
    pieces: loading.copies.map(copyName),
    board: { ...loading.board },
    move: loading.move === null ? null : { ...loading.move },
    words: loadingWords(loading),
  }));
}

function fileNames({ job, isWritten }: ReportInput, name: string): string[] {
  return isWritten ? job.output.formats.map((format) => `${name}.${format}`) : [];
}

function reportSheets(input: ReportInput, layout: Layout | null, times: readonly SheetTime[]): ReportSheet[] {
  if (layout === null) return [];
  const { pieces, cuts } = input;
  const byId = new Map(pieces.map((piece) => [piece.id, piece]));
  return layout.sheets.map((sheet, index) => {
    const own = cuts.filter((cut) => cut.sheets.includes(index));
    const files = own.flatMap(({ name }) => fileNames(input, name));
    const area = sheet.placements.reduce((total, { pieceId }) => total + regionArea(byId.get(pieceId)!.region), 0);
    return {
      file: files[0] ?? null,
      files,
      stock: sheet.stockId,
      width: sheet.width,
      height: sheet.height,
      yield: area / stockArea(input, sheet.stockId),
      placements: sheet.placements.map((placement) => {
        const piece = byId.get(placement.pieceId)!;
        return {
          id: copyName(placement),
          piece: piece.id,
          part: piece.partId,
          number: piece.number,
          sign: placement.copy,
          x: placement.x,
          y: placement.y,
          turnDeg: placement.turnDeg,
          mirrored: placement.mirrored,
        };
      }),
      sameAs: own[0] === undefined || own[0].sheets[0] === index ? null : own[0].sheets[0]! + 1,
      loadings: own.length,
      offcut:
        sheet.offcut === null
          ? null
          : { areaMm2: regionArea(sheet.offcut), outline: shapeToPathData(shapeFromRegion(sheet.offcut)) },
      ...reportTime(times[index]!),
    };
  });
}

function stockArea(input: ReportInput, stockId: string): number {
  const stock = input.nested?.problem.stock.find((candidate) => candidate.id === stockId);
  return stock === undefined ? Number.POSITIVE_INFINITY : regionArea(stock.outline);
}

/** Area of the pieces as drawn / area of the boards and offcuts used. */
function nominalYield(input: ReportInput, layout: Layout | null): number {
  if (layout === null || layout.sheets.length === 0) return 0;
  const areas = new Map(input.pieces.map((piece) => [piece.id, regionArea(piece.region)]));
  const used = layout.sheets
    .flatMap((sheet) => sheet.placements)
    .reduce((sum, { pieceId: partId }) => sum + areas.get(partId)!, 0);
  return used / layout.sheets.reduce((sum, sheet) => sum + stockArea(input, sheet.stockId), 0);
}

function extent(outer: Contour): { widthMm: number; heightMm: number } {
  const { minX, minY, maxX, maxY } = contourBounds(outer);
  return { widthMm: maxX - minX, heightMm: maxY - minY };
}

function paths(outer: Contour, holes: readonly Contour[]): { outline: string; holes: string[] } {
  return {
    outline: contourToPathData(outer, REPORT_DECIMALS),
    holes: holes.map((hole) => contourToPathData(hole, REPORT_DECIMALS)),
  };
}

function finiteOrNull(value: number | undefined): number | null {
  return value !== undefined && Number.isFinite(value) ? value : null;
}
