import type { Ring } from '@underlap/geometry/ring';
import type { PartFields, SeamGround } from './fields.ts';
import { sampleField } from './grid.ts';
import type { KnobProfile } from './knob-profile.ts';
import type { NearIndex } from './near-index.ts';
import type { SeamSizes } from './sizes.ts';
import { type Spine, spineAt } from './spine.ts';
import type { SeamTask } from './task.ts';

/** Largest gap between a knob's arcs and the chords it is judged by, mm; webs and landings are measured with this to spare. */
export const JUDGE_MM = 0.04;

/** A stretch of spine this little longer than its chord counts as straight, mm. */
const STRAIGHT_SLACK_MM = 0.01;

/** Everything a knob is judged against. */
export interface Judge {
  readonly task: SeamTask;
  readonly ground: SeamGround;
  readonly fields: PartFields;
  readonly walls: NearIndex;
  readonly bare: NearIndex;
  readonly others: NearIndex;
  readonly taken: NearIndex;
  readonly spine: Spine;
  /** Points of the spine every 2 mm. */
  readonly samples: Float64Array;
  readonly sizes: SeamSizes;
  /** Last resort: may a knob show although its seam is hidden, and may a bend pinch it? */
  readonly mayShow: boolean;
}

/** Is there wood enough round the knob, is it hidden where it must be, and does it keep off its own seam? */
export function isFree(judge: Judge, profile: KnobProfile, line: Ring): boolean {
  const { sizes, ground, fields } = judge;
  const web = sizes.web + JUDGE_MM;
  const mustHide =
    !judge.mayShow && isHidden(judge, profile.from) && isHidden(judge, profile.to) && isHidden(judge, profile.at);
  if (profile.kind === 'round') {
    // The head alone rules most bad places out with three questions.
    const { x, y } = profile.centre;
    const reach = profile.head / 2 + web;
    for (const index of [judge.walls, judge.others, judge.taken]) if (index.distance(x, y, reach) < reach) return false;
  }
  for (let i = 0; i < line.length; i += 2) {
    const x = line[i]!;
    const y = line[i + 1]!;
    if (judge.walls.distance(x, y, web) < web) return false;
    if (judge.others.distance(x, y, web) < web) return false;
    if (judge.taken.distance(x, y, web) < web) return false;
    if (mustHide) {
      if (sampleField(fields.grid, fields.depth, x, y) < 0) return false;
      const landing = ground.landing + JUDGE_MM;
      if (judge.bare.distance(x, y, landing) < landing) return false;
    }
  }
  return keepsOffOwnSpine(judge.samples, profile, line, sizes);
}

/** The rest of its own seam is an obstacle too, where the seam bends round the knob. */
function keepsOffOwnSpine(samples: Float64Array, profile: KnobProfile, line: Ring, sizes: SeamSizes): boolean {
  const radius = profile.head + profile.neck + sizes.web;
  const near: number[] = [];
  let first = -1;
  let last = -1;
  for (let k = 0; k < samples.length; k += 3) {
    const dx = samples[k + 1]! - profile.centre.x;
    const dy = samples[k + 2]! - profile.centre.y;
    if (dx * dx + dy * dy >= radius * radius) continue;
    if (first < 0) first = k;
    last = k;
    const s = samples[k]!;
    if (s <= profile.from - sizes.web || s >= profile.to + sizes.web) near.push(k);
  }
  if (first < 0) return true;
  const chord = Math.hypot(samples[last + 1]! - samples[first + 1]!, samples[last + 2]! - samples[first + 2]!);
  // Beside a straight stretch nothing of the seam comes nearer than the feet.
  if (chord >= samples[last]! - samples[first]! - STRAIGHT_SLACK_MM) return true;
  for (let i = 0; i < line.length; i += 2) {
    for (const k of near) {
      const s = samples[k]!;
      // Next to the feet the profile runs into the spine: there only the distance along it counts.
      const along = s < profile.at ? profile.from - s : s - profile.to;
      const wanted = Math.min(sizes.web, along * 0.95);
      const dx = line[i]! - samples[k + 1]!;
      const dy = line[i + 1]! - samples[k + 2]!;
      if (dx * dx + dy * dy < wanted * wanted) return false;
    }
  }
  return true;
}

function isHidden(judge: Judge, s: number): boolean {
  const { x, y } = spineAt(judge.spine, s);
  return (
    sampleField(judge.fields.grid, judge.fields.depth, x, y) > 0 &&
    judge.bare.distance(x, y, judge.ground.landing) >= judge.ground.landing
  );
}

/** A seam that bends round a knob may come this much nearer to its head than a straight one, mm: else a hook of thin wood is left. */
export const MOST_PINCH_MM = 3;
export const PINCH_COST = 5;

/** How far beyond a knob's feet a bend of the seam still pinches, mm. */
const PINCH_REACH_MM = 14;

/** How much nearer the seam beside a knob comes to the head's middle than a straight seam would, mm; 0 where it bends away. */
export function pinchOf({ spine, samples }: Pick<Judge, 'spine' | 'samples'>, profile: KnobProfile): number {
  const { centre, at } = profile;
  const foot = spineAt(spine, at);
  const height = Math.hypot(centre.x - foot.x, centre.y - foot.y);
  let pinch = 0;
  for (let k = 0; k < samples.length; k += 3) {
    const s = samples[k]!;
    const beyond = s < at ? profile.from - s : s - profile.to;
    if (beyond < 0 || beyond > PINCH_REACH_MM) continue;
    const straight = Math.hypot(s - at, height);
    pinch = Math.max(pinch, straight - Math.hypot(samples[k + 1]! - centre.x, samples[k + 2]! - centre.y));
  }
  return pinch;
}

/** Length of a knob's outline outside the cover, to the grid's precision. */
export function shownLength({ fields }: Judge, line: Ring): number {
  let shown = 0;
  for (let i = 2; i < line.length; i += 2) {
    const x = (line[i]! + line[i - 2]!) / 2;
    const y = (line[i + 1]! + line[i - 1]!) / 2;
    if (sampleField(fields.grid, fields.depth, x, y) > 0) continue;
    shown += Math.hypot(line[i]! - line[i - 2]!, line[i + 1]! - line[i - 1]!);
  }
  return shown;
}

/** Share of a stretch of the seam that lies under the cover. */
export function hiddenShare({ fields, samples }: Judge, s0: number, s1: number): number {
  let all = 0;
  let hidden = 0;
  for (let k = 0; k < samples.length; k += 3) {
    if (samples[k]! < s0 || samples[k]! > s1) continue;
    all++;
    if (sampleField(fields.grid, fields.depth, samples[k + 1]!, samples[k + 2]!) > 0) hidden++;
  }
  return all > 0 ? hidden / all : 0;
}
