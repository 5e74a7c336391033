import type { WorkContext } from '@underlap/geometry/context';
import type { Shape } from '@underlap/geometry/curve';
import { convexHull } from '@underlap/geometry/hull';
import { type Ring, ringArea } from '@underlap/geometry/ring';
import { type ArrangedCut, arrange, type CutEnd, type Face, faceShape } from './arrangement.ts';
import { type Box, candidateHalves, expectedPieces, halvingHalves } from './candidates.ts';
import { SeamError } from './error.ts';
import { type FaceFields, faceFields, type PartFields, type SeamGround } from './fields.ts';
import { commonBox, exactFit, likelyFit, roughFit } from './fit.ts';
import { cellAt } from './grid.ts';
import { gapsBetween, type Halves, isInStretch } from './halves.ts';
import { cheapestRoute, type Route, routeVia } from './route.ts';
import type { SeamSizes } from './sizes.ts';
import { smoothRoute } from './smooth.ts';
import { type Spine, spineStretch } from './spine.ts';
import type { SeamTask } from './task.ts';
import { type OutlineSample, outlineSamples, terminalsOf } from './terminals.ts';

/** A cut before knobs. */
export interface PlannedCut {
  readonly spine: Spine;
  readonly from: CutEnd;
  readonly to: CutEnd;
}

/** A tree of cuts that makes every face fit. */
export interface CutPlan {
  readonly cuts: readonly PlannedCut[];
  readonly pieces: number;
  readonly cost: number;
  /** A seam ends on an opening and goes on at its other side. */
  readonly throughOpening: boolean;
}

/** How hard to look. */
export type SeamEffort = 'quick' | 'normal';

/** What the search works on; built once per task. */
export interface SearchGround {
  readonly task: SeamTask;
  readonly shape: Shape;
  readonly sizes: SeamSizes;
  readonly ground: SeamGround;
  readonly coarse: PartFields;
  readonly fine: PartFields;
  readonly context: WorkContext;
  readonly effort: SeamEffort;
  /** Ways searched so far, and how many there may be before the search turns greedy. */
  readonly budget: { routes: number; readonly most: number };
  readonly progress: (done: number) => void;
}

/** How wide the search looks at each depth of the tree. */
interface Width {
  readonly beam: number;
  readonly candidates: number;
  readonly slack: number;
}

export interface SearchResult {
  /** Best first: fewest pieces, then least cost; some with a piece more that hide more. */
  readonly plans: readonly CutPlan[];
  /** Why the last face that could not be cut was given up, when there are no plans. */
  readonly blocked: 'no-room' | 'no-way' | null;
}

/**
 * Cut a part until every piece fits, with a small beam over the tree of cuts.
 * @param slack - plans with up to this many pieces more than the fewest are looked for too.
 * @throws SeamError `cancelled`.
 */
export async function searchCuts(ground: SearchGround, slack: number): Promise<SearchResult> {
  const face = arrange(ground.shape, [])[0]!;
  const state = { blocked: null as SearchResult['blocked'] };
  const plans = await solve(ground, [], face, 0, slack, state);
  return { plans, blocked: plans.length > 0 ? null : (state.blocked ?? 'no-way') };
}

/**
 * Cut one face along the best of the given candidates.
 * @returns the cut, or null when none of them can be routed.
 */
