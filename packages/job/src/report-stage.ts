import { CAUTIONS } from '@underlap/artwork/sheet-drawing';
import { contourBounds, shapeArea } from '@underlap/geometry/contour';
import type { Contour } from '@underlap/geometry/curve';
import { contourToPathData, shapeToPathData } from '@underlap/geometry/path-data';
import { regionArea } from '@underlap/geometry/region';
import { copyName } from '@underlap/nest/copy';
import { type SheetTime, totalTime } from '@underlap/shop/sheet-time';
import { equalParts } from '@underlap/stack/equal-parts';
import { paintNeeds } from '@underlap/stack/paint';
import { boardYield, type LaidSheets } from './board-yield.ts';
import type { Job } from './document.ts';
import { styleOfJob } from './files-stage.ts';
import type { Guide } from './guide-of.ts';
import { shapeKey } from './job-pieces.ts';
import { loadingWords } from './loadings.ts';
import { priceOf } from './nest-stage.ts';
import { numberingOf } from './numbering.ts';
import { reportBuildOrder } from './report-build-order.ts';
import { reportCost, reportPaintPlan, reportTime } from './report-cost.ts';
import { REPORT_DECIMALS, type ReportInput, type ReportStock } from './report-input.ts';
import { notFittingOf, reportMessages } from './report-messages.ts';
import { reportOrders, sum } from './report-orders.ts';
import type { Report, ReportSheet } from './report-schema.ts';
import { reportSeams, reportSplits } from './report-seams.ts';
import { sheetRun } from './run-estimate.ts';
import { shapeFromRegion } from './shape-from-region.ts';
import { restOutline, sheetId, sheetRests } from './sheet-rests.ts';
import { withoutBoardColours } from './shop-needs.ts';
import { hangingOf } from './sign-slots.ts';
import type { DesignResult } from './stages.ts';
import { jobOfStock, stockIdOf, stockIdsOf } from './stock-of.ts';

/** Put everything that is known of a planned job into the report's form. O(size of the layouts). */
export function reportStage(input: ReportInput): Report {
  const { job, designs } = input;
  const stocks = input.stocks ?? [];
  const first = jobOfStock(job, stockIdsOf(job)[0]!);
  const timed = stocks.map((stock) => ({ ...stock, times: sheetTimes(stock) }));
  const sheets = stocks.flatMap((stock, at) => reportSheets(stock, timed[at]!.times, input));
  const signs = sum(designs, ({ design }) => design.count);
  const netYield = boardYield(stocks.map(laidSheets));
  const signParts = designs.map((result) => signSections(result, input.guides.get(result.design.id)!));
  const cost = reportCost(job, designs, input.stocks === null ? null : timed);
  return {
    version: 1,
    units: 'mm',
    job: input.jobName,
    artwork: artworkOf(designs[0]!),
    designs: designs.map((result) => ({
      id: result.design.id,
      order: result.design.order,
      count: result.design.count,
      mark: result.design.job.marks.before.replace(/-$/, ''),
      artwork: artworkOf(result),
    })),
    orders: reportOrders(designs, stocks, sheets, cost.rows[0] ?? null),
    stocks: stockIdsOf(job).map((id) => reportStock(id, job, stocks)),
    bed: { width: job.bed.width, height: job.bed.height, margin: job.bed.margin, passThrough: job.bed.passThrough },
    thickness: first.thickness,
    kerf: first.kerf,
    fit: first.fit,
    compensate: job.compensate,
    spacing: job.spacing,
    margin: job.margin,
    batch: signs,
    boards: sheets.length,
    boardsLowerBound: sum(stocks, ({ nested }) => nested.result.lowerBound.boards),
    boardsLowerBoundBy: [...new Set(stocks.map(({ nested }) => nested.result.lowerBound.by))].join(', ') || 'none',
    isProvedMinimal: stocks.length > 0 && stocks.every(({ nested }) => nested.result.isProvedMinimal),
    yield: netYield,
    waste: input.stocks === null ? 0 : 1 - netYield,
    sheets,
    loadings: stocks.flatMap((stock) => reportLoadings(stock, input)),
    finished: job.done.map((sheet) => ({
      id: sheet.sheet,
      stock: sheet.stock,
      board: sheet.board,
      number: sheet.number,
      pieces: sheet.pieces.map(({ piece, copy }) => ({ piece, sign: copy })),
    })),
    parts: signParts.flatMap(({ parts }) => parts),
    seams: signParts.flatMap(({ seams }) => seams),
    pieces: signParts.flatMap(({ pieces }) => pieces),
    splits: signParts.flatMap(({ splits }) => splits),
    check: reportCheck(input, stocks),
    notFitting: notFittingOf(designs, input.stocks),
    paint: signParts.flatMap(({ paint }) => paint),
    buildOrder: signParts.flatMap((section) => section.buildOrder),
    cost,
    paintPlan: reportPaintPlan(input),
    hanging: designs.flatMap(reportHanging),
    complaints: signParts.flatMap(({ complaints }) => complaints),
    repairs: signParts.flatMap(({ repairs }) => repairs),
    messages: reportMessages(input),
    cautions: [...CAUTIONS],
    seed: job.seed,
    effort: job.effort,
    endedBy: endedBy(stocks),
    seconds: input.seconds,
  };
}

