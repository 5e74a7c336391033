import { flattenContour } from '@underlap/geometry/flatten';
import { convexHull } from '@underlap/geometry/hull';
import type { Ring } from '@underlap/geometry/ring';
import type { Face } from './arrangement.ts';
import type { PartFields, SeamGround } from './fields.ts';
import { type Berth, holdsToo, roomiestBerth, widenedBerth } from './goes-in.ts';
import { ringsOf } from './grid.ts';
import {
  hiddenShare,
  isFree,
  JUDGE_MM,
  type Judge,
  MOST_PINCH_MM,
  PINCH_COST,
  pinchOf,
  shownLength,
} from './judge-knob.ts';
import { type KnobKind, locks } from './knob-kinds.ts';
import { type KnobDesign, type KnobProfile, knobProfile, lockOf } from './knob-profile.ts';
import { NearIndex } from './near-index.ts';
import { facesOf, junctionsOf, type PlannedCut } from './search-ground.ts';
import { roundReach, type SeamSizes } from './sizes.ts';
import { type Spine, spineAt, spineContour, spineSamples } from './spine.ts';
import type { SeamTask } from './task.ts';

/** What is given up, step by step, before a stretch is left without a knob: distance from its ends, then hiding. */
const RELAXED = [
  { share: 1, mayShow: false },
  { share: 0.6, mayShow: false },
  { share: 0.35, mayShow: false },
  { share: 0.6, mayShow: true },
] as const;

/** A design and what it costs to have to take it instead of the best. */
interface Choice {
  readonly design: KnobDesign;
  readonly penalty: number;
}

interface Candidate {
  readonly at: number;
  readonly side: 1 | -1;
  readonly profile: KnobProfile;
  readonly line: Ring;
  readonly penalty: number;
  /** How much of its outline shows, mm. */
  readonly shownMm: number;
}

/** Knobs of every cut, by index; a cut's list is in order of travel. */
export type KnobsByCut = KnobProfile[][];

/** A stretch of a cut between two pieces that got no knob. */
export interface BareStretch {
  readonly cut: number;
  readonly s0: number;
  readonly s1: number;
  readonly why: 'short' | 'no-room';
}

export interface Placed {
  readonly knobs: KnobsByCut;
  readonly bare: readonly BareStretch[];
}

/**
 * Put knobs on all seams of a finished tree of cuts.
 * @param harder - 0 tries the full designs first; 1 only low ones; used when a piece grew beyond its bed.
 * @returns knobs evenly spaced and alternating where they can; every seam and every knob already placed is an obstacle.
 * @remarks Positions every 2 mm on both sides, judged on exact outlines; then dynamic programming over the positions of each
 * stretch, O(positions^2). Same task, same knobs.
 */
