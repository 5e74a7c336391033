import type { CutEnd } from './arrangement.ts';
import { type CutPlan, doesGoIn, facesOf, type PlannedCut, type SearchGround, sideOf } from './search-ground.ts';

/** A piece below this share of an even one is a chip: nobody would cut it by hand, and it gets lost. */
export const CHIP_SHARE = 0.2;

/** A piece below this share of an even one counts as if there were a piece more: a plan without it is as good. */
const CRUMB_SHARE = 0.05;

/** How many of the areas are crumbs. */
export function crumbsIn(areas: readonly number[]): number {
  return countBelow(areas, CRUMB_SHARE);
}

/** How many of the areas are chips. */
export function chipsIn(areas: readonly number[]): number {
  return countBelow(areas, CHIP_SHARE);
}

function countBelow(areas: readonly number[], share: number): number {
  const mean = areas.reduce((sum, area) => sum + area, 0) / areas.length;
  return areas.filter((area) => area < share * mean).length;
}

/**
 * The plan without cuts that nothing needs: both sides together still fit. Chips are merged into a neighbour this way.
 * @returns the same plan when every cut is needed.
 * @remarks One arrangement a cut, O(cuts x segments); cuts that others end on are kept.
 */
export function withoutNeedlessCuts(ground: SearchGround, plan: CutPlan): CutPlan {
  for (let index = plan.cuts.length - 1; index >= 0; index--) {
    const isEndedOn = plan.cuts.some(({ from, to }) => isOn(from, index) || isOn(to, index));
    if (isEndedOn) continue;
    const cuts = without(plan.cuts, index);
    const faces = facesOf(ground.shape, cuts);
    // A cut with the same face on both sides is a slit: it was one of several in a row.
    const isSlit = cuts.some((_, k) => sideOf(faces, k, true) === sideOf(faces, k, false));
    if (isSlit || !faces.every((face) => doesGoIn(ground, face))) continue;
    return withoutNeedlessCuts(ground, { ...plan, cuts, pieces: faces.length });
  }
  return plan;
}

function isOn(end: CutEnd, index: number): boolean {
  return end.kind === 'cut' && end.cut === index;
}

function without(cuts: readonly PlannedCut[], index: number): PlannedCut[] {
  const moved = (end: CutEnd): CutEnd => (end.kind === 'cut' && end.cut > index ? { ...end, cut: end.cut - 1 } : end);
  return cuts.flatMap((cut, k) => (k === index ? [] : [{ ...cut, from: moved(cut.from), to: moved(cut.to) }]));
}
