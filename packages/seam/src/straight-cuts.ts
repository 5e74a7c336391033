import { convexHull } from '@underlap/geometry/hull';
import { type Ring, ringArea } from '@underlap/geometry/ring';
import { type Box, densePoints } from './candidates.ts';
import { commonBox, likelyGoesIn } from './goes-in.ts';
import type { Limit } from './task.ts';

/** A tree of straight cuts, as somebody with a ruler draws them; a leaf (null) goes in as it is. */
export interface StraightCut {
  /** Direction across the cut, radians; the cut is where x cos + y sin lies between `from` and `to`. */
  readonly angle: number;
  readonly from: number;
  readonly to: number;
  readonly below: StraightCut | null;
  readonly above: StraightCut | null;
}

/** What pieces have to go in, and what a cut takes. */
export interface RulerTask {
  readonly limits: readonly Limit[];
  readonly kerf: number;
  /** Width of the band that a cut may stray in, mm. */
  readonly band: number;
  /** Room for the knobs of the piece that grows beyond its cut, mm. */
  readonly reach: number;
}

/** Turns of cuts that are tried for the whole part, and for what is left of it, degrees. */
const STEP_DEG = 7.5;
const LATER_STEP_DEG = 15;

/** Distance between the points that stand for an outline, mm. */
const POINTS_MM = 8;

/** Rests looked into at the first cut and at later ones. */
const BEAM = [16, 6, 3] as const;

/** Where a part that needs four pieces or more is halved, as shares of its extent. */
const MIDDLES = [0.5, 0.42, 0.58] as const;

/** Rings peeled from every side before the search gives up. */
const MOST_RINGS = 500;

/** A side that takes less than this share of its part's extent is a chip. */
const LEAST_SHARE = 0.06;

/**
 * The fewest pieces that straight cuts of any turn make of a ring: parts are peeled off as large as the limits allow, or halved.
 * @param ring - the outline of a part.
 * @param most - plans of more pieces are of no interest.
 * @returns the pieces and the cuts, or null when there is no such plan or the work runs out.
 * @remarks Counts sides, not the components they may fall into. O(turns x points log points) a ring, `MOST_RINGS` at most.
 */
export function straightCuts(ring: Ring, task: RulerTask, most: number): { pieces: number; cuts: StraightCut } | null {
  const points = densePoints(ring, POINTS_MM);
  const work: Work = { task, box: commonBox(task.limits, task.kerf), left: MOST_RINGS };
  for (let pieces = 2; pieces <= most; pieces++) {
    const cuts = cutsOf(work, points, pieces, 0);
    if (cuts !== null && cuts !== 'whole') return { pieces, cuts };
    if (work.left <= 0) return null;
  }
  return null;
}

interface Work {
  readonly task: RulerTask;
  readonly box: Box;
  left: number;
}

/** Cuts into at most so many pieces. */
function cutsOf(work: Work, ring: Ring, pieces: number, depth: number): StraightCut | 'whole' | null {
  const { band, limits, kerf } = work.task;
  if (ring.length < 6 || likelyGoesIn(convexHull(ring), limits, kerf)) return 'whole';
  if (pieces < 2 || work.left <= 0 || Math.abs(ringArea(ring)) > pieces * work.box.long * work.box.short) return null;
  const peeled = peelings(work, ring, depth).sort((a, b) => a.rest - b.rest);
  for (const { angle, edge, sign, other } of peeled.slice(0, pieces === 2 ? peeled.length : (BEAM[depth] ?? 2))) {
    const rest = cutsOf(work, other, pieces - 1, depth + 1);
    if (rest === null) continue;
    const deeper = rest === 'whole' ? null : rest;
    return sign > 0
      ? { angle, from: edge - band, to: edge, below: null, above: deeper }
      : { angle, from: edge, to: edge + band, below: deeper, above: null };
  }
  return pieces >= 4 && depth < 2 ? halved(work, ring, pieces, depth) : null;
}

interface Peeling {
  readonly angle: number;
  /** Where the peeled side ends. */
  readonly edge: number;
  /** 1 = the side below is peeled off, -1 = the side above. */
  readonly sign: 1 | -1;
  readonly other: Ring;
  /** Area of what is left. */
  readonly rest: number;
}

/** From every turn and either side, the largest piece that goes in. */
function peelings(work: Work, ring: Ring, depth: number): Peeling[] {
  work.left--;
  const { band, reach } = work.task;
  const out: Peeling[] = [];
  for (let deg = 0; deg < 180; deg += depth === 0 ? STEP_DEG : LATER_STEP_DEG) {
    const angle = (deg * Math.PI) / 180;
    const [low, high] = extentAlong(ring, angle);
    for (const sign of [1, -1] as const) {
      const edge = farthestEdge(ring, angle, sign, work.box);
      const taken = sign > 0 ? edge - low : high - edge;
      if (taken < LEAST_SHARE * (high - low) + band) continue;
      const other = sideOf(ring, angle, edge - sign * (band + reach), sign > 0 ? -1 : 1);
      out.push({ angle, edge, sign, other, rest: Math.abs(ringArea(other)) });
    }
  }
  return out;
}

