import type { WorkContext } from '@underlap/geometry/context';
import { orientedContour } from '@underlap/geometry/contour';
import type { Shape } from '@underlap/geometry/curve';
import { convexHull } from '@underlap/geometry/hull';
import { regionArea } from '@underlap/geometry/region';
import { discWithin, piecesLowerBound } from './bound.ts';
import { densePoints, expectedPieces } from './candidates.ts';
import { SeamError } from './error.ts';
import { partFields, seamGround } from './fields.ts';
import { finishPlan, type PlannedPlan, withPlates } from './finish.ts';
import { commonBox, exactTurns } from './goes-in.ts';
import { HeldMeasure } from './held.ts';
import { hintsFor } from './hints.ts';
import { onLines } from './lead-lines.ts';
import { marginRemedy } from './margin-remedy.ts';
import { withoutNeedlessCuts } from './mend.ts';
import { offeredPlans, type Proofs, proofOf } from './offer.ts';
import { hopelessReason, whyNot } from './reasons.ts';
import { planByRuler } from './ruled-plan.ts';
import { type SearchResult, searchCuts, splitFurther, splitInto } from './search.ts';
import { breathe, type CutPlan, facesOf, type SeamEffort, type SearchGround } from './search-ground.ts';
import { type SeamSizes, seamSizes } from './sizes.ts';
import { planStrips } from './strip-plan.ts';
import type { SeamOutcome, SeamRemark, SeamTask, SplitPlan } from './task.ts';
import { CoverMeasure } from './visible.ts';
import { whatLimits } from './what-limits.ts';

/** Grid cells along the square root of a part's area: sets the step between its limits. */
const CELLS_ACROSS = 220;
const FINEST_STEP_MM = 2;
const COARSEST_STEP_MM = 4;
const QUICK_STEP_MM = 4;

/** Parts expected to need more pieces than this are cut by strip plans alone. */
const MOST_SEARCHED = 9;

/** Ways searched on the grid before the search turns greedy. */
const MOST_ROUTES = 400;

/**
 * Split a part into pieces that fit the limits, along interlocking seams hidden below its cover where they can be.
 * @param task - mm; the shape's outer contour and holes may have any orientation.
 * @param effort - `quick` looks on a coarse grid, at fewer cuts, and returns one plan: for first views and many tests.
 * @returns `fits` when nothing has to be cut, and no cut was asked for or found; `split` with the best plans first; `cannot` with a reason a maker understands.
 * @throws SeamError `bad-task` for numbers that make no sense, `cancelled` when the signal is raised.
 * @remarks About a second for a part of 500 mm in two pieces; grows with area / step^2 and with the number of pieces.
 */
export async function planSeams(
  task: SeamTask,
  context: WorkContext,
  effort: SeamEffort = 'normal',
): Promise<SeamOutcome> {
  assertSound(task);
  const shape: Shape = {
    outer: orientedContour(task.shape.outer, 1),
    holes: task.shape.holes.map((hole) => orientedContour(hole, -1)),
  };
  await breathe(context.signal);
  const whole = exactTurns(shape, convexHull(task.region.outer), task.limits, task.kerf);
  const leastPieces = task.wishes.leastPieces ?? 1;
  if (whole !== null && leastPieces <= 1) return { kind: 'fits', limitTurnDeg: whole };

  const sizes = seamSizes(task.thickness, task.kerf);
  const inner = withReserve(task);
  const hopeless = hopelessReason(task, sizes);
  if (hopeless !== null) return { kind: 'cannot', why: hopeless };
  const progress = monotone(context);
  const search = searchGround(inner, shape, sizes, context, effort, (done) => progress('seams', 0.05 + 0.75 * done));
  const { plans, blocked } = await cutPlans(search, whole !== null);
  if (plans.length === 0) {
    return whole !== null
      ? { kind: 'fits', limitTurnDeg: whole }
      : { kind: 'cannot', why: await whyNot(search, blocked) };
  }

  const { held, lead } = search.ground;
  const measures = {
    cover: new CoverMeasure(task.cover),
    glue: new HeldMeasure(task, held ?? []),
    lines: lead.length > 0 ? new CoverMeasure(onLines(lead)) : null,
  };
  const chosen = plans.map((plan) => withoutWaste(search, plan));
  const finished: PlannedPlan[] = [];
  const proofs: Proofs = new Map();
  let sound = 0;
  for (const [index, plan] of chosen.entries()) {
    await breathe(context.signal);
    const made = finishPlan(inner, shape, search.ground, search.fine, sizes, plan, measures);
    if (made !== null) finished.push(made);
    if (effort === 'quick' && made !== null && proofOf(task, made, proofs).length === 0) sound++;
    if (sound > task.wishes.morePieces) break;
    progress('seams', 0.8 + (0.19 * (index + 1)) / chosen.length);
  }
  // A plan that does not stand the independent proof is not offered.
  const offered = await offeredPlans(task, finished, context, proofs);
  if (offered.length === 0) {
    return whole !== null
      ? { kind: 'fits', limitTurnDeg: whole }
      : { kind: 'cannot', why: await whyNot(search, 'no-room') };
  }
  progress('seams', 1);
  const piecesLower = piecesLowerBound(task, search.disc);
  const isLimited = whole === null && effort !== 'quick';
  const remedy = isLimited ? await marginRemedy(task, offered[0]!.plan, (bare) => quickPlan(bare, context)) : null;
  const limiting = remedy ?? (whole === null ? whatLimits(task) : null);
  const found = offered.map((entry) =>
    withOverallRemarks(task, withPlates(inner, entry, sizes), finished, piecesLower, limiting),
  );
  return { kind: 'split', plans: found, piecesLowerBound: piecesLower };
}

