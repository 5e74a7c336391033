import { shapeToPathData } from '@underlap/geometry/path-data';
import type { PaintPlan } from '@underlap/shop/paint-plan';
import { priceFormula, priceRow } from '@underlap/shop/price';
import { type SheetTime, totalTime } from '@underlap/shop/sheet-time';
import type { ReportInput } from './report-input.ts';
import type { Report, ReportSheet } from './report-schema.ts';
import { shapeFromRegion } from './shape-from-region.ts';
import { batchNeedsOf, signNeedsOf } from './shop-needs.ts';

/** Lengths and times of a sheet in the report's form. */
export function reportTime(
  time: SheetTime,
): Pick<ReportSheet, 'cutLengthMm' | 'markLengthMm' | 'travelLengthMm' | 'seconds' | 'times'> {
  const { cutLengthMm, markLengthMm, travelLengthMm, seconds, byProcess, travelSeconds } = time;
  return { cutLengthMm, markLengthMm, travelLengthMm, seconds, times: { ...byProcess, travel: travelSeconds } };
}

/** What a sign of this batch costs and sells at. @param times - of the sheets. */
export function reportCost({ job, sign, pieces, nested }: ReportInput, times: readonly SheetTime[]): Report['cost'] {
  const { seconds, travelLengthMm, times: byProcess } = reportTime(totalTime(times));
  const needs = nested === null ? null : batchNeedsOf(nested, job, job.batch, times);
  return {
    currency: job.costs.currency,
    machineSeconds: seconds,
    times: byProcess,
    travelLengthMm,
    rows: needs === null ? [] : [{ ...priceRow(needs, signNeedsOf(sign, pieces, job), job.costs) }],
    formula: priceFormula(job.costs),
  };
}

/** The paint plan in the report's form. */
export function reportPaintPlan(plan: PaintPlan): Report['paintPlan'] {
  return {
    colours: plan.colours.map(({ partIds, ...colour }) => ({ ...colour, parts: [...partIds] })),
    bare: plan.bare.map(({ partId, areaMm2, regions }) => ({
      part: partId,
      areaMm2,
      outline: regions.map((region) => shapeToPathData(shapeFromRegion(region))).join(' '),
    })),
    paintedOver: plan.paintedOver.map(({ partId, markId, lengthMm }) => ({ part: partId, mark: markId, lengthMm })),
    millilitres: plan.millilitres,
    money: plan.money,
  };
}
