import { ringArea } from '@underlap/geometry/ring';
import { arrange, type Face } from './arrangement.ts';
import { type Blocked, cutsOfFace, type FoundCut, shareFace, type Width } from './face-cuts.ts';
import {
  breathe,
  type CutPlan,
  doesGoIn,
  facesOf,
  type PlannedCut,
  type SearchGround,
  sideOf,
} from './search-ground.ts';

export interface SearchResult {
  /** Best first: fewest pieces, then least cost; some with a piece more that hide more. */
  readonly plans: readonly CutPlan[];
  /** Why the last face that could not be cut was given up, when there are no plans. */
  readonly blocked: Blocked | null;
}

/**
 * Cut a part until every piece fits, with a small beam over the tree of cuts.
 * @param slack - plans with up to this many pieces more than the fewest are looked for too.
 * @throws SeamError `cancelled`.
 */
export async function searchCuts(ground: SearchGround, slack: number): Promise<SearchResult> {
  const face = arrange(ground.shape, [])[0]!;
  const state = { blocked: null as Blocked | null };
  const plans = await solve(ground, [], face, 0, slack, state);
  return { plans, blocked: plans.length > 0 ? null : (state.blocked ?? 'no-way') };
}

/** The best plan for one face of a set of cuts, looked for without branching; null when there is none. */
export async function solveGreedily(
  ground: SearchGround,
  cuts: readonly PlannedCut[],
  face: Face,
): Promise<CutPlan | null> {
  const plans = await solve(ground, cuts, face, 3, 0, { blocked: null });
  return plans[0] ?? null;
}

/**
 * The same plan with its largest piece cut once more, for those who want a piece more than needed.
 * @returns null when no seam parts it.
 */
export async function splitFurther(ground: SearchGround, plan: CutPlan): Promise<CutPlan | null> {
  const { cuts } = plan;
  const faces = facesOf(ground.shape, cuts).sort((a, b) => ringArea(b.outer) - ringArea(a.outer));
  for (const face of faces) {
    await breathe(ground.context.signal);
    const best = await shareFace(ground, cuts, face);
    if (best === null) continue;
    const { cost, bareMm } = best;
    return {
      cuts: [...cuts, ...best.cuts],
      pieces: plan.pieces + 1,
      cost: plan.cost + cost,
      bareMm: plan.bareMm + bareMm,
    };
  }
  return null;
}

/**
 * A part or face cut into so many pieces of fair sizes, whether it has to be or not: each cut takes its share.
 * @returns null when no seam parts it so far.
 */
export async function splitInto(
  ground: SearchGround,
  cuts: readonly PlannedCut[],
  face: Face,
  pieces: number,
): Promise<CutPlan | null> {
  await breathe(ground.context.signal);
  if (pieces <= 1) return doesGoIn(ground, face) ? uncut(cuts) : solveGreedily(ground, cuts, face);
  const less = Math.floor(pieces / 2);
  const best = await shareFace(ground, cuts, face, less / pieces);
  if (best === null) return null;
  const index = cuts.length;
  const withCut = [...cuts, ...best.cuts];
  const faces = facesOf(ground.shape, withCut);
  const [left, right] = [sideOf(faces, index, true), sideOf(faces, index, false)];
  if (left === null || right === null || left === right) return null;
  const isLeftLess = faceArea(left) <= faceArea(right);
  const leftPlan = await splitInto(ground, withCut, left, isLeftLess ? less : pieces - less);
  if (leftPlan === null) return null;
  const again = sideOf(facesOf(ground.shape, leftPlan.cuts), index, false);
  const rightPlan = again && (await splitInto(ground, leftPlan.cuts, again, isLeftLess ? pieces - less : less));
  return rightPlan && joined(best, leftPlan, rightPlan);
}

function faceArea({ outer, holeRings }: Face): number {
  return ringArea(outer) + holeRings.reduce((sum, hole) => sum + ringArea(hole), 0);
}

/** A face that fits as it is. */
export function uncut(cuts: readonly PlannedCut[]): CutPlan {
  return { cuts, pieces: 1, cost: 0, bareMm: 0 };
}

/** A cut with what its two sides became; the right side was planned last and holds the cuts of all. */
export function joined(cut: Pick<FoundCut, 'cost' | 'bareMm'>, left: CutPlan, right: CutPlan): CutPlan {
  return {
    cuts: right.cuts,
    pieces: left.pieces + right.pieces,
    cost: cut.cost + left.cost + right.cost,
    bareMm: cut.bareMm + left.bareMm + right.bareMm,
  };
}

function widthAt(ground: SearchGround, depth: number, expected: number, slack: number): Width {
  const isSpent = ground.budget.routes > ground.budget.most;
  if (ground.effort === 'quick') return { beam: depth === 0 ? 2 : 1, candidates: depth === 0 ? 24 : 10, slack: 0 };
  if (isSpent) return { beam: 1, candidates: 10, slack: 0 };
  if (expected > 8) return { beam: depth === 0 ? 2 : 1, candidates: depth === 0 ? 36 : 14, slack: 0 };
  if (expected > 4) return { beam: depth === 0 ? 3 : 1, candidates: depth === 0 ? 48 : 20, slack: 1 };
  if (depth === 0) return { beam: expected > 2 ? 6 : 4, candidates: 90, slack: 1 + slack };
  if (depth === 1) return { beam: 2, candidates: 36, slack: 1 };
  return { beam: 1, candidates: 24, slack: 0 };
}

/** Faces deeper in the tree are cut with the first room for knobs that works. */
const MOST_SECOND_LOOKS = 1;

async function solve(
  ground: SearchGround,
  cuts: readonly PlannedCut[],
  face: Face,
  depth: number,
  slack: number,
  state: { blocked: Blocked | null },
): Promise<CutPlan[]> {
  await breathe(ground.context.signal);
  const { shape } = ground;
  if (doesGoIn(ground, face)) return [uncut(cuts)];
  if (depth > 12) return [];
  const widthFor = (expected: number) => widthAt(ground, depth, expected, slack);
  const mayLookAgain = depth <= MOST_SECOND_LOOKS && ground.budget.routes <= ground.budget.most;
  const found = await cutsOfFace(ground, cuts, face, mayLookAgain, widthFor, state);
  const plans: CutPlan[] = [];
  let best = Infinity;
  for (const [done, entry] of found.entries()) {
    const index = cuts.length;
    const withCut = [...cuts, ...entry.cuts];
    const faces = facesOf(shape, withCut);
    const left = sideOf(faces, index, true);
    // Two legs of a way that crossed each other would leave more faces, or fewer.
    if (left === null || left === sideOf(faces, index, false)) continue;
    const lefts = await solve(ground, withCut, left, depth + 1, 0, state);
    for (const leftPlan of lefts.slice(0, 2)) {
      // Not one piece too many for anything still wanted: spare the other side.
      if (leftPlan.pieces + 1 > best + 1 + slack) continue;
      const right = sideOf(facesOf(shape, leftPlan.cuts), index, false);
      if (right === null) continue;
      const rights = await solve(ground, leftPlan.cuts, right, depth + 1, 0, state);
      for (const rightPlan of rights.slice(0, 2)) {
        const plan = joined(entry, leftPlan, rightPlan);
        plans.push(plan);
        best = Math.min(best, plan.pieces);
      }
    }
    if (depth === 0) ground.progress((done + 1) / found.length);
  }
  plans.sort((a, b) => a.pieces - b.pieces || a.cost - b.cost);
  return plans.slice(0, depth === 0 ? 40 : 4);
}
