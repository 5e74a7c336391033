import { convexHull } from '@underlap/geometry/hull';
import type { Point } from '@underlap/geometry/point';
import { type Ring, ringArea } from '@underlap/geometry/ring';
import type { Face } from './arrangement.ts';
import { candidateHalves, expectedPieces, sharingHalves } from './candidates.ts';
import { FaceWork, type Strait } from './face-work.ts';
import type { FaceFields } from './fields.ts';
import { commonBox, likelyGoesIn } from './goes-in.ts';
import { cellAt, sampleField } from './grid.ts';
import { gapsBetween, type Halves, isInStretch, type KnobRoom } from './halves.ts';
import { cheapestRoute, corridorOf, type Route, type RouteLeg, routeVia } from './route.ts';
import { breathe, type PlannedCut, type SearchGround } from './search-ground.ts';
import { smoothRoute } from './smooth.ts';
import { type Spine, spineSamples } from './spine.ts';
import type { OutlineSample } from './terminals.ts';

/** A way to part one face, and what it is ranked by. */
export interface FoundCut {
  /** One cut, or several in a row with an opening between each two; all in the same direction. */
  readonly cuts: readonly PlannedCut[];
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

/**
 * Cut one face along the best of the given candidates.
 * @param room - room for knobs, as pieces are counted by it.
 * @returns the cut, or null when none of them can be routed.
 */
export async function cutAlong(
  ground: SearchGround,
  cuts: readonly PlannedCut[],
  face: Face,
  candidates: readonly Halves[],
  room: KnobRoom,
): Promise<FoundCut | null> {
  // Few candidates in narrow bands: the fine grid at once.
  const work = new FaceWork({ ...ground, coarse: ground.fine }, cuts, face);
  const width = { beam: 1, candidates: candidates.length, slack: 0 };
  for (const isTight of [false, true]) {
    const strait = { room, isTight };
    const routed = await routesFor(work, candidates, strait, width);
    const [best] = smoothBest(work, routed, strait, width);
    if (best !== undefined) return best;
  }
  return null;
}

/**
 * The best few cuts of one face, smooth and exact; fewest expected pieces first.
 * @param mayLookAgain - look again with less room for knobs where that promises a piece less?
 */
export async function cutsOfFace(
  ground: SearchGround,
  cuts: readonly PlannedCut[],
  face: Face,
  mayLookAgain: boolean,
  widthFor: (expected: number) => Width,
  state: { blocked: Blocked | null },
): Promise<FoundCut[]> {
  const { task, sizes } = ground;
  const box = commonBox(task.limits, task.kerf);
  const work = new FaceWork(ground, cuts, face);
  const outline = ringOfSamples(face, work.samples(false));
  const reach = sizes.reach + 0.5;
  let found: FoundCut[] = [];
  let fewest = Infinity;
  let most = Infinity;
  // First with room for knobs to either side, then to one side, then with less; a seam without knobs is better than none.
  for (const room of [
    { rho: reach, oneSided: false },
    { rho: reach, oneSided: true },
    { rho: 0.5 * sizes.reach, oneSided: false },
    { rho: 0.5 * sizes.reach, oneSided: true },
    { rho: 1, oneSided: false },
  ]) {
    const isPlain = room.rho === 1;
    if (fewest <= 2 || ((isPlain || !mayLookAgain) && found.length > 0)) break;
    const wide = widthFor(expectedPieces(outline, box, room));
    // A second look need not be as wide as the first.
    const width = found.length === 0 ? wide : { ...wide, beam: Math.ceil(wide.beam / 2), slack: 0 };
    const candidates = candidateHalves(outline, box, room, width.slack, width.candidates);
    if (candidates.length === 0) {
      state.blocked ??= 'no-room';
      continue;
    }
    // Less room is worth a look only where it promises a piece less.
    const promised = Math.min(...candidates.map((halves) => halves.pieces));
    if (promised >= fewest) continue;
    const wanted = found.length > 0 ? candidates.filter((halves) => halves.pieces < fewest) : candidates;
    for (const isTight of [false, true]) {
      const strait = { room, isTight };
      const routed = await routesFor(work, wanted, strait, width);
      const smooth = smoothBest(work, routed, strait, width);
      if (smooth.length === 0) continue;
      found = [...found, ...smooth];
      most = Math.min(most, width.beam + width.slack * Math.max(1, width.beam - 1));
      fewest = Math.min(...found.map((entry) => entry.pieces));
      break;
    }
    if (found.length === 0) state.blocked = 'no-way';
  }
  return found.sort((a, b) => a.pieces - b.pieces || a.cost - b.cost).slice(0, Number.isFinite(most) ? 2 * most : 0);
}

/**
 * The best cut of a face in two, whether it has to be cut or not.
 * @param share - of the face that the smaller side should take, 0..0.5.
 */
export async function shareFace(
  ground: SearchGround,
  cuts: readonly PlannedCut[],
  face: Face,
  share = 0.5,
): Promise<FoundCut | null> {
  const work = new FaceWork(ground, cuts, face);
  const candidates = sharingHalves(ringOfSamples(face, work.samples(false)), share);
  const width = { beam: 1, candidates: candidates.length, slack: 0 };
  for (const isTight of [false, true]) {
    const strait = { room: { rho: 1, oneSided: false }, isTight };
    const routed = await routesFor(work, candidates, strait, width, share);
    const [best] = smoothBest(work, routed, strait, width);
    if (best !== undefined) return best;
  }
  return null;
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
  work: FaceWork,
  candidates: readonly Halves[],
  { room, isTight }: Strait,
  width: Width,
  share = 0.5,
): Promise<Routed[]> {
  const { ground } = work;
  const samples = work.samples(isTight);
  const fields = work.fields('coarse', isTight);
  const terminals = work.terminals(isTight);
  const portals = work.portals(isTight);
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
      const { inset } = halves;
      const limit = worthFinding(out, halves.pieces, width);
      const route = cheapestRoute(fields, halves, inset, sources, targets, { limit, portals });
      if (route === null) continue;
      const rankOf = (cost: number, balance: number) =>
        cost * (1 + UNBALANCE_COST * (share < 0.5 ? 2 * Math.abs(balance - 2 * share) : 1 - balance));
      for (const pin of pins) {
        const pinned = routeVia(fields, halves, Math.min(inset, 4), sources, targets, pin);
        if (pinned === null) continue;
        const { pieces, balance } = sidesOf(ground, samples, pinned, room);
        out.push({ halves, route: pinned, pieces, rank: rankOf(pinned.cost, balance) });
      }
      const key = [startOf(route).sample, endOf(route).sample].sort((a, b) => a - b).join(' ');
      const known = seen.get(key);
      if (known !== undefined && Math.abs(known - route.cost) < 0.01 * known) continue;
      seen.set(key, route.cost);
      const { pieces, balance } = sidesOf(ground, samples, route, room);
      out.push({ halves, route, pieces, rank: rankOf(route.cost, balance) + missed });
    }
  }
  return out.sort((a, b) => a.pieces - b.pieces || a.rank - b.rank);
}