/** A second opinion, without progress of its own. */
function quickPlan(task: SeamTask, context: WorkContext): Promise<SeamOutcome> {
  const { onProgress: _, ...quiet } = context;
  return planSeams(task, quiet, 'quick');
}

/** Limits are also tried this much smaller, as shares: a plan for a smaller bed fits this one too, and is sometimes the better one. */
const SMALLER_BEDS = [0.975];

/**
 * Trees of cuts worth giving knobs, best first.
 * @param isWhole - the part fits as it is: it is cut only because so many pieces were asked for.
 */
async function cutPlans(
  search: SearchGround,
  isWhole: boolean,
): Promise<{ plans: readonly CutPlan[]; blocked: SearchResult['blocked'] }> {
  const { task, sizes } = search;
  const { morePieces, leastPieces = 1 } = task.wishes;
  const [face] = facesOf(search.shape, []);
  if (isWhole) {
    const plan = await splitInto(search, [], face!, leastPieces);
    return { plans: plan === null ? [] : [plan], blocked: 'no-way' };
  }
  const box = commonBox(task.limits, task.kerf);
  const expected = expectedPieces(densePoints(task.region.outer), box, { rho: sizes.reach, oneSided: false });
  // With many pieces a search over all cuts is no better than strips, only slower.
  const isLarge = expected > MOST_SEARCHED;
  const searched = isLarge ? { plans: [], blocked: null } : await searchCuts(search, Math.min(1, morePieces));
  const { blocked } = searched;
  let plans = searched.plans;
  const bound = piecesLowerBound(task, search.disc);
  if (search.effort !== 'quick' && plans.length > 0 && plans[0]!.pieces > bound) {
    for (const share of SMALLER_BEDS) {
      const smaller = await searchCuts(onSmallerBed(search, share), 0);
      plans = [...plans, ...smaller.plans].sort((a, b) => a.pieces - b.pieces || a.cost - b.cost);
    }
  }
  const fewest = plans[0]?.pieces ?? Infinity;
  const isSmall = fewest <= 2 || (fewest < Infinity && search.effort === 'quick');
  const strips = isSmall ? [] : await planStrips(search, fewest);
  const doStripsWin = strips.length > 0 && strips[0]!.pieces < fewest;
  const planned = fewest === Infinity || doStripsWin ? strips : worthFinishing(plans);
  const ruled = await planFewer(search, planned[0]?.pieces ?? MOST_SEARCHED + 1, bound);
  const best = ruled === null ? planned : [ruled, ...planned];
  if (best.length === 0) return { plans: [], blocked };
  const more = Math.max(morePieces, leastPieces - best[0]!.pieces);
  const rest = fewest === Infinity || doStripsWin ? worthFinishing(plans) : strips;
  return { plans: [...(await withPieceMore(search, best, more)), ...rest], blocked };
}

/** A plan of fewer pieces than those found, where there may be one; parts of very many pieces are left to strips. */
async function planFewer(search: SearchGround, found: number, bound: number): Promise<CutPlan | null> {
  if (search.effort === 'quick' || found <= bound || found > MOST_SEARCHED + 1) return null;
  return planByRuler(search, found - 1);
}

/** The same ground with every limit a little smaller. */
function onSmallerBed(search: SearchGround, share: number): SearchGround {
  const limits = search.task.limits.map((limit) => ({
    ...limit,
    width: limit.width * share,
    height: limit.height * share,
  }));
  // Looked at quickly: what it finds is a second opinion.
  return {
    ...search,
    task: { ...search.task, limits },
    effort: 'quick',
    budget: { ...search.budget, routes: 0 },
    progress: () => {},
  };
}

/** No cut that is not needed, unless more pieces were asked for. */
function withoutWaste(search: SearchGround, plan: CutPlan): CutPlan {
  const { morePieces, leastPieces = 1 } = search.task.wishes;
  return morePieces > 0 || leastPieces > 1 ? plan : withoutNeedlessCuts(search, plan);
}

/** Pieces of a split keep this far below their limits, mm: layouts are made of chords, and need a hair of room to be proven. */
const RESERVE_MM = 0.03;

function withReserve(task: SeamTask): SeamTask {
  const limits = task.limits.map((limit) => ({
    ...limit,
    width: limit.width - RESERVE_MM,
    height: limit.height - RESERVE_MM,
  }));
  return { ...task, limits };
}

