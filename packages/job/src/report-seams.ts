import { contourToPathData } from '@underlap/geometry/path-data';
import type { SplitPlan } from '@underlap/seam/task';
import { seamLetter } from './marks-stage.ts';
import { REPORT_DECIMALS } from './report-input.ts';
import type { Report, ReportSeam } from './report-schema.ts';
import type { SplitResult } from './stages.ts';

/** Every seam of the plans taken. */
export function reportSeams(split: SplitResult): ReportSeam[] {
  return split.parts.flatMap((part) =>
    (part.plan?.seams ?? []).map((seam, index) => ({
      id: seam.id,
      label: seamLetter(index),
      part: part.partId,
      pieces: [...seam.between],
      lengthMm: seam.lengthMm,
      hiddenLengthMm: seam.hiddenLengthMm,
      hiddenShare: share(seam.hiddenLengthMm, seam.lengthMm),
      knobs: seam.knobs.length,
      neckMm: seam.neckMm,
      path: contourToPathData(seam.path, REPORT_DECIMALS),
      visible: seam.visible.map(([from, to]): [number, number] => [from, to]),
    })),
  );
}

/** Every split part with all the plans to choose from. */
export function reportSplits(split: SplitResult): Report['splits'] {
  return split.parts.flatMap((part) => {
    const { outcome, plan: chosen } = part;
    if (outcome.kind !== 'split') return [];
    return [
      {
        part: part.partId,
        pieces: part.pieces.length,
        piecesLowerBound: outcome.piecesLowerBound,
        provenFewest: outcome.provenFewest,
        statement: outcome.provenFewest ? 'proven fewest' : 'best found, not proven fewest',
        plans: outcome.plans.map((plan) => reportPlan(plan, plan === chosen)),
      },
    ];
  });
}

function reportPlan(plan: SplitPlan, chosen: boolean): Report['splits'][number]['plans'][number] {
  const seamLengthMm = plan.seams.reduce((sum, seam) => sum + seam.lengthMm, 0);
  const hidden = plan.seams.reduce((sum, seam) => sum + seam.hiddenLengthMm, 0);
  return {
    id: plan.id,
    chosen,
    merits: [...plan.merits],
    pieces: plan.pieces.length,
    seamLengthMm,
    visibleLengthMm: plan.visibleLengthMm,
    hiddenShare: share(hidden, seamLengthMm),
    knobs: plan.seams.reduce((sum, seam) => sum + seam.knobs.length, 0),
    leastNeckMm: plan.leastNeckMm,
    balance: plan.balance,
    remarks: plan.remarks.map((remark) => remark.message),
  };
}

/** A share within 0..1 in spite of rounding; nothing of nothing is all of it. */
export function share(part: number, whole: number): number {
  return whole > 0 ? Math.min(1, Math.max(0, part / whole)) : 1;
}