function startOf(route: Route) {
  return route.legs[0]!.from;
}

function endOf(route: Route) {
  return route.legs[route.legs.length - 1]!.to;
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
  if (a.legs.length !== b.legs.length) return false;
  const middle = ({ points }: RouteLeg) => points[points.length >> 1]!;
  const isNear = (p: Point, q: Point) => Math.hypot(p.x - q.x, p.y - q.y) < ALIKE_MM;
  const areLegsAlike = (p: RouteLeg, q: RouteLeg) =>
    isNear(middle(p), middle(q)) &&
    ((isNear(p.from, q.from) && isNear(p.to, q.to)) || (isNear(p.from, q.to) && isNear(p.to, q.from)));
  const n = a.legs.length;
  return (
    a.legs.every((leg, k) => areLegsAlike(leg, b.legs[k]!)) ||
    (n > 1 && a.legs.every((leg, k) => areLegsAlike(leg, b.legs[n - 1 - k]!)))
  );
}

/** Pieces that the two sides of a route are expected to need, and the smaller side's area over half of the face's. */
function sidesOf(
  ground: SearchGround,
  samples: readonly OutlineSample[],
  route: Route,
  room: KnobRoom,
): { pieces: number; balance: number } {
  const n = samples.length;
  const box = commonBox(ground.task.limits, ground.task.kerf);
  let pieces = 0;
  const areas: number[] = [];
  const line = route.legs.flatMap(({ points }) => points);
  for (const [first, last, way] of [
    [startOf(route).sample, endOf(route).sample, -1],
    [endOf(route).sample, startOf(route).sample, 1],
  ] as const) {
    const points: number[] = [];
    const count = (last - first + n) % n;
    for (let k = 0; k < count; k += 3) {
      const sample = samples[(first + k) % n]!;
      points.push(sample.x, sample.y);
    }
    const seam = way > 0 ? line : [...line].reverse();
    for (const { x, y } of seam) points.push(x, y);
    const ring = Float64Array.from(points);
    const fits = likelyGoesIn(convexHull(ring), ground.task.limits, ground.task.kerf);
    pieces += fits ? 1 : Math.max(2, expectedPieces(ring, box, room));
    areas.push(Math.abs(ringArea(ring)));
  }
  return { pieces, balance: (2 * Math.min(...areas)) / (areas[0]! + areas[1]!) };
}