function artworkOf({ drawing, sign }: DesignResult): Report['artwork'] {
  const { size } = drawing;
  return {
    name: drawing.name,
    widthMm: size.kind === 'known' ? size.widthMm : sign.widthMm,
    heightMm: size.kind === 'known' ? size.heightMm : sign.heightMm,
    parts: sign.parts.length,
    sizeSource: size.kind === 'known' ? size.source : 'user',
    mode: sign.mode,
  };
}

type SignSections = Pick<
  Report,
  'parts' | 'seams' | 'pieces' | 'splits' | 'paint' | 'buildOrder' | 'complaints' | 'repairs'
>;

/** What is said of the sign of one design, with ids that are unique in the job. */
function signSections({ design, sign, split }: DesignResult, guide: Guide): SignSections {
  const { prefix, job } = design;
  const named = (id: string) => `${prefix}${id}`;
  const numbering = numberingOf(split, job.marks.before);
  const piecesOf = new Map(split.parts.map((part) => [part.partId, part.pieces]));
  const numbersOf = (partId: string) => (piecesOf.get(partId) ?? []).map((piece) => numbering.pieces.get(piece.id)!);
  const equals = equalParts(sign.parts);
  const likeNumberOf = (partId: string): string | null => {
    const like = equals.get(partId);
    return like === undefined || numbersOf(partId).length !== 1 ? null : (numbersOf(like)[0] ?? null);
  };
  const place = (element: string) => (design.id === '' ? element : `${design.id}: ${element}`);
  return {
    parts: sign.parts.map((part) => ({
      id: named(part.id),
      design: design.id,
      name: part.name,
      layer: part.layer,
      paint: part.paint,
      stock: stockIdOf(job, part),
      areaMm2: shapeArea(part.shape),
      ...extent(part.shape.outer),
      numbers: numbersOf(part.id),
      like: likeNumberOf(part.id),
      pieces: numbersOf(part.id).length,
      ...paths(part.shape.outer, part.shape.holes),
    })),
    seams: reportSeams(split, sign, job).map((seam) => ({
      ...seam,
      id: named(seam.id),
      part: named(seam.part),
      pieces: seam.pieces.map(named),
    })),
    pieces: split.parts
      .filter((part) => part.plan !== null)
      .flatMap((part) =>
        part.pieces.map((piece) => ({
          id: named(piece.id),
          number: numbering.pieces.get(piece.id)!,
          part: named(piece.partId),
          ...paths(piece.shape.outer, piece.shape.holes),
          areaMm2: shapeArea(piece.shape),
          fitsBedTurnDeg: piece.limitTurnDeg.bed,
        })),
      ),
    splits: reportSplits(split, sign, job).map((entry) => ({ ...entry, part: named(entry.part) })),
    paint: paintNeeds(withoutBoardColours(sign, job), guide.input.places).map((need) => ({
      design: design.id,
      colour: need.paint,
      parts: need.partIds.map(named),
      faceAreaMm2: need.faceAreaMm2,
      visibleAreaMm2: need.visibleAreaMm2,
      bareAreaMm2: need.bareAreaMm2,
    })),
    buildOrder: reportBuildOrder(guide, named),
    complaints: sign.complaints.map((complaint) => ({
      code: complaint.code,
      severity: complaint.severity,
      message: complaint.message,
      place: place(complaint.place.element),
      at: complaint.place.at,
    })),
    repairs: sign.repairs.map((repair) => ({
      kind: repair.kind,
      message: repair.message,
      place: place(repair.place.element),
      at: repair.place.at,
      sizeMm: repair.sizeMm,
    })),
  };
}

