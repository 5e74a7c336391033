import { offsetRegions } from '@underlap/geometry/offset';
import { isInRegion, type Region } from '@underlap/geometry/region';
import { orientedRing, type Ring, ringArea, ringPerimeter } from '@underlap/geometry/ring';
import { transformRing } from '@underlap/geometry/transform-region';
import { evenSamples } from './even-samples.ts';
import { looseness } from './looseness.ts';
import { type Nearest, NearestEdge } from './nearest-edge.ts';
import { type Pose, settle } from './ring-align.ts';
import type { MatchRules, RingMatch } from './ring-match.ts';
import { proposePoses } from './stretch-pose.ts';

/** What is left of an outline that is drawn only as far as its part reaches: an open line, mm. */
export interface Stretch {
  readonly line: Float64Array;
  readonly length: number;
}

/** The part a stretch lies on. */
export interface Ground {
  /** Its face without the rim along its edges, where lines are the edge's as likely as a guide's. */
  readonly core: readonly Region[];
}

/** How a ring lies when stretches on the ground are all that is seen of its outline. */
export type StretchMatch =
  | { readonly kind: 'found'; readonly match: RingMatch; readonly stretches: readonly number[] }
  /** What is drawn fits, but the part could be moved along it. */
  | { readonly kind: 'loose' }
  | { readonly kind: 'none' };

/** A stretch must show at least this share of the part's outline, and so many mm, to say anything. */
const LEAST_SHARE = 0.1;
const LEAST_MM = 12;
/** Poses refined for every stretch. */
const MOST_POSES = 6;
/** A pose proposed worse than this, as a share of the stretch, is not refined. */
const ROUGH_SHARE = 0.06;
const STEPS = 40;
/** Points along a stretch are this far apart, mm, and no more than MOST_POINTS. */
const POINT_STEP_MM = 1;
const MOST_POINTS = 240;
const RING_POINTS = 360;
/** The outline inside the ground may be missing in this share: where lines end at the rim, corners are lost. */
const MISSING_SHARE = 0.03;
/** What a part may lie off its place for a match, mm. */
const LOOSE_MM = 1;
/** A smaller inset is noise, mm. */
const LEAST_INSET_MM = 0.15;

/**
 * Lay a ring on what is drawn of its outline on a part: an open line, several, or the rest of a closed one clipped at the edge.
 * @param ring - positive area, mm.
 * @param stretches - open lines on one part.
 * @returns where every drawn point lies on the ring and all of the ring that lies on the part is drawn; `loose` where the ring
 * could be moved along what is drawn by more than LOOSE_MM.
 * @remarks Poses by `proposePoses` for every stretch that is long enough, refined by point-to-line registration.
 */
export function matchStretches(
  ring: Ring,
  stretches: readonly Stretch[],
  ground: Ground,
  rules: MatchRules,
): StretchMatch {
  const straight = bestOf(ring, stretches, ground, rules);
  if (straight.kind === 'found' || !rules.mayMirror) return straight;
  const flipped = bestOf(transformRing(ring, { a: -1, b: 0, c: 0, d: 1, e: 0, f: 0 }), stretches, ground, rules);
  if (flipped.kind !== 'found') return straight;
  const { a, b, c, d, e, f } = flipped.match.matrix;
  return { ...flipped, match: { ...flipped.match, mirrored: true, matrix: { a: -a, b: -b, c, d, e, f } } };
}

function bestOf(ring: Ring, stretches: readonly Stretch[], ground: Ground, rules: MatchRules): StretchMatch {
  const perimeter = ringPerimeter(ring);
  const slack = 1 + rules.toleranceMm / 4;
  const order = [...stretches.keys()]
    .filter((i) => stretches[i]!.length >= Math.max(LEAST_MM, LEAST_SHARE * perimeter))
    .filter((i) => stretches[i]!.length <= perimeter * slack)
    .sort((a, b) => stretches[b]!.length - stretches[a]!.length || a - b);
  let best: StretchMatch = { kind: 'none' };
  for (const index of order) {
    const { line, length } = stretches[index]!;
    const proposed = proposePoses(line, length, ring, MOST_POSES);
    for (const { pose, rmsMm } of proposed) {
      if (rmsMm > Math.max(2 * rules.toleranceMm, ROUGH_SHARE * length)) continue;
      const found = refined(ring, stretches, index, pose, ground, rules);
      if (found.kind === 'loose' && best.kind === 'none') best = found;
      if (found.kind === 'found' && (best.kind !== 'found' || found.match.errorMm < best.match.errorMm)) best = found;
    }
    if (best.kind === 'found') return best;
  }
  return best;
}

/** Refine on one stretch, gather the others that lie on the ring there, refine on all, and look whether anything is missing. */
function refined(
  ring: Ring,
  stretches: readonly Stretch[],
  first: number,
  from: Pose,
  ground: Ground,
  rules: MatchRules,
): StretchMatch {
  const alone = laid(ring, [stretches[first]!], from, rules);
  if (alone === null) return { kind: 'none' };
  const also = [...stretches.keys()].filter(
    (i) => i === first || errorAt(alone.target, pointsOf([stretches[i]!]), alone.pose) <= 2 * rules.toleranceMm,
  );
  const chosen = also.map((i) => stretches[i]!);
  const all = also.length === 1 ? alone : laid(ring, chosen, alone.pose, rules);
  if (all === null) return { kind: 'none' };
  const back = inverse(all.pose);
  if (!isAllDrawn(transformRing(ring, matrixOf(back)), chosen, ground, rules, Math.abs(all.insetMm)))
    return { kind: 'none' };
  const points = pointsOf(chosen);
  const loose = looseness(all.target, transformed(points, all.pose), all.rmsMm);
  if (loose > LOOSE_MM) return { kind: 'loose' };
  const degrees = ((((back.turn * 180) / Math.PI) % 360) + 360) % 360;
  const match: RingMatch = {
    matrix: matrixOf(back),
    turnDeg: 360 - degrees < 1e-7 ? 0 : degrees,
    mirrored: false,
    errorMm: all.errorMm,
    insetMm: all.insetMm,
  };
  return { kind: 'found', match, stretches: also };
}