/** Grids and costs of a task, ready to be searched. */
function searchGround(
  task: SeamTask,
  shape: Shape,
  sizes: SeamSizes,
  context: WorkContext,
  effort: SeamEffort,
  progress: (done: number) => void,
): SearchGround {
  const ground = seamGround(task);
  const step = Math.min(COARSEST_STEP_MM, Math.max(FINEST_STEP_MM, Math.sqrt(regionArea(task.region)) / CELLS_ACROSS));
  const isQuick = effort === 'quick';
  const fine = partFields(ground, sizes, isQuick ? Math.max(step, QUICK_STEP_MM) : step);
  const coarse = isQuick ? fine : partFields(ground, sizes, 2 * step);
  return {
    task,
    shape,
    sizes,
    ground,
    coarse,
    fine,
    disc: discWithin(task.region, coarse.grid),
    context,
    effort,
    budget: { routes: 0, most: MOST_ROUTES },
    progress,
  };
}

/** Trees of cuts with the fewest pieces that are given knobs. */
const MOST_FINISHED = 2;

/** A piece more must show this much less seam to be of interest, mm. */
const WORTH_A_PIECE_MM = 15;

/** The best trees of cuts for each number of pieces: a few that differ, not many that look alike. */
function worthFinishing(plans: readonly CutPlan[]): CutPlan[] {
  const out: CutPlan[] = [];
  if (plans.length === 0) return out;
  const fewest = plans[0]!.pieces;
  for (const extra of [0, 1, 2]) {
    const same = plans.filter((plan) => plan.pieces === fewest + extra);
    if (extra > 0) same.sort((a, b) => a.bareMm - b.bareMm);
    const kept: CutPlan[] = [];
    for (const plan of same) {
      if (kept.length >= (extra === 0 ? MOST_FINISHED : 1)) break;
      if (kept.every((other) => Math.abs(other.cost - plan.cost) > 0.03 * plan.cost)) kept.push(plan);
    }
    // A piece more is only of interest where it shows less.
    out.push(...kept.filter((plan) => extra === 0 || plan.bareMm < plans[0]!.bareMm - WORTH_A_PIECE_MM));
  }
  return out;
}

async function withPieceMore(search: SearchGround, plans: readonly CutPlan[], more: number): Promise<CutPlan[]> {
  const out = [...plans];
  let last = plans[0]!;
  for (let k = 0; k < more; k++) {
    const known = out.find((plan) => plan.pieces === plans[0]!.pieces + k + 1);
    const next = known ?? (await splitFurther(search, last));
    if (next === null) break;
    if (known === undefined) out.push(next);
    last = next;
  }
  return out;
}

function withOverallRemarks(
  task: SeamTask,
  entry: PlannedPlan,
  all: readonly PlannedPlan[],
  piecesLower: number,
  limiting: SeamRemark | null,
): SplitPlan {
  const { plan } = entry;
  const parts = task.coverParts ?? [];
  const remarks: SeamRemark[] = [...plan.remarks, ...plan.seams.flatMap((seam) => hintsFor(seam, parts))];
  const pieces = plan.pieces.length;
  const fewer = all.find((other) => other.plan.pieces.length < pieces && other.bareSeams > entry.bareSeams);
  if (fewer !== undefined) {
    const message = `Fits in ${fewer.plan.pieces.length} pieces only without interlocking; planned ${pieces}.`;
    remarks.push({ code: 'without-interlocking', message, at: null });
  }
  if (limiting !== null) remarks.push(limiting);
  const provenFewest = pieces === piecesLower;
  if (!provenFewest) {
    const fewest = Math.min(...all.map((other) => other.plan.pieces.length));
    const message =
      pieces > fewest ? `${pieces - fewest} more than the fewest found.` : 'Best found, not proven fewest.';
    remarks.push({ code: pieces > fewest ? 'more-than-fewest' : 'not-proven', message, at: null });
  }
  return { ...plan, provenFewest, remarks };
}

function assertSound(task: SeamTask): void {
  const numbers: [string, number, boolean][] = [
    ['thickness', task.thickness, task.thickness > 0],
    ['kerf', task.kerf, task.kerf >= 0],
    ['fit', task.fit, true],
    ['landing', task.landing, task.landing >= 0],
  ];
  for (const [name, value, isSound] of numbers) {
    if (!Number.isFinite(value) || !isSound) throw new SeamError('bad-task', `${name} cannot be ${value} mm`, name);
  }
  if (task.limits.length === 0) throw new SeamError('bad-task', 'A split needs a bed or a board to fit', 'limits');
  for (const limit of task.limits) {
    if (!(limit.width > 0) || !(limit.height > 0)) {
      throw new SeamError('bad-task', `A ${limit.name} of ${limit.width} x ${limit.height} mm holds nothing`, 'limits');
    }
  }
}

function monotone(context: WorkContext): (stage: string, done: number) => void {
  let reached = 0;
  return (stage, done) => {
    reached = Math.max(reached, Math.min(1, done));
    context.onProgress?.({ stage, done: reached });
  };
}
