import { convexHull } from '@underlap/geometry/hull';
import type { Point } from '@underlap/geometry/point';
import { type Ring, ringArea } from '@underlap/geometry/ring';
import type { Face } from './arrangement.ts';
import { candidateHalves, expectedPieces, halvingHalves } from './candidates.ts';
import { type FaceFields, faceFields } from './fields.ts';
import { commonBox, likelyFit } from './fit.ts';
import { cellAt, sampleField } from './grid.ts';
import { gapsBetween, type Halves, isInStretch } from './halves.ts';
import { cheapestRoute, type Route, routeVia } from './route.ts';
import { breathe, junctionsOf, type PlannedCut, type SearchGround, spinesOf } from './search-ground.ts';
import { smoothRoute } from './smooth.ts';
import { type Spine, spineSamples } from './spine.ts';
import { type OutlineSample, outlineSamples, terminalsOf } from './terminals.ts';

/** A cut of one face and what it is ranked by. */
export interface FoundCut {
  readonly cut: PlannedCut;
  readonly cost: number;
  /** Pieces that both sides are expected to become. */
  readonly pieces: number;
  /** Length of the cut that lies bare, mm. */
  readonly bareMm: number;
}

/** How wide the search looks at each depth of the tree. */
export interface Width {
  readonly beam: number;
  readonly candidates: number;
  readonly slack: number;
}

/** Why a face could not be cut. */
export type Blocked = 'no-room' | 'no-way';

/** How a seam is fitted into a face: what is asked for first, and what is given up where there is no other way. */
interface Strait {
  /** Room for knobs that either half must leave beside the seam, mm. */
  readonly rho: number;
  /** A seam keeps this far from the outline but for its ends, mm. */
  readonly edgeClear: number;
  /** May its ends leave thin corners? */
  readonly mayBeThin: boolean;
}

function straitOf(ground: SearchGround, rho: number, isTight: boolean): Strait {
  const { web } = ground.sizes;
  const edgeClear = isTight ? 0.6 * web + 1 : web + ground.coarse.grid.step / 2 + 2;
  return { rho, edgeClear, mayBeThin: isTight };
}

/**
 * Cut one face along the best of the given candidates.
 * @param rho - room for knobs beside the seam, mm.
 * @returns the cut, or null when none of them can be routed.
 */
export async function cutAlong(
  ground: SearchGround,
  cuts: readonly PlannedCut[],
  face: Face,
  candidates: readonly Halves[],
  rho: number,
): Promise<FoundCut | null> {
  const samples = samplesOf(ground, cuts, face);
  // Few candidates in narrow bands: the fine grid at once.
  const fine = { ...ground, coarse: ground.fine };
  const strait = straitOf(fine, rho, false);
  const width = { beam: 1, candidates: candidates.length, slack: 0 };
  const routed = await routesFor(fine, face, samples, candidates, strait, width);
  return smoothBest(fine, face, routed, strait, width)[0] ?? null;
}

/** The best few cuts of one face, smooth and exact. */
export async function cutsOfFace(
  ground: SearchGround,
  cuts: readonly PlannedCut[],
  face: Face,
  widthFor: (expected: number) => Width,
  state: { blocked: Blocked | null },
): Promise<FoundCut[]> {
  const { task, sizes } = ground;
  const box = commonBox(task.limits, task.kerf);
  const samples = samplesOf(ground, cuts, face);
  const outline = ringOfSamples(face, samples);
  // First with room for knobs to either side, then with less: a seam without knobs is better than none.
  for (const rho of [sizes.reach + 0.5, 0.5 * sizes.reach, 1]) {
    const width = widthFor(expectedPieces(outline, box, rho));
    const candidates = candidateHalves(outline, box, rho, width.slack, width.candidates);
    if (candidates.length === 0) {
      state.blocked ??= 'no-room';
      continue;
    }
    for (const isTight of [false, true]) {
      const strait = straitOf(ground, rho, isTight);
      const routed = await routesFor(ground, face, samples, candidates, strait, width);
      const smooth = smoothBest(ground, face, routed, strait, width);
      if (smooth.length > 0) return smooth;
    }
    state.blocked = 'no-way';
  }
  return [];
}

/** The best cut of a face in two fair shares, whether it has to be cut or not. */
export async function halveFace(
  ground: SearchGround,
  cuts: readonly PlannedCut[],
  face: Face,
): Promise<FoundCut | null> {
  const samples = samplesOf(ground, cuts, face);
  const strait = straitOf(ground, 1, false);
  const width = { beam: 1, candidates: 12, slack: 0 };
  const candidates = halvingHalves(ringOfSamples(face, samples));
  const routed = await routesFor(ground, face, samples, candidates, strait, width);
  return smoothBest(ground, face, routed, strait, width)[0] ?? null;
}

