import { convexHull } from '@underlap/geometry/hull';
import type { Face } from './arrangement.ts';
import { cutAlong } from './face-cuts.ts';
import { halfPlane, LEAST_INSET_MM } from './halves.ts';
import { joined, solveGreedily, uncut } from './search.ts';
import {
  breathe,
  type CutPlan,
  doesGoIn,
  facesOf,
  type PlannedCut,
  type SearchGround,
  sideOf,
} from './search-ground.ts';
import { roundReach } from './sizes.ts';
import { extentAlong, type StraightCut, straightCuts } from './straight-cuts.ts';

/** Widths of the bands that seams may stray in: a wide one leaves seams a choice, a narrow one saves pieces, mm. */
const WIDE_BAND_MM = 24;
const BAND_MM = 12;
const NARROW_BAND_MM = 6;

/** A face that leaves its band by less lies on one side of it, mm. */
const BESIDE_MM = 1;

/** Cuts in a row before a plan is given up: more do not come of the few pieces it is made for. */
const MOST_DEPTH = 12;

/**
 * A plan as somebody with a ruler makes it: straight cuts at any turn, every piece as large as it may be, and then every cut a
 * seam that strays in a narrow band.
 * @param most - plans of more pieces are of no interest.
 * @returns null when there is none, or when a seam cannot be routed.
 * @throws SeamError `cancelled`.
 * @remarks The straight cuts take some 0.5 s at most for each width, every seam one routing.
 */
export async function planByRuler(ground: SearchGround, most: number): Promise<CutPlan | null> {
  const { task, sizes } = ground;
  const [whole] = facesOf(ground.shape, []);
  const ruled = (band: number, reach: number, least: number) =>
    straightCuts(whole!.outer, { limits: task.limits, kerf: task.kerf, band, reach: reach + 0.5 }, least);
  // The narrow band tells how few pieces there may be; wider ones are preferred where they come to as few.
  const narrow = ruled(NARROW_BAND_MM, roundReach(sizes.leastNeck, sizes.fillet), most);
  if (narrow === null) return null;
  let best: CutPlan | null = null;
  for (const band of [WIDE_BAND_MM, BAND_MM, null]) {
    await breathe(ground.context.signal);
    const found = band === null ? narrow : ruled(band, sizes.reach, narrow.pieces);
    const plan = found && (await withSeams(ground, [], whole!, found.cuts, 0));
    if (plan === null || plan.pieces > most) continue;
    if (best === null || plan.pieces < best.pieces) best = plan;
    if (best.pieces <= narrow.pieces) break;
  }
  return best;
}

/** The face cut along a tree of straight cuts; a line that crosses it several times is cut in as many steps. */
async function withSeams(
  ground: SearchGround,
  cuts: readonly PlannedCut[],
  face: Face,
  tree: StraightCut | null,
  depth: number,
): Promise<CutPlan | null> {
  if (doesGoIn(ground, face)) return uncut(cuts);
  if (tree === null || depth > MOST_DEPTH) return solveGreedily(ground, cuts, face);
  const { angle, from, to } = tree;
  const [low, high] = extentAlong(convexHull(face.outer), angle);
  if (high <= to + BESIDE_MM) return withSeams(ground, cuts, face, tree.below, depth + 1);
  if (low >= from - BESIDE_MM) return withSeams(ground, cuts, face, tree.above, depth + 1);
  const cos = Math.cos(angle);
  const sin = Math.sin(angle);
  const halves = {
    a: halfPlane(cos, sin, to + LEAST_INSET_MM),
    b: halfPlane(-cos, -sin, LEAST_INSET_MM - from),
    pieces: 2,
    inset: LEAST_INSET_MM,
  };
  const room = { rho: ground.sizes.reach + 0.5, oneSided: true };
  const found = await cutAlong(ground, cuts, face, [halves], room);
  if (found === null) return solveGreedily(ground, cuts, face);
  const index = cuts.length;
  const withCut = [...cuts, ...found.cuts];
  const left = sideOf(facesOf(ground.shape, withCut), index, true);
  const leftPlan = left && (await withSeams(ground, withCut, left, tree, depth + 1));
  if (leftPlan === null) return null;
  const right = sideOf(facesOf(ground.shape, leftPlan.cuts), index, false);
  const rightPlan = right && (await withSeams(ground, leftPlan.cuts, right, tree, depth + 1));
  return rightPlan && joined(found, leftPlan, rightPlan);
}
