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
import type { CutPiece, NestStageResult } from './stages.ts';
import { thicknessesOf } from './thickness.ts';

/** The paint of one sign. */
export function paintPlanOf(sign: Sign, job: Job, places: readonly BuildPlace[]): PaintPlan {
  return paintPlan({ sign, places, thicknessOf: thicknessesOf(job) }, job.shop);
}

/** What one sign takes whatever the batch. @remarks One boolean a part for the paint. */
export function signNeedsOf(sign: Sign, pieces: readonly CutPiece[], job: Job): SignNeeds {
  const places = buildPlaces(sign, thicknessesOf(job));
  return {
    pieces: pieces.length,
    layers: new Set(places.flatMap((place) => (place.level > 0 ? [place.level] : []))).size,
    colours: new Set(sign.parts.flatMap((part) => part.paint ?? [])).size,
    paintPrice: paintPlanOf(sign, job, places).money,
    gluePrice: (glueMl(gluedAreaMm2(places), job.shop.glue) / 1000) * job.shop.glue.pricePerLitre,
  };
}

/** What a layout takes before money. @param times - of its sheets, in order. */
export function batchNeedsOf(
  nested: NestStageResult,
  job: Job,
  batch: number,
  times: readonly SheetTime[],
): BatchNeeds {
  const { layout, problem } = nested;
  const areas = new Map(problem.stock.map((stock) => [stock.id, regionArea(stock.outline)]));
  const offcuts = new Set(job.offcuts.map((offcut) => offcut.id));
  const areaOf = (sheet: Sheet) => areas.get(sheet.stockId) ?? sheet.width * sheet.height;
  const restShare = (sheet: Sheet) =>
    sheet.offcut === null ? 0 : Math.min(1, regionArea(sheet.offcut) / areaOf(sheet));
  return {
    batch,
    boards: layout.sheets.length,
    loadings: loadingsOf(layout),
    boardsPrice: layout.sheets.reduce((sum, sheet) => sum + priceOf(job, sheet.stockId), 0),
    restPrice: layout.sheets.reduce((sum, sheet) => sum + priceOf(job, sheet.stockId) * restShare(sheet), 0),
    offcutSquareMetres: layout.sheets.reduce(
      (sum, sheet) => sum + (offcuts.has(sheet.stockId) ? (areaOf(sheet) * (1 - restShare(sheet))) / 1e6 : 0),
      0,
    ),
    time: totalTime(times),
  };
}

/** Machine time of every sheet of a layout, all its loadings together, as its files would be written. */
export function timesOf(layout: Layout, pieces: readonly CutPiece[], job: Job): SheetTime[] {
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