function samplesOf(ground: SearchGround, cuts: readonly PlannedCut[], face: Face): OutlineSample[] {
  return outlineSamples(face, ground.shape, spinesOf(cuts), junctionsOf(cuts), ground.sizes);
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
  strait: Strait,
  width: Width,
): Promise<Routed[]> {
  const { rho } = strait;
  const fields = faceFields(ground.coarse, face, ground.sizes, strait.edgeClear);
  const terminals = terminalsOf(samples, fields, ground.sizes, strait.edgeClear, strait.mayBeThin);
  const out: Routed[] = [];
  const seen = new Map<string, number>();
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
      const route = cheapestRoute(fields, halves, rho, sources, targets, worthFinding(out, halves.pieces, width));
      if (route === null) continue;
      for (const pin of pins) {
        const pinned = routeVia(fields, halves, Math.min(rho, 4), sources, targets, pin);
        if (pinned === null) continue;
        const { pieces, balance } = sidesOf(ground, samples, pinned, rho);
        out.push({ halves, route: pinned, pieces, rank: pinned.cost * (1 + UNBALANCE_COST * (1 - balance)) });
      }
      const key = [route.from.sample, route.to.sample].sort((a, b) => a - b).join(' ');
      const known = seen.get(key);
      if (known !== undefined && Math.abs(known - route.cost) < 0.01 * known) continue;
      seen.set(key, route.cost);
      const { pieces, balance } = sidesOf(ground, samples, route, rho);
      out.push({ halves, route, pieces, rank: route.cost * (1 + UNBALANCE_COST * (1 - balance)) + missed });
    }
  }
  return out.sort((a, b) => a.pieces - b.pieces || a.rank - b.rank);
}

/** So many ways are ranked before the dear ones are left unfinished: some of the best turn out too crooked to be made smooth. */
const SPARE_WAYS = 2;

/** A way to fewer pieces than any so far may cost this many times as much as the cheapest, and this much more. */
const FEWER_FACTOR = 4;
const FEWER_EXTRA = 4000;

/** The cost beyond which a way with that many expected pieces will not be among the best. */
function worthFinding(found: readonly Routed[], pieces: number, width: Width): number {
  const fewest = found.reduce((least, entry) => Math.min(least, entry.pieces), Infinity);
  if (pieces < fewest) {
    return FEWER_FACTOR * found.reduce((least, entry) => Math.min(least, entry.route.cost), Infinity) + FEWER_EXTRA;
  }
  const same = found.filter((entry) => entry.pieces === fewest).sort((a, b) => a.rank - b.rank);
  const wanted = SPARE_WAYS * width.beam;
  const distinct: Routed[] = [];
  for (const entry of same) {
    if (!distinct.some((other) => areAlike(entry.route, other.route))) distinct.push(entry);
    if (distinct.length === wanted) return entry.rank;
  }
  return Infinity;
}

/** Ways that begin, pass and end this near to each other are one way, mm. */
const ALIKE_MM = 9;

function areAlike(a: Route, b: Route): boolean {
  const middle = (route: Route) => route.points[route.points.length >> 1]!;
  const isNear = (p: Point, q: Point) => Math.hypot(p.x - q.x, p.y - q.y) < ALIKE_MM;
  const doEndsMeet = (isNear(a.from, b.from) && isNear(a.to, b.to)) || (isNear(a.from, b.to) && isNear(a.to, b.from));
  return doEndsMeet && isNear(middle(a), middle(b));
}

/** Pieces that the two sides of a route are expected to need, and the smaller side's area over half of the face's. */
function sidesOf(
  ground: SearchGround,
  samples: readonly OutlineSample[],
  route: Route,
  rho: number,
): { pieces: number; balance: number } {
  const n = samples.length;
  const box = commonBox(ground.task.limits, ground.task.kerf);
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
  { rho, edgeClear }: Strait,
  width: Width,
): FoundCut[] {
  if (routed.length === 0) return [];
  const fields = faceFields(ground.fine, face, ground.sizes, edgeClear);
  const fewest = routed[0]!.pieces;
  const out: FoundCut[] = [];
  for (let extra = 0; extra <= width.slack; extra++) {
    const taken: Route[] = [];
    for (const { halves, route, pieces, rank } of routed) {
      if (pieces !== fewest + extra || taken.some((other) => areAlike(route, other))) continue;
      if (taken.length >= Math.max(1, extra === 0 ? width.beam : width.beam - 1)) break;
      const refined = route.via === null ? (refine(fields, halves, route, rho) ?? route) : route;
      const smooth =
        smoothRoute(fields, halves, refined, rho, ground.sizes) ??
        (refined === route ? null : smoothRoute(fields, halves, route, rho, ground.sizes));
      if (smooth === null) continue;
      taken.push(route);
      const cut = { spine: smooth.spine, from: refined.from.end, to: refined.to.end };
      out.push({ cut, cost: smooth.cost + rank - route.cost, pieces, bareMm: bareLength(fields, smooth.spine) });
    }
  }
  return out;
}

/** The finer grid may find a way this much dearer than the coarse one did: what it measures better. */
const REFINED_FACTOR = 1.25;
const REFINED_EXTRA = 200;

/** The same ends on the finer grid. */
function refine(fields: FaceFields, halves: Halves, route: Route, rho: number): Route | null {
  return cheapestRoute(fields, halves, rho, [route.from], [route.to], REFINED_FACTOR * route.cost + REFINED_EXTRA);
}

/** Length of a seam that no cover hides, to the grid's precision. */
function bareLength(fields: FaceFields, spine: Spine): number {
  const samples = spineSamples(spine, 1);
  const count = samples.length / 3;
  let bare = 0;
  for (let k = 0; k < count; k++) {
    if (sampleField(fields.grid, fields.part.depth, samples[3 * k + 1]!, samples[3 * k + 2]!) <= 0) bare++;
  }
  return (bare / count) * spine.length;
}

/** Every third sample, and the corners that stand out: estimates need no more. */
function ringOfSamples(face: Face, samples: readonly OutlineSample[]): Ring {
  const ring = [...convexHull(face.outer)];
  for (let i = 0; i < samples.length; i += 3) ring.push(samples[i]!.x, samples[i]!.y);
  return Float64Array.from(ring);
}
