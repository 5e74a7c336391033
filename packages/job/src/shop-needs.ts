import { cuttingGroups } from '@underlap/artwork/cutting-groups';
import { regionArea } from '@underlap/geometry/region';
import type { Layout, Sheet } from '@underlap/nest/problem';
import { gluedAreaMm2, glueMl } from '@underlap/shop/glue';
import { type PaintPlan, paintPlan } from '@underlap/shop/paint-plan';
import type { BatchNeeds, SignNeeds } from '@underlap/shop/price';
import { type SheetTime, sheetTime, totalTime } from '@underlap/shop/sheet-time';
import { type BuildPlace, buildPlaces } from '@underlap/stack/levels';
import type { Sign } from '@underlap/stack/sign';
import type { Job } from './document.ts';
import { styleOfJob } from './files-stage.ts';
import { priceOf } from './nest-stage.ts';
import { cutFiles } from './sheet-drawings.ts';
import type { DesignResult, StockLayout } from './stages.ts';
import { isOfOwnColour } from './stock-of.ts';
import { thicknessesOf } from './thickness.ts';

/** A sign without the paint of parts that are cut from a board of their own colour: those are left as they are. */
export function withoutBoardColours(sign: Sign, job: Job): Sign {
  const parts = sign.parts.map((part) => (isOfOwnColour(job, part) ? { ...part, paint: null } : part));
  return { ...sign, parts };
}

/** The paint of one sign. @param sign - what needs paint: see `withoutBoardColours`. */
export function paintPlanOf(sign: Sign, job: Job, places: readonly BuildPlace[]): PaintPlan {
  return paintPlan({ sign, places, thicknessOf: thicknessesOf(sign, job) }, job.shop);
}

type Made = Pick<DesignResult, 'design' | 'sign' | 'pieces'>;

/**
 * What one sign takes whatever the batch; of several designs the mean sign, by their counts, and the colours of all of them.
 * @remarks One boolean a part for the paint.
 */
export function signNeedsOf(designs: readonly Made[]): SignNeeds {
  const each = designs.map((made) => ({ count: made.design.count, ...needsOfDesign(made) }));
  const signs = each.reduce((sum, { count }) => sum + count, 0);
  const mean = (field: 'pieces' | 'layers' | 'paintPrice' | 'gluePrice') =>
    each.reduce((sum, one) => sum + one.count * one[field], 0) / signs;
  return {
    pieces: mean('pieces'),
    layers: mean('layers'),
    colours: new Set(each.flatMap(({ colours }) => colours)).size,
    paintPrice: mean('paintPrice'),
    gluePrice: mean('gluePrice'),
  };
}

function needsOfDesign({ design: { job }, sign, pieces }: Made) {
  const painted = withoutBoardColours(sign, job);
  const places = buildPlaces(sign, thicknessesOf(sign, job));
  return {
    pieces: pieces.length,
    layers: new Set(places.flatMap((place) => (place.level > 0 ? [place.level] : []))).size,
    colours: painted.parts.flatMap((part) => part.paint ?? []),
    paintPrice: paintPlanOf(painted, job, places).money,
    gluePrice: (glueMl(gluedAreaMm2(places), job.shop.glue) / 1000) * job.shop.glue.pricePerLitre,
  };
}

/** The boards of one stock with the machine time of every sheet, in order. */
export interface TimedStock extends Pick<StockLayout, 'job' | 'layout' | 'nested'> {
  readonly times: readonly SheetTime[];
}

/** What the layouts of a batch take before money, all stocks together. @param batch - signs made. */
export function batchNeedsOf(stocks: readonly TimedStock[], batch: number): BatchNeeds {
  const each = stocks.map(needsOfStock);
  const sum = (field: keyof ReturnType<typeof needsOfStock>) => each.reduce((total, one) => total + one[field], 0);
  return {
    batch,
    boards: sum('boards'),
    loadings: sum('loadings'),
    boardsPrice: sum('boardsPrice'),
    restPrice: sum('restPrice'),
    offcutSquareMetres: sum('offcutSquareMetres'),
    time: totalTime(stocks.flatMap(({ times }) => times)),
  };
}

function needsOfStock({ job, layout, nested: { problem } }: TimedStock) {
  const areas = new Map(problem.stock.map((stock) => [stock.id, regionArea(stock.outline)]));
  const offcuts = new Set(job.offcuts.map((offcut) => offcut.id));
  const areaOf = (sheet: Sheet) => areas.get(sheet.stockId) ?? sheet.width * sheet.height;
  const restShare = (sheet: Sheet) =>
    sheet.offcut === null ? 0 : Math.min(1, regionArea(sheet.offcut) / areaOf(sheet));
  return {
    boards: layout.sheets.length,
    loadings: loadingsOf(layout),
    boardsPrice: layout.sheets.reduce((sum, sheet) => sum + priceOf(job, sheet.stockId), 0),
    restPrice: layout.sheets.reduce((sum, sheet) => sum + priceOf(job, sheet.stockId) * restShare(sheet), 0),
    offcutSquareMetres: layout.sheets.reduce(
      (sum, sheet) => sum + (offcuts.has(sheet.stockId) ? (areaOf(sheet) * (1 - restShare(sheet))) / 1e6 : 0),
      0,
    ),
  };
}

/** Machine time of every sheet of a layout, all its loadings together, as its files would be written. */
export function timesOf({ layout, pieces, job }: Pick<StockLayout, 'layout' | 'pieces' | 'job'>): SheetTime[] {
  const style = styleOfJob(job);
  const runs = cutFiles(layout, pieces, job, job.name ?? 'sign').map(({ sheets, drawing }) => ({
    sheets,
    time: sheetTime(cuttingGroups(drawing, style), job.costs.speeds),
  }));
  return layout.sheets.map((_, at) =>
    totalTime(runs.filter(({ sheets }) => sheets.includes(at)).map(({ time }) => time)),
  );
}

/** Set-ups of material on the bed, at least one a board. */
function loadingsOf(layout: Layout): number {
  return layout.sheets.reduce((sum, sheet) => sum + Math.max(1, sheet.windows.length), 0);
}
