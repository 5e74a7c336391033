import { shapeToPathData } from '@underlap/geometry/path-data';
import { priceFormula, priceRow } from '@underlap/shop/price';
import { type SheetTime, totalTime } from '@underlap/shop/sheet-time';
import type { Job } from './document.ts';
import type { ReportInput } from './report-input.ts';
import type { Report, ReportSheet } from './report-schema.ts';
import { shapeFromRegion } from './shape-from-region.ts';
import { batchNeedsOf, signNeedsOf, type TimedStock } from './shop-needs.ts';
import type { DesignResult } from './stages.ts';

/** Lengths and times of a sheet in the report's form. */
export function reportTime(
  time: SheetTime,
): Pick<ReportSheet, 'cutLengthMm' | 'markLengthMm' | 'travelLengthMm' | 'seconds' | 'times'> {
  const { cutLengthMm, markLengthMm, travelLengthMm, seconds, byProcess, travelSeconds } = time;
  return { cutLengthMm, markLengthMm, travelLengthMm, seconds, times: { ...byProcess, travel: travelSeconds } };
}

/**
 * What a sign of this batch costs and sells at; of several designs, the mean sign.
 * @param stocks - null when nothing was laid out.
 */
export function reportCost(
  job: Job,
  designs: readonly DesignResult[],
  stocks: readonly TimedStock[] | null,
): Report['cost'] {
  const signs = designs.reduce((sum, { design }) => sum + design.count, 0);
  const { seconds, travelLengthMm, times } = reportTime(totalTime((stocks ?? []).flatMap((stock) => stock.times)));
  return {
    currency: job.costs.currency,
    machineSeconds: seconds,
    times,
    travelLengthMm,
    rows: stocks === null ? [] : [{ ...priceRow(batchNeedsOf(stocks, signs), signNeedsOf(designs), job.costs) }],
    formula: priceFormula(job.costs),
  };
}

/** The paint plans of all designs, one sign of each, in the report's form. */
export function reportPaintPlan({
  designs,
  guides,
  masks,
}: Pick<ReportInput, 'designs' | 'guides' | 'masks'>): Report['paintPlan'] {
  const plans = designs.map(({ design }) => {
    const plan = guides.get(design.id)!.input.paint;
    return { plan, design, named: (id: string) => `${design.prefix}${id}` };
  });
  return {
    colours: plans.flatMap(({ plan, design, named }) =>
      plan.colours.map(({ partIds, ...colour }) => ({ ...colour, design: design.id, parts: partIds.map(named) })),
    ),
    bare: plans.flatMap(({ plan, named }) =>
      plan.bare.map(({ partId, areaMm2, regions }) => ({
        part: named(partId),
        areaMm2,
        outline: regions.map((region) => shapeToPathData(shapeFromRegion(region))).join(' '),
        files: [...(masks.get(named(partId)) ?? [])],
      })),
    ),
    paintedOver: plans.flatMap(({ plan, named }) =>
      plan.paintedOver.map(({ partId, markId, lengthMm }) => ({ part: named(partId), mark: markId, lengthMm })),
    ),
    millilitres: plans.reduce((sum, { plan }) => sum + plan.millilitres, 0),
    money: plans.reduce((sum, { plan }) => sum + plan.money, 0),
  };
}