/** Turns at which a peeled piece is measured. */
const TURNS = 45;
const COSINES = Float64Array.from({ length: TURNS }, (_, j) => Math.cos((j * Math.PI) / TURNS));
const SINES = Float64Array.from({ length: TURNS }, (_, j) => Math.sin((j * Math.PI) / TURNS));

/**
 * How far a side may reach so that it goes in, by the outline's points: taken in order, each may rule out turns of the piece, and
 * none comes back.
 * @remarks O(n log n + n x turns still possible).
 */
function farthestEdge(ring: Ring, angle: number, sign: 1 | -1, { long, short }: Box): number {
  const cos = sign * Math.cos(angle);
  const sin = sign * Math.sin(angle);
  const n = ring.length / 2;
  const along = new Float64Array(n);
  for (let i = 0; i < n; i++) along[i] = ring[2 * i]! * cos + ring[2 * i + 1]! * sin;
  const order = Uint32Array.from(along, (_, i) => i).sort((i, j) => along[i]! - along[j]!);
  const turns = Uint8Array.from(COSINES, (_, j) => j);
  const extents = new Float64Array(4 * TURNS).fill(-Infinity);
  let possible = TURNS;
  let last = along[order[0]!]!;
  for (const i of order) {
    const [x, y] = [ring[2 * i]!, ring[2 * i + 1]!];
    let kept = 0;
    for (let k = 0; k < possible; k++) {
      const j = turns[k]!;
      const right = x * COSINES[j]! + y * SINES[j]!;
      const down = y * COSINES[j]! - x * SINES[j]!;
      if (right > extents[4 * j]!) extents[4 * j] = right;
      if (-right > extents[4 * j + 1]!) extents[4 * j + 1] = -right;
      if (down > extents[4 * j + 2]!) extents[4 * j + 2] = down;
      if (-down > extents[4 * j + 3]!) extents[4 * j + 3] = -down;
      const isIn = extents[4 * j]! + extents[4 * j + 1]! <= long && extents[4 * j + 2]! + extents[4 * j + 3]! <= short;
      if (isIn) turns[kept++] = j;
    }
    possible = kept;
    if (possible === 0) break;
    last = along[i]!;
  }
  return sign * last;
}

/** Both sides of a cut near the middle cut further. */
function halved(work: Work, ring: Ring, pieces: number, depth: number): StraightCut | null {
  const { band, reach } = work.task;
  for (let deg = 0; deg < 180 && work.left > 0; deg += LATER_STEP_DEG) {
    const angle = (deg * Math.PI) / 180;
    const [low, high] = extentAlong(ring, angle);
    for (const share of MIDDLES) {
      const middle = low + share * (high - low);
      const below = sideOf(ring, angle, middle + band / 2, 1);
      const above = sideOf(ring, angle, middle - band / 2 - reach, -1);
      for (let first = 2; first <= pieces - 2; first++) {
        const one = cutsOf(work, below, first, depth + 1);
        if (one === null) continue;
        const two = cutsOf(work, above, pieces - first, depth + 1);
        if (two === null) break;
        const tree = (side: StraightCut | 'whole') => (side === 'whole' ? null : side);
        return { angle, from: middle - band / 2, to: middle + band / 2, below: tree(one), above: tree(two) };
      }
    }
  }
  return null;
}

/** The part of a ring on one side of a line; what falls apart there stays joined along the line. O(n). */
function sideOf(ring: Ring, angle: number, edge: number, sign: 1 | -1): Ring {
  const cos = sign * Math.cos(angle);
  const sin = sign * Math.sin(angle);
  const most = sign * edge;
  const out: number[] = [];
  const n = ring.length;
  let [px, py] = [ring[n - 2]!, ring[n - 1]!];
  let before = most - px * cos - py * sin;
  for (let i = 0; i < n; i += 2) {
    const [x, y] = [ring[i]!, ring[i + 1]!];
    const here = most - x * cos - y * sin;
    if (here >= 0 !== before >= 0) {
      const share = before / (before - here);
      out.push(px + share * (x - px), py + share * (y - py));
    }
    if (here >= 0) out.push(x, y);
    [px, py, before] = [x, y, here];
  }
  return densePoints(Float64Array.from(out), POINTS_MM);
}

/** Least and greatest place of the ring's points along a direction. */
export function extentAlong(ring: Ring, angle: number): [number, number] {
  const cos = Math.cos(angle);
  const sin = Math.sin(angle);
  let low = Infinity;
  let high = -Infinity;
  for (let i = 0; i < ring.length; i += 2) {
    const at = ring[i]! * cos + ring[i + 1]! * sin;
    if (at < low) low = at;
    if (at > high) high = at;
  }
  return [low, high];
}