export function placeKnobs(
  task: SeamTask,
  ground: SeamGround,
  fields: PartFields,
  cuts: readonly PlannedCut[],
  shape: SeamTask['shape'],
  sizes: SeamSizes,
  harder: 0 | 1,
): Placed {
  const faces = facesOf(shape, cuts);
  const berths = faces.map((face) =>
    task.limits.map((limit) => roomiestBerth(convexHull(face.outer), limit, task.kerf)),
  );
  const choices = choicesFor(task, sizes, harder);
  const walls = new NearIndex();
  walls.addRegion(ground.part);
  for (const ring of ground.obstacles) walls.addRing(ring);
  const bare = new NearIndex();
  for (const ring of ringsOf(ground.bare)) bare.addRing(ring);
  const spineLines = cuts.map((cut) => flattenContour(spineContour(cut.spine), JUDGE_MM));
  const taken = new NearIndex();
  const junctions = junctionsOf(cuts);
  const knobs: KnobsByCut = cuts.map(() => []);
  const without: BareStretch[] = [];

  cuts.forEach((cut, index) => {
    const others = new NearIndex();
    spineLines.forEach((line, other) => {
      if (other !== index) others.addPolyline(line);
    });
    const samples = spineSamples(cut.spine, 2);
    const judge: Judge = {
      task,
      ground,
      fields,
      walls,
      bare,
      others,
      taken,
      spine: cut.spine,
      samples,
      sizes,
      mayShow: false,
    };
    const stops = [0, ...junctions[index]!.slice().sort((a, b) => a - b), cut.spine.length];
    for (let k = 0; k + 1 < stops.length; k++) {
      const s0 = stops[k]!;
      const s1 = stops[k + 1]!;
      const left = faceBeside(faces, index, s0, s1, true);
      const right = faceBeside(faces, index, s0, s1, false);
      const clear0 = k === 0 && cut.from.kind === 'outline' ? sizes.endClear : sizes.junctionClear;
      const clear1 = k + 2 === stops.length && cut.to.kind === 'outline' ? sizes.endClear : sizes.junctionClear;
      let chosen: Candidate[] = [];
      // Short stretches: any knob is better than none, so the run-ups shrink before the knob is given up.
      // Last of all they may peep out from under the cover.
      for (const { share, mayShow } of RELAXED) {
        const candidates = candidatesOn(
          { ...judge, mayShow },
          choices,
          s0,
          s1,
          clear0 * share,
          clear1 * share,
          (side) =>
            // A knob on the left is wood of the piece on the right.
            berthsOf(berths, side > 0 ? right : left),
        );
        chosen = spread(candidates, s0, s1, sizes, cut.spine, hiddenShare(judge, s0, s1));
        if (chosen.length > 0) break;
      }
      for (const { profile, line, side } of chosen) {
        knobs[index]!.push(profile);
        taken.addPolyline(line);
        const owner = side > 0 ? right : left;
        if (owner >= 0)
          berths[owner] = berths[owner]!.map((berth) => (berth === null ? null : widenedBerth(berth, line)));
      }
      if (chosen.length === 0) {
        const isShort = s1 - s0 < 2 * sizes.endClear * 0.35 + sizes.leastNeck + 2 * sizes.fillet + 2;
        without.push({ cut: index, s0, s1, why: isShort ? 'short' : 'no-room' });
      }
    }
  });
  return { knobs, bare: without };
}

/** Designs in order of preference; those that do not lock are the last resort of every wish. */
export function choicesFor(task: SeamTask, sizes: SeamSizes, harder: 0 | 1): Choice[] {
  const { knob } = task.wishes;
  const isWished = (kind: KnobKind) => knob === 'auto' || knob === kind || !locks({ kind });
  return Object.entries(DESIGNS).flatMap(([kind, designs]) => {
    if (!isWished(kind as KnobKind)) return [];
    const choices = designs(sizes, harder);
    return choices.filter(({ design }) => !locks(design) || lockOf(design) - task.fit >= LEAST_LOCK_MM);
  });
}

/** Sizes that each kind is tried in, and what it costs to have to take them. */
const DESIGNS: Readonly<Record<KnobKind, (sizes: SeamSizes, harder: 0 | 1) => readonly Choice[]>> = {
  round: ({ fillet, neck, leastNeck }, harder) =>
    [neck, (neck + leastNeck) / 2, leastNeck * 1.01]
      .map((each, k) => ({
        design: { kind: 'round' as const, neck: each, fillet, reach: roundReach(each, fillet) },
        penalty: 1.5 * k,
      }))
      .slice(harder === 0 ? 0 : 2),
  dovetail: ({ fillet, neck, leastNeck, thickness }, harder) => {
    const low = 2 * fillet + Math.max(1.2, 0.25 * thickness);
    const heights = harder === 0 ? [1.5 * low, low] : [low];
    return heights.flatMap((reach, k) => [
      {
        design: { kind: 'dovetail' as const, neck: Math.max(neck, 1.2 * reach), fillet, reach },
        penalty: 5 + 1.5 * k,
      },
      {
        design: { kind: 'dovetail' as const, neck: Math.max(leastNeck * 1.01, reach), fillet, reach },
        penalty: 7 + 1.5 * k,
      },
    ]);
  },
  step: ({ fillet, neck }) => [
    { design: { kind: 'step', neck: 1.5 * neck, fillet, reach: 2 * fillet + 0.5 }, penalty: 16 },
  ],
};

/** A knob that overlaps its socket by less than this on each side does not hold, mm. Common practice, no source. */
export const LEAST_LOCK_MM = 0.25;

