import { contourToPathData } from '@underlap/geometry/path-data';
import type { SplitPlan } from '@underlap/seam/task';
import type { Sign } from '@underlap/stack/sign';
import type { Job } from './document.ts';
import { numberingOf, seamKey, withSeamLabels } from './numbering.ts';
import { REPORT_DECIMALS } from './report-input.ts';
import type { Report, ReportSeam } from './report-schema.ts';
import { type SeamHold, seamHolds } from './seam-hold.ts';
import { landingOf, wishFor } from './split-stage.ts';
import type { PartSplit, SplitResult } from './stages.ts';

/** Every seam of the plans taken. */
export function reportSeams(split: SplitResult, sign: Sign, job: Job): ReportSeam[] {
  const numbering = numberingOf(split, job.marks.before);
  return split.parts.flatMap((part) => {
    const holds = part.plan === null ? [] : holdsOf(part.plan, part.partId, sign, job);
    return (part.plan?.seams ?? []).map((seam, index) => {
      const hold = holds[index]!;
      return {
        id: seam.id,
        label: numbering.seams.get(seamKey(part.partId, seam.id))!,
        part: part.partId,
        pieces: [...seam.between],
        numbers: seam.between.map((id) => numbering.pieces.get(id)!),
        lengthMm: seam.lengthMm,
        hiddenLengthMm: seam.hiddenLengthMm,
        alongLinesMm: seam.ledLengthMm,
        hiddenShare: share(seam.hiddenLengthMm, seam.lengthMm),
        heldLengthMm: hold.heldMm,
        heldShare: share(hold.heldMm, seam.lengthMm),
        heldByPlateMm: hold.byPlateMm,
        knobs: seam.knobs.length,
        neckMm: seam.neckMm,
        path: contourToPathData(seam.path, REPORT_DECIMALS),
        visible: seam.visible.map(([from, to]): [number, number] => [from, to]),
        held: hold.held.map(([from, to]): [number, number] => [from, to]),
      };
    });
  });
}

function holdsOf(
  plan: SplitPlan,
  partId: string,
  sign: Sign,
  job: Job,
  isPlated: boolean = wishFor(job, partId).plates,
): SeamHold[] {
  const part = sign.parts.find((candidate) => candidate.id === partId)!;
  return seamHolds(plan, part.region, landingOf(job), isPlated);
}

/**
 * Share of the seams of a split part that is held by glue or plates, 0..1; 1 for a part that is not split.
 * @param isPlated - are rear plates cut? Default: as the job says.
 */
export function heldShareOf({ plan, partId }: PartSplit, sign: Sign, job: Job, isPlated?: boolean): number {
  if (plan === null) return 1;
  const held = holdsOf(plan, partId, sign, job, isPlated).reduce((sum, { heldMm }) => sum + heldMm, 0);
  return share(
    held,
    plan.seams.reduce((sum, seam) => sum + seam.lengthMm, 0),
  );
}

/** Every split part with all the plans to choose from. */
export function reportSplits(split: SplitResult, sign: Sign, job: Job): Report['splits'] {
  const numbering = numberingOf(split, job.marks.before);
  return split.parts.flatMap((part) => {
    const { outcome, plan: chosen } = part;
    if (outcome.kind !== 'split') return [];
    return [
      {
        part: part.partId,
        pieces: part.pieces.length,
        piecesLowerBound: outcome.piecesLowerBound,
        provenFewest: chosen?.provenFewest ?? false,
        statement: chosen?.provenFewest ? 'proven fewest' : 'best found, not proven fewest',
        plans: outcome.plans.map((plan) => {
          const held = holdsOf(plan, part.partId, sign, job).reduce((sum, { heldMm }) => sum + heldMm, 0);
          const labelOf = (id: string) =>
            plan === chosen ? (numbering.seams.get(seamKey(part.partId, id)) ?? null) : null;
          return reportPlan(plan, held, plan === chosen, labelOf);
        }),
      },
    ];
  });
}

function reportPlan(
  plan: SplitPlan,
  heldMm: number,
  chosen: boolean,
  labelOf: (seamId: string) => string | null,
): Report['splits'][number]['plans'][number] {
  const seamLengthMm = plan.seams.reduce((sum, seam) => sum + seam.lengthMm, 0);
  return {
    id: plan.id,
    chosen,
    merits: [...plan.merits],
    pieces: plan.pieces.length,
    seamLengthMm,
    visibleLengthMm: plan.visibleLengthMm,
    hiddenShare: share(plan.hiddenLengthMm, seamLengthMm),
    heldShare: share(heldMm, seamLengthMm),
    plates: plan.plates.length,
    knobs: plan.seams.reduce((sum, seam) => sum + seam.knobs.length, 0),
    leastNeckMm: plan.leastNeckMm,
    balance: plan.balance,
    remarks: plan.remarks.map((remark) => withSeamLabels(remark.message, plan.seams, labelOf)),
  };
}

/** A share within 0..1 in spite of rounding; nothing of nothing is all of it. */
export function share(part: number, whole: number): number {
  return whole > 0 ? Math.min(1, Math.max(0, part / whole)) : 1;
}