function reportHanging({ design, sign, split }: DesignResult): Report['hanging'] {
  const hanging = hangingOf(sign, split, design.job);
  if (hanging === null) return [];
  const { mass, points, loads, belong, words, ...rest } = hanging;
  return [
    {
      design: design.id,
      massKg: mass.kg,
      centre: mass.centre,
      points: [...points],
      loads: loads === null ? null : [...loads],
      belong: [...belong],
      words: [...words],
      ...rest,
    },
  ];
}

/** How many sheets there are before those of a stock. */
function sheetsBefore(stock: ReportStock, { stocks }: ReportInput): number {
  const all = stocks ?? [];
  return sum(all.slice(0, all.indexOf(stock)), ({ layout }) => layout.sheets.length);
}

function reportLoadings(stock: ReportStock, input: ReportInput): Report['loadings'] {
  const before = sheetsBefore(stock, input);
  return stock.cuts.map(({ name, loading, sheets }) => ({
    files: fileNames(input, name),
    times: sheets.length,
    sheets: sheets.map((sheet) => before + sheet + 1),
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

/** Time of every sheet of a stock, all its loadings together. */
function sheetTimes({ layout, cuts, job }: ReportStock): SheetTime[] {
  const style = styleOfJob(job);
  const runs = cuts.map((cut) => ({ sheets: cut.sheets, time: sheetRun(cut.drawing, style, job.costs.speeds) }));
  return layout.sheets.map((_, at) =>
    totalTime(runs.filter(({ sheets }) => sheets.includes(at)).map(({ time }) => time)),
  );
}

function reportSheets(stock: ReportStock, times: readonly SheetTime[], input: ReportInput): ReportSheet[] {
  const { layout, pieces, cuts } = stock;
  const before = sheetsBefore(stock, input);
  const byId = new Map(pieces.map((piece) => [piece.id, piece]));
  const laid = laidSheets(stock);
  return layout.sheets.map((sheet, index) => {
    const own = cuts.filter((cut) => cut.sheets.includes(index));
    const files = own.flatMap(({ name }) => fileNames(input, name));
    return {
      id: sheetId(stock.stockId, sheet),
      number: own[0]?.drawing.sheetNumber ?? index + 1,
      file: files[0] ?? null,
      files,
      material: stock.stockId,
      stock: sheet.stockId,
      width: sheet.width,
      height: sheet.height,
      yield: boardYield([{ ...laid, sheets: [sheet] }]),
      placements: sheet.placements.map((placement) => {
        const piece = byId.get(placement.pieceId)!;
        return {
          id: copyName(placement),
          piece: piece.id,
          part: `${piece.design.prefix}${piece.partId}`,
          number: piece.number,
          design: piece.design.id,
          order: piece.design.order,
          sign: placement.copy,
          shape: shapeKey(piece),
          x: placement.x,
          y: placement.y,
          turnDeg: placement.turnDeg,
          mirrored: placement.mirrored,
        };
      }),
      sameAs: own[0] === undefined || own[0].sheets[0] === index ? null : before + own[0].sheets[0]! + 1,
      loadings: own.length,
      offcut:
        sheet.offcut === null
          ? null
          : { areaMm2: regionArea(sheet.offcut), outline: shapeToPathData(shapeFromRegion(sheet.offcut)) },
      rests: reportRests(stock, index),
      ...reportTime(times[index]!),
    };
  });
}

/** Rests of a sheet; of equal sheets that are cut from one file each has the label of the first, and a number behind it. */
function reportRests(stock: ReportStock, index: number): ReportSheet['rests'] {
  const own = stock.cuts.find((cut) => cut.sheets.includes(index));
  const first = own?.sheets[0] ?? index;
  const nth = own?.sheets.indexOf(index) ?? 0;
  return sheetRests(stock, stock.layout.sheets[first]!, stock.job).map((rest) => {
    const { minX, minY, maxX, maxY } = rest.rectangle;
    return {
      id: nth === 0 ? rest.label : `${rest.label}-${nth + 1}`,
      outline: restOutline(rest),
      areaMm2: rest.areaMm2,
      rectangle: { x: minX, y: minY, width: maxX - minX, height: maxY - minY },
    };
  });
}

function reportStock(id: string, job: Job, stocks: readonly ReportStock[]): Report['stocks'][number] {
  const own = jobOfStock(job, id);
  const laid = stocks.find((stock) => stock.stockId === id);
  return {
    id,
    material: own.material,
    thickness: own.thickness,
    kerf: own.kerf,
    fit: own.fit,
    boards: laid?.layout.sheets.length ?? 0,
    boardsLowerBound: laid?.nested.result.lowerBound.boards ?? 0,
    isProvedMinimal: laid?.nested.result.isProvedMinimal ?? true,
    yield: laid === undefined ? 0 : boardYield([laidSheets(laid)]),
    price: laid === undefined ? 0 : priceOfSheets([laid]),
  };
}

function reportCheck({ designs, job }: ReportInput, stocks: readonly ReportStock[]): Report['check'] {
  const verdicts = stocks.map(({ verdict }) => verdict);
  const expected = sum(designs, ({ design, pieces }) => pieces.length * design.count);
  const offsets = stocks.map((_, at) => sum(stocks.slice(0, at), ({ layout }) => layout.sheets.length));
  return {
    ok: verdicts.length > 0 && verdicts.every(({ ok }) => ok),
    smallestGapMm: leastFinite(verdicts.map(({ smallestGapMm }) => smallestGapMm)),
    smallestMarginMm: leastFinite(verdicts.map(({ smallestMarginMm }) => smallestMarginMm)),
    violations: verdicts.flatMap(({ violations }, at) =>
      violations.map(({ copies, ...violation }) => ({
        ...violation,
        sheet: violation.sheet + offsets[at]!,
        pieces: copies.map(copyName),
      })),
    ),
    splitsProven: designs.every(({ splitsProven }) => splitsProven),
    piecesExpected: expected - sum(job.done, ({ pieces }) => pieces.length),
    piecesPlaced: sum(stocks, ({ layout }) => sum(layout.sheets, ({ placements }) => placements.length)),
  };
}

function laidSheets({ layout, pieces, nested }: ReportStock): LaidSheets {
  const areas = new Map(pieces.map((piece) => [piece.id, regionArea(piece.region)]));
  return { sheets: layout.sheets, stock: nested.problem.stock, areas };
}

function priceOfSheets(stocks: readonly ReportStock[]): number {
  return sum(stocks, ({ job, layout }) => sum(layout.sheets, (sheet) => priceOf(job, sheet.stockId)));
}

function endedBy(stocks: readonly ReportStock[]): string {
  return [...new Set(stocks.map(({ nested }) => nested.result.endedBy))].join(', ') || 'nothing laid out';
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

function leastFinite(values: readonly number[]): number | null {
  const least = Math.min(...values);
  return Number.isFinite(least) ? least : null;
}