function candidatesOn(
  judge: Judge,
  choices: readonly Choice[],
  s0: number,
  s1: number,
  clear0: number,
  clear1: number,
  berthsFor: (side: 1 | -1) => readonly (Berth | null)[],
): Candidate[] {
  const out: Candidate[] = [];
  const count = Math.max(1, Math.floor((s1 - s0) / 2));
  for (let k = 0; k <= count; k++) {
    const at = s0 + ((s1 - s0) * k) / count;
    for (const side of [1, -1] as const) {
      for (const { design, penalty } of choices) {
        const half = design.neck / 2 + design.fillet;
        if (at - half < s0 + clear0 || at + half > s1 - clear1) continue;
        const profile = knobProfile(judge.spine, at, side, design);
        if (profile === null || profile.from < s0 + clear0 || profile.to > s1 - clear1) continue;
        // Beside a bend a head with flanks may come out narrower than its neck: such a knob slides out.
        const lock = (profile.head - profile.neck) / 2 - judge.task.fit;
        if (locks(profile) && lock < LEAST_LOCK_MM - 0.01) continue;
        const line = flattenContour({ start: profile.start, segments: profile.segments, closed: false }, JUDGE_MM);
        if (!isFree(judge, profile, line)) continue;
        const pinch = pinchOf(judge, profile);
        if (pinch > MOST_PINCH_MM && !judge.mayShow) continue;
        if (!berthsFor(side).every((berth) => berth === null || holdsToo(berth, line))) continue;
        const dearer = penalty + PINCH_COST * pinch;
        out.push({ at, side, profile, line, penalty: dearer, shownMm: shownLength(judge, line) });
        break;
      }
    }
  }
  return out;
}

/**
 * What one mm of a knob that shows is charged: a whole one as much as a gap of two pitches. Short bare stretches of a seam are left
 * to the knobs on either side; where nothing covers the seam, knobs are placed as if nothing showed.
 */
const SHOWN_COST = 1.2;

/** Evenly spaced, alternating, on straight stretches, hidden where they can be: cheapest chain of candidates. */
function spread(
  candidates: readonly Candidate[],
  s0: number,
  s1: number,
  sizes: SeamSizes,
  spine: Spine,
  hidden: number,
): Candidate[] {
  const n = candidates.length;
  if (n === 0) return [];
  const length = s1 - s0;
  const wanted = Math.max(1, Math.round(length / sizes.pitch));
  const pitch = length / wanted;
  const cost = new Float64Array(n).fill(Infinity);
  const from = new Int32Array(n).fill(-1);
  const endCost = (gap: number) => 40 * Math.max(0, gap / pitch - 0.5) ** 2 + 8 * Math.min(0, gap / pitch - 0.5) ** 2;
  let best = Infinity;
  let last = -1;
  for (let j = 0; j < n; j++) {
    const here = candidates[j]!;
    const own = here.penalty + 12 * Math.abs(spineAt(spine, here.at).bend) + SHOWN_COST * hidden * here.shownMm;
    cost[j] = endCost(here.at - s0) + own;
    for (let i = 0; i < j; i++) {
      const there = candidates[i]!;
      const gap = here.at - there.at;
      const room = here.profile.from - there.profile.to;
      if (room < sizes.web + (here.side === there.side ? 0.5 * sizes.neck : 0)) continue;
      const ratio = gap / pitch;
      const uneven = ratio < 3 ? 30 * (ratio - 1) ** 2 : 120 + 60 * (ratio - 3);
      const total = cost[i]! + own + uneven + (here.side === there.side ? 2.5 : 0);
      if (total < cost[j]!) {
        cost[j] = total;
        from[j] = i;
      }
    }
    const whole = cost[j]! + endCost(s1 - here.at);
    if (whole < best) {
      best = whole;
      last = j;
    }
  }
  const out: Candidate[] = [];
  for (let j = last; j >= 0; j = from[j]!) out.push(candidates[j]!);
  return out.reverse();
}

function faceBeside(faces: readonly Face[], cut: number, s0: number, s1: number, forward: boolean): number {
  const middle = (s0 + s1) / 2;
  return faces.findIndex((face) =>
    face.loop.some(
      ({ edge, forward: way }) => edge.cut === cut && way === forward && edge.s0 <= middle && edge.s1 >= middle,
    ),
  );
}

function berthsOf(berths: readonly (readonly (Berth | null)[])[], face: number): readonly (Berth | null)[] {
  return face < 0 ? [] : berths[face]!;
}
