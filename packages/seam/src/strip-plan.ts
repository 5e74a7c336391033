import { convexHull } from '@underlap/geometry/hull';
import type { Face } from './arrangement.ts';
import { densePoints, middleStrips, type StripPlan, stripPlans } from './candidates.ts';
import { cutAlong, type FoundCut } from './face-cuts.ts';
import { commonBox } from './goes-in.ts';
import { joined, solveGreedily, uncut } from './search.ts';
import { type CutPlan, doesGoIn, facesOf, type PlannedCut, type SearchGround, sideOf } from './search-ground.ts';

/** Strip plans worked out in full. */
const MOST_PLANS = 2;

/**
 * Plans of straight strips cut into rows, every line routed in a narrow band: what a search that follows covers is compared
 * with, and the only way for parts of many pieces.
 * @param below - with less room for knobs only plans of fewer pieces than this are of interest.
 * @returns at most three plans, fewest pieces first; empty when a line is blocked.
 * @remarks One routing for each cut. Junctions on both sides of a line keep apart like all others.
 */
export async function planStrips(ground: SearchGround, below: number): Promise<CutPlan[]> {
  const { sizes, task } = ground;
  const rho = sizes.reach + 0.5;
  const box = commonBox(task.limits, task.kerf);
  const [whole] = facesOf(ground.shape, []);
  const out: CutPlan[] = [];
  const points = densePoints(whole!.outer);
  const { reach } = ground.sizes;
  const plans = stripPlans(points, box, { rho, oneSided: false }).slice(0, MOST_PLANS);
  // Knobs on one side, or small ones, where that saves a piece.
  for (const room of [
    { rho, oneSided: true },
    { rho: 0.5 * reach, oneSided: false },
    { rho: 0.5 * reach, oneSided: true },
  ]) {
    const fewest = Math.min(below, ...plans.map(({ pieces }) => pieces));
    plans.push(
      ...stripPlans(points, box, room)
        .filter(({ pieces }) => pieces < fewest)
        .slice(0, MOST_PLANS),
    );
  }
  for (const strips of plans.sort((a, b) => a.pieces - b.pieces).slice(0, MOST_PLANS + 1)) {
    if (out.length >= MOST_PLANS && strips.pieces >= below) break;
    const plan = await cutStrips(ground, [], whole!, strips);
    if (plan !== null) out.push(plan);
    ground.progress(0.5 + 0.25 * Math.min(1, out.length / MOST_PLANS));
  }
  return out.sort((a, b) => a.pieces - b.pieces || a.cost - b.cost);
}

/** Across first, then along: the middle cut first, so that the tree stays shallow. */
async function cutStrips(
  ground: SearchGround,
  cuts: readonly PlannedCut[],
  face: Face,
  strips: StripPlan,
): Promise<CutPlan | null> {
  if (doesGoIn(ground, face)) return uncut(cuts);
  const hull = convexHull(face.outer);
  let found: FoundCut | null = null;
  // With less room for knobs where there is too little for both sides.
  const { rho, oneSided } = strips.room;
  for (const each of [rho, 0.5 * rho, 1]) {
    const room = { rho: each, oneSided: oneSided && each > 1 };
    const across = middleStrips(hull, strips.angle, strips.width, room);
    const bands = across.length > 0 ? across : middleStrips(hull, strips.angle + Math.PI / 2, strips.height, room);
    if (bands.length > 0) found = await cutAlong(ground, cuts, face, bands, room);
    if (found !== null) break;
  }
  if (found === null) return solveGreedily(ground, cuts, face);
  const index = cuts.length;
  const withCut = [...cuts, ...found.cuts];
  const left = sideOf(facesOf(ground.shape, withCut), index, true);
  if (left === null) return null;
  const leftPlan = await cutStrips(ground, withCut, left, strips);
  if (leftPlan === null) return null;
  const right = sideOf(facesOf(ground.shape, leftPlan.cuts), index, false);
  if (right === null) return null;
  const rightPlan = await cutStrips(ground, leftPlan.cuts, right, strips);
  if (rightPlan === null) return null;
  return joined(found, leftPlan, rightPlan);
}