function smoothBest(work: FaceWork, routed: readonly Routed[], { isTight }: Strait, width: Width): FoundCut[] {
  if (routed.length === 0) return [];
  const { ground } = work;
  const fields = work.fields('fine', isTight);
  const fewest = routed[0]!.pieces;
  const out: FoundCut[] = [];
  for (let extra = 0; extra <= width.slack; extra++) {
    const taken: Route[] = [];
    for (const { halves, route, pieces, rank } of routed) {
      if (pieces !== fewest + extra || taken.some((other) => areAlike(route, other))) continue;
      if (taken.length >= Math.max(1, extra === 0 ? width.beam : width.beam - 1)) break;
      const smooth = route.legs.map((leg) => smoothLeg(ground, fields, halves, leg, route.via));
      const cuts = smooth.flatMap((each) => (each === null ? [] : [each.cut]));
      if (cuts.length < route.legs.length) continue;
      taken.push(route);
      const cost = smooth.reduce((sum, each) => sum + each!.cost, 0);
      const bareMm = cuts.reduce((sum, cut) => sum + bareLength(fields, cut.spine), 0);
      out.push({ cuts, cost: cost + rank - route.cost, pieces, bareMm });
    }
  }
  return out;
}

function smoothLeg(
  ground: SearchGround,
  fields: FaceFields,
  halves: Halves,
  leg: RouteLeg,
  via: Point | null,
): { cut: PlannedCut; cost: number } | null {
  const { inset } = halves;
  const lines = ground.ground.lead;
  const refined = via === null ? (refine(fields, halves, leg) ?? leg) : leg;
  const smooth =
    smoothRoute(fields, halves, refined, inset, ground.sizes, lines, via) ??
    (refined === leg ? null : smoothRoute(fields, halves, leg, inset, ground.sizes, lines, via));
  if (smooth === null) return null;
  return { cut: { spine: smooth.spine, from: refined.from.end, to: refined.to.end }, cost: smooth.cost };
}

/** The finer grid may find a way this much dearer than the coarse one did: what it measures better. */
const REFINED_FACTOR = 1.25;
const REFINED_EXTRA = 200;

/** ... and keeps this near to it, mm. */
const CORRIDOR_MM = 20;

/** The same ends on the finer grid. */
function refine(fields: FaceFields, halves: Halves, leg: RouteLeg): RouteLeg | null {
  const limit = REFINED_FACTOR * leg.cost + REFINED_EXTRA;
  const corridor = corridorOf(fields, leg.points, CORRIDOR_MM);
  return cheapestRoute(fields, halves, halves.inset, [leg.from], [leg.to], { limit, corridor })?.legs[0] ?? null;
}

/** Length of a seam that no cover hides and no drawn line leads, to the grid's precision. */
function bareLength(fields: FaceFields, spine: Spine): number {
  const samples = spineSamples(spine, 1);
  const count = samples.length / 3;
  let bare = 0;
  for (let k = 0; k < count; k++) {
    const [x, y] = [samples[3 * k + 1]!, samples[3 * k + 2]!];
    const { depth, led } = fields.part;
    const isLed = led !== null && sampleField(fields.grid, led, x, y) > 0.4;
    if (!isLed && sampleField(fields.grid, depth, x, y) <= 0) bare++;
  }
  return (bare / count) * spine.length;
}

/** Every third sample, and the corners that stand out: estimates need no more. */
function ringOfSamples(face: Face, samples: readonly OutlineSample[]): Ring {
  const ring = [...convexHull(face.outer)];
  for (let i = 0; i < samples.length; i += 3) ring.push(samples[i]!.x, samples[i]!.y);
  return Float64Array.from(ring);
}