export async function cutAlong(
  ground: SearchGround,
  cuts: readonly PlannedCut[],
  face: Face,
  candidates: readonly Halves[],
  rho: number,
): Promise<PlannedCut | null> {
  const samples = outlineSamples(face, ground.shape, spinesOf(cuts), junctionsOf(cuts), ground.sizes);
  const box = commonBox(ground.task.limits, ground.task.kerf);
  // Few candidates in narrow bands: the fine grid at once.
  const fine = { ...ground, coarse: ground.fine };
  const edgeClear = clearOf(fine, false);
  const routed = await routesFor(fine, face, samples, candidates, box, rho, edgeClear);
  if (routed.length === 0) return null;
  const width = { beam: 1, candidates: candidates.length, slack: 0 };
  return smoothBest(fine, face, routed, rho, edgeClear, width)[0]?.cut ?? null;
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

/** Does the face fit every limit, measured on its exact curves? */
export function doesFit(ground: SearchGround, face: Face): boolean {
  const { task, shape } = ground;
  const hull = convexHull(face.outer);
  return (
    roughFit(hull, task.limits, task.kerf) && exactFit(faceShape(face, shape), hull, task.limits, task.kerf) !== null
  );
}

/** The face on one side of a cut. */
export function sideOf(faces: readonly Face[], cut: number, forward: boolean): Face | null {
  return faces.find((face) => face.loop.some((step) => step.edge.cut === cut && step.forward === forward)) ?? null;
}

/**
 * The same plan with its largest piece cut once more, for those who want a piece more than needed.
 * @returns null when no seam parts it.
 */
export async function splitFurther(ground: SearchGround, plan: CutPlan): Promise<CutPlan | null> {
  const { cuts } = plan;
  const faces = facesOf(ground.shape, cuts).sort((a, b) => ringArea(b.outer) - ringArea(a.outer));
  for (const face of faces) {
    const samples = outlineSamples(face, ground.shape, spinesOf(cuts), junctionsOf(cuts), ground.sizes);
    const rho = 1;
    const edgeClear = clearOf(ground, false);
    const box = commonBox(ground.task.limits, ground.task.kerf);
    const routed = await routesFor(
      ground,
      face,
      samples,
      halvingHalves(ringOfSamples(face, samples)),
      box,
      rho,
      edgeClear,
    );
    if (routed.length === 0) continue;
    const [best] = smoothBest(ground, face, routed, rho, edgeClear, { beam: 1, candidates: 12, slack: 0 });
    if (best === undefined) continue;
    return { ...plan, cuts: [...cuts, best.cut], pieces: plan.pieces + 1, cost: plan.cost + best.cost };
  }
  return null;
}

function spinesOf(cuts: readonly PlannedCut[]): Spine[] {
  return cuts.map((cut) => cut.spine);
}

/** How far a seam keeps from the outline but for its ends; tight where it must. */
function clearOf(ground: SearchGround, isTight: boolean): number {
  return isTight ? 0.6 * ground.sizes.web + 1 : ground.sizes.web + ground.coarse.grid.step / 2 + 2;
}

/** Faces of a set of cuts. */
export function facesOf(shape: Shape, cuts: readonly PlannedCut[]): Face[] {
  return arrange(shape, cuts.map(arrangedCut));
}

export function arrangedCut(cut: PlannedCut): ArrangedCut {
  return {
    from: cut.from,
    to: cut.to,
    length: cut.spine.length,
    stretch: (s0, s1) => spineStretch(cut.spine, s0, s1),
  };
}

/** Distances along each cut at which others end on it. */
export function junctionsOf(cuts: readonly PlannedCut[]): number[][] {
  const out: number[][] = cuts.map(() => []);
  for (const cut of cuts) {
    for (const end of [cut.from, cut.to]) if (end.kind === 'cut') out[end.cut]!.push(end.s);
  }
  return out;
}

function widthAt(ground: SearchGround, depth: number, expected: number, slack: number): Width {
  const isSpent = ground.budget.routes > ground.budget.most;
  if (ground.effort === 'quick') return { beam: depth === 0 ? 2 : 1, candidates: depth === 0 ? 24 : 10, slack: 0 };
  if (isSpent) return { beam: 1, candidates: 10, slack: 0 };
  if (expected > 8) return { beam: depth === 0 ? 2 : 1, candidates: depth === 0 ? 36 : 14, slack: 0 };
  if (expected > 4) return { beam: depth === 0 ? 3 : 1, candidates: depth === 0 ? 48 : 20, slack: 1 };
  if (depth === 0) return { beam: 6, candidates: 90, slack: 1 + slack };
  if (depth === 1) return { beam: 2, candidates: 36, slack: 1 };
  return { beam: 1, candidates: 24, slack: 0 };
}

async function solve(
  ground: SearchGround,
  cuts: readonly PlannedCut[],
  face: Face,
  depth: number,
  slack: number,
  state: { blocked: SearchResult['blocked'] },
): Promise<CutPlan[]> {
  await breathe(ground.context.signal);
  const { shape } = ground;
  if (doesFit(ground, face)) {
    return [{ cuts, pieces: 1, cost: 0, throughOpening: false }];
  }
  if (depth > 12) return [];
  const found = await cutsFor(ground, cuts, face, depth, slack, state);
  const plans: CutPlan[] = [];
  let best = Infinity;
  for (const { cut, cost } of found) {
    const index = cuts.length;
    const withCut = [...cuts, cut];
    const left = sideOf(facesOf(shape, withCut), index, true);
    if (left === null) continue;
    const lefts = await solve(ground, withCut, left, depth + 1, 0, state);
    for (const leftPlan of lefts.slice(0, 2)) {
      // Not one piece too many for anything still wanted: spare the other side.
      if (leftPlan.pieces + 1 > best + 1 + slack) continue;
      const right = sideOf(facesOf(shape, leftPlan.cuts), index, false);
      if (right === null) continue;
      const rights = await solve(ground, leftPlan.cuts, right, depth + 1, 0, state);
      for (const rightPlan of rights.slice(0, 2)) {
        const pieces = leftPlan.pieces + rightPlan.pieces;
        const throughOpening = leftPlan.throughOpening || rightPlan.throughOpening;
        plans.push({ cuts: rightPlan.cuts, pieces, cost: cost + leftPlan.cost + rightPlan.cost, throughOpening });
        best = Math.min(best, pieces);
      }
    }
    if (depth === 0) ground.progress((found.findIndex((entry) => entry.cut === cut) + 1) / found.length);
  }
  plans.sort((a, b) => a.pieces - b.pieces || a.cost - b.cost);
  return plans.slice(0, depth === 0 ? 40 : 4);
}

/** The best few cuts of one face, smooth and exact. */
async function cutsFor(
  ground: SearchGround,
  cuts: readonly PlannedCut[],
  face: Face,
  depth: number,
  slack: number,
  state: { blocked: SearchResult['blocked'] },
): Promise<{ cut: PlannedCut; cost: number; pieces: number }[]> {
  const { task, shape, sizes } = ground;
  const box = commonBox(task.limits, task.kerf);
  const samples = outlineSamples(face, shape, spinesOf(cuts), junctionsOf(cuts), sizes);
  const outline = ringOfSamples(face, samples);
  // First with room for knobs to either side, then with less: a seam without knobs is better than none.
  for (const rho of [sizes.reach + 0.5, 0.5 * sizes.reach, 1]) {
    const expected = expectedPieces(outline, box, rho);
    const width = widthAt(ground, depth, expected, slack);
    const candidates = candidateHalves(outline, box, rho, width.slack, width.candidates);
    if (candidates.length === 0) {
      state.blocked ??= 'no-room';
      continue;
    }
    for (const isTight of [false, true]) {
      const edgeClear = clearOf(ground, isTight);
      const routed = await routesFor(ground, face, samples, candidates, box, rho, edgeClear);
      if (routed.length === 0) continue;
      const smooth = smoothBest(ground, face, routed, rho, edgeClear, width);
      if (smooth.length > 0) return smooth;
    }
    state.blocked = 'no-way';
  }
  return [];
}

interface Routed {
  readonly halves: Halves;
  readonly route: Route;
  readonly pieces: number;
  /** Cost, raised for lopsided cuts. */
  readonly rank: number;
}

/** A seam that parts off next to nothing counts this much dearer than one through the middle. */
const UNBALANCE_COST = 0.3;

/** A cut that passes by a pin it could have met ranks behind all that meet it. */
const MISSED_PIN_COST = 1e6;

async function routesFor(
  ground: SearchGround,
  face: Face,
  samples: readonly OutlineSample[],
  candidates: readonly Halves[],
  box: Box,
  rho: number,
  edgeClear: number,
): Promise<Routed[]> {
  const fields = faceFields(ground.coarse, face, ground.sizes, edgeClear);
  const terminals = terminalsOf(samples, fields, ground.sizes, edgeClear);
  const out: Routed[] = [];
  const seen = new Map<string, number>();
  let cheapest = Infinity;
  const pins = ground.task.wishes.pins.filter(({ x, y }) => {
    const cell = cellAt(fields.grid, x, y);
    return cell >= 0 && fields.cost[cell]! < Infinity;
  });
  const missed = pins.length > 0 ? MISSED_PIN_COST : 0;
  for (const halves of candidates) {
    await breathe(ground.context.signal);
    for (const gap of gapsBetween(samples, halves)) {
      const sources = terminals.filter((terminal) => isInStretch(terminal.sample, gap.before, samples.length));
      const targets = terminals.filter((terminal) => isInStretch(terminal.sample, gap.after, samples.length));
      if (sources.length === 0 || targets.length === 0) continue;
      ground.budget.routes++;
      // Far dearer than the best so far is not worth finishing; a piece less may be worth some of it.
      const route = cheapestRoute(fields, halves, rho, sources, targets, 4 * cheapest + 4000);
      if (route === null) continue;
      cheapest = Math.min(cheapest, route.cost);
      for (const pin of pins) {
        const pinned = routeVia(fields, halves, Math.min(rho, 4), sources, targets, pin);
        if (pinned === null) continue;
        const { pieces, balance } = sidesOf(ground, samples, pinned, box, rho);
        out.push({ halves, route: pinned, pieces, rank: pinned.cost * (1 + UNBALANCE_COST * (1 - balance)) });
      }
      const key = [route.from.sample, route.to.sample].sort((a, b) => a - b).join(' ');
      const known = seen.get(key);
      if (known !== undefined && Math.abs(known - route.cost) < 0.01 * known) continue;
      seen.set(key, route.cost);
      const { pieces, balance } = sidesOf(ground, samples, route, box, rho);
      out.push({ halves, route, pieces, rank: route.cost * (1 + UNBALANCE_COST * (1 - balance)) + missed });
    }
  }
  return out.sort((a, b) => a.pieces - b.pieces || a.rank - b.rank);
}

/** Pieces that the two sides of a route are expected to need, and the smaller side's area over half of the face's. */
function sidesOf(
  ground: SearchGround,
  samples: readonly OutlineSample[],
  route: Route,
  box: Box,
  rho: number,
): { pieces: number; balance: number } {
  const n = samples.length;
  let pieces = 0;
  const areas: number[] = [];
  for (const [first, last, way] of [
    [route.from.sample, route.to.sample, -1],
    [route.to.sample, route.from.sample, 1],
  ] as const) {
    const points: number[] = [];
    const count = (last - first + n) % n;
    for (let k = 0; k < count; k += 3) {
      const sample = samples[(first + k) % n]!;
      points.push(sample.x, sample.y);
    }
    const seam = way > 0 ? route.points : [...route.points].reverse();
    for (const { x, y } of seam) points.push(x, y);
    const ring = Float64Array.from(points);
    const fits = likelyFit(convexHull(ring), ground.task.limits, ground.task.kerf);
    pieces += fits ? 1 : Math.max(2, expectedPieces(ring, box, rho));
    areas.push(Math.abs(ringArea(ring)));
  }
  return { pieces, balance: (2 * Math.min(...areas)) / (areas[0]! + areas[1]!) };
}

function smoothBest(
  ground: SearchGround,
  face: Face,
  routed: readonly Routed[],
  rho: number,
  edgeClear: number,
  width: Width,
): { cut: PlannedCut; cost: number; pieces: number }[] {
  const fields = faceFields(ground.fine, face, ground.sizes, edgeClear);
  const fewest = routed[0]!.pieces;
  const out: { cut: PlannedCut; cost: number; pieces: number }[] = [];
  for (let extra = 0; extra <= width.slack; extra++) {
    let taken = 0;
    for (const { halves, route, pieces, rank } of routed) {
      if (pieces !== fewest + extra) continue;
      if (taken >= (extra === 0 ? width.beam : Math.ceil(width.beam / 2))) break;
      const refined = route.via === null ? (refine(fields, halves, route, rho) ?? route) : route;
      const smooth =
        smoothRoute(fields, halves, refined, rho, ground.sizes) ??
        smoothRoute(fields, halves, route, rho, ground.sizes);
      if (smooth === null) continue;
      taken++;
      const cut = { spine: smooth.spine, from: refined.from.end, to: refined.to.end };
      out.push({ cut, cost: smooth.cost + rank - route.cost, pieces });
    }
  }
  return out;
}

/** The same ends on the finer grid. */
function refine(fields: FaceFields, halves: Halves, route: Route, rho: number): Route | null {
  return cheapestRoute(fields, halves, rho, [route.from], [route.to]);
}

/** Every third sample, and the corners that stand out: estimates need no more. */
function ringOfSamples(face: Face, samples: readonly OutlineSample[]): Ring {
  const ring = [...convexHull(face.outer)];
  for (let i = 0; i < samples.length; i += 3) ring.push(samples[i]!.x, samples[i]!.y);
  return Float64Array.from(ring);
}

let lastBreath = 0;

/** Let the event loop run now and then, so that a cancel arrives. */
export async function breathe(signal: AbortSignal | undefined): Promise<void> {
  if (signal?.aborted) throw new SeamError('cancelled', 'Planning of seams was called off');
  const now = Date.now();
  if (now - lastBreath < 25) return;
  await new Promise<void>((resolve) => setTimeout(resolve, 0));
  lastBreath = Date.now();
  if (signal?.aborted) throw new SeamError('cancelled', 'Planning of seams was called off');
}