interface Laid {
  readonly pose: Pose;
  /** The ring, drawn in or out where the stretches were. */
  readonly target: Ring;
  readonly insetMm: number;
  readonly errorMm: number;
  readonly rmsMm: number;
}

function laid(ring: Ring, stretches: readonly Stretch[], from: Pose, rules: MatchRules): Laid | null {
  const points = pointsOf(stretches);
  const pivot = { x: points[0]!, y: points[1]! };
  const rough = settle(points, ring, from, { pivot, withInset: true, steps: STEPS });
  const insetMm = -meanAt(ring, points, rough);
  if (insetMm > rules.largestInsetMm + rules.toleranceMm || insetMm < -rules.largestInsetMm) return null;
  const isInset = Math.abs(insetMm) >= LEAST_INSET_MM;
  const target = isInset ? largestOffset(ring, -insetMm) : ring;
  if (target === null) return null;
  const pose = settle(points, target, rough, { pivot, withInset: false, steps: STEPS });
  const distances = distancesAt(target, points, pose);
  const errorMm = distances.reduce((most, d) => Math.max(most, Math.abs(d)), 0);
  if (errorMm > rules.toleranceMm) return null;
  const rmsMm = Math.sqrt(distances.reduce((sum, d) => sum + d * d, 0) / distances.length);
  return { pose, target, insetMm: isInset ? insetMm : 0, errorMm, rmsMm };
}

function largestOffset(ring: Ring, by: number): Ring | null {
  return offsetRegions([{ outer: orientedRing(ring, 1), holes: [] }], by).reduce<Ring | null>(
    (largest, { outer }) => (largest === null || ringArea(outer) > ringArea(largest) ? outer : largest),
    null,
  );
}

/** Is everything of the ring that lies well on the ground near a drawn line? And does enough of it lie there? */
function isAllDrawn(
  ring: Ring,
  stretches: readonly Stretch[],
  { core }: Ground,
  { toleranceMm }: MatchRules,
  insetMm: number,
): boolean {
  const inner = offsetRegions(core, -(toleranceMm + insetMm));
  const points = evenSamples(ring, RING_POINTS, true);
  let seen = 0;
  let missing = 0;
  for (let i = 0; i < points.length; i += 2) {
    const [x, y] = [points[i]!, points[i + 1]!];
    if (!inner.some((region) => isInRegion(region, x, y))) continue;
    seen++;
    // An inset leaves corners farther off than sides.
    if (!stretches.some(({ line }) => isNearLine(line, x, y, toleranceMm + 2 * insetMm))) missing++;
  }
  return seen >= LEAST_SHARE * RING_POINTS && missing <= MISSING_SHARE * seen;
}

function isNearLine(line: Float64Array, x: number, y: number, within: number): boolean {
  for (let i = 0; i + 3 < line.length; i += 2) {
    const [ex, ey] = [line[i + 2]! - line[i]!, line[i + 3]! - line[i + 1]!];
    const length2 = ex * ex + ey * ey;
    const u = length2 === 0 ? 0 : Math.max(0, Math.min(1, ((x - line[i]!) * ex + (y - line[i + 1]!) * ey) / length2));
    if (Math.hypot(x - line[i]! - u * ex, y - line[i + 1]! - u * ey) <= within) return true;
  }
  return false;
}

function pointsOf(stretches: readonly Stretch[]): Float64Array {
  const total = stretches.reduce((sum, { length }) => sum + length, 0);
  const step = Math.max(POINT_STEP_MM, total / MOST_POINTS);
  const parts = stretches.map(({ line, length }) => evenSamples(line, Math.max(2, Math.round(length / step)), false));
  const out = new Float64Array(parts.reduce((sum, part) => sum + part.length, 0));
  let at = 0;
  for (const part of parts) {
    out.set(part, at);
    at += part.length;
  }
  return out;
}

function distancesAt(ring: Ring, points: Float64Array, pose: Pose): number[] {
  const edges = new NearestEdge(ring);
  const near: Nearest = { distance: 0, nx: 0, ny: 0 };
  const at = transformed(points, pose);
  const out: number[] = [];
  for (let i = 0; i < at.length; i += 2) {
    edges.find(at[i]!, at[i + 1]!, near);
    out.push(near.distance);
  }
  return out;
}

function meanAt(ring: Ring, points: Float64Array, pose: Pose): number {
  const distances = distancesAt(ring, points, pose);
  return distances.reduce((sum, distance) => sum + distance, 0) / distances.length;
}

function errorAt(ring: Ring, points: Float64Array, pose: Pose): number {
  return distancesAt(ring, points, pose).reduce((most, distance) => Math.max(most, Math.abs(distance)), 0);
}

function transformed(points: Float64Array, pose: Pose): Float64Array {
  return transformRing(points, matrixOf(pose));
}

function matrixOf({ turn, x, y }: Pose): RingMatch['matrix'] {
  const [cos, sin] = [Math.cos(turn), Math.sin(turn)];
  return { a: cos, b: sin, c: -sin, d: cos, e: x, f: y };
}

function inverse({ turn, x, y }: Pose): Pose {
  const [cos, sin] = [Math.cos(turn), Math.sin(turn)];
  return { turn: -turn, x: -(cos * x + sin * y), y: -(-sin * x + cos * y) };
}
