import type { Matrix } from '@underlap/geometry/matrix';
import { offsetRegions } from '@underlap/geometry/offset';
import { orientedRing, type Ring, ringArea, ringPerimeter } from '@underlap/geometry/ring';
import { transformRing } from '@underlap/geometry/transform-region';
import { type AlignEffort, type Alignment, alignRings } from './ring-align.ts';
import { radialSignature, ringMoments, signaturePeaks } from './ring-signature.ts';

/** How a ring may differ from another and still be the same outline. */
export interface MatchRules {
  /** Largest distance between the outlines after the match, mm. */
  readonly toleranceMm: number;
  /** A guide may be drawn this far inside the part it stands for, mm. */
  readonly largestInsetMm: number;
  readonly mayMirror: boolean;
}

/** 0.2 mm of drawing noise on both outlines stays below this. */
export const DEFAULT_MATCH_RULES: MatchRules = { toleranceMm: 0.6, largestInsetMm: 1.2, mayMirror: false };

/** A rigid map that lays one ring on another. */
export interface RingMatch {
  readonly matrix: Matrix;
  readonly turnDeg: number;
  readonly mirrored: boolean;
  /** Largest distance left, the constant inset taken off, mm. */
  readonly errorMm: number;
  /** How far the target lies inside the moved ring, mm; about 0 for an exact outline. */
  readonly insetMm: number;
}

/** Rotations tried per pair; symmetric shapes have at most a few distinct ones that matter. */
const MOST_PEAKS = 10;
/** Differences of error below this say nothing; the smaller turn wins, mm. */
const SAME_ERROR_MM = 0.01;
/** A first look at every turn, and the last word on the few that are left. */
const ROUGH: AlignEffort = { samples: 60, steps: 8 };
const FINE: AlignEffort = { samples: 240, steps: 40 };
/** Rough fits that differ by less may change places when refined, mm; so many are refined. */
const SAME_ROUGH_MM = 0.1;
const MOST_REFINED = 3;
/** Turns that refine to the same place, radians. */
const SAME_TURN = 1e-3;
/** A smaller difference in area is noise and no inset, mm. */
const LEAST_INSET_MM = 0.15;

/**
 * Lay `ring` on `target` by a turn and a move (and a flip when allowed).
 * @param ring - closed, positive area, mm.
 * @param target - closed, either orientation, mm; start point and number of points do not matter.
 * @returns the best match within the rules, or null.
 * @remarks Area and second moments sort most pairs out; a radial signature about the centroid proposes turns (circular
 * correlation); point-to-line registration refines them (Chen and Medioni, Image and Vision Computing 10 (1992), value from
 * memory), roughly for all and in full for the best. A target of less area is compared with the ring drawn in by as much, so
 * that corners stay corners. O(turns x steps x samples x edges).
 */
export function matchRing(ring: Ring, target: Ring, rules: MatchRules = DEFAULT_MATCH_RULES): RingMatch | null {
  if (!canMatch(ring, target, rules)) return null;
  const inset = insetOf(ring, target);
  const source = inset === 0 ? ring : drawnIn(ring, inset);
  if (source === null) return null;
  const straight = bestAlignment(source, target, rules);
  const flipped = rules.mayMirror ? bestAlignment(flip(source), target, rules) : null;
  const usesFlip = flipped !== null && (straight === null || costOf(flipped) < costOf(straight) - SAME_ERROR_MM);
  const best = usesFlip ? flipped : straight;
  if (best === null) return null;
  const cos = Math.cos(best.turn);
  const sin = Math.sin(best.turn);
  const sign = usesFlip ? -1 : 1;
  return {
    matrix: { a: cos * sign, b: sin * sign, c: -sin, d: cos, e: best.x, f: best.y },
    turnDeg: turnInDegrees(best.turn),
    mirrored: usesFlip,
    errorMm: best.errorMm,
    insetMm: inset + best.insetMm,
  };
}

/** Degrees in [0, 360); a hair below a whole turn is none. */
function turnInDegrees(turn: number): number {
  const degrees = ((((turn * 180) / Math.PI) % 360) + 360) % 360;
  return 360 - degrees < 1e-7 ? 0 : degrees;
}

function bestAlignment(ring: Ring, target: Ring, rules: MatchRules): Alignment | null {
  const from = ringMoments(ring);
  const to = ringMoments(target);
  const peaks = signaturePeaks(radialSignature(ring, from), radialSignature(target, to), MOST_PEAKS);
  const start = (turn: number) => ({ turn, from, to });
  const rough = [0, ...peaks].map((turn) => alignRings(ring, target, start(turn), rules.largestInsetMm, ROUGH));
  const least = Math.min(...rough.map((alignment) => alignment.rmsMm));
  if (least > rules.toleranceMm) return null;
  const bestRough = rough.find((alignment) => alignment.rmsMm === least)!;
  // Symmetric outlines fit as well at several turns: the smallest is tried beside the best.
  const rivals = rough
    .filter((alignment) => alignment.rmsMm <= least + SAME_ROUGH_MM)
    .sort((a, b) => distanceFromZero(a.turn) - distanceFromZero(b.turn));
  const chosen: Alignment[] = [];
  for (const rival of [bestRough, ...rivals]) {
    if (chosen.length < MOST_REFINED && !chosen.some((other) => distanceFromZero(other.turn - rival.turn) < SAME_TURN))
      chosen.push(rival);
  }
  let best: Alignment | null = null;
  for (const { turn } of chosen) {
    const found = alignRings(ring, target, start(turn), rules.largestInsetMm, FINE);
    if (found.errorMm > rules.toleranceMm) continue;
    if (best === null || isBetter(found, best)) best = found;
  }
  return best;
}

/** How far inside the ring the target was drawn, judged by the areas; 0 when there is no telling. */
function insetOf(ring: Ring, target: Ring): number {
  const inset = (Math.abs(ringArea(ring)) - Math.abs(ringArea(target))) / ringPerimeter(ring);
  return inset < LEAST_INSET_MM ? 0 : inset;
}

function drawnIn(ring: Ring, inset: number): Ring | null {
  const inner = offsetRegions([{ outer: orientedRing(ring, 1), holes: [] }], -inset);
  return inner.reduce<Ring | null>((largest, { outer }) => {
    return largest === null || ringArea(outer) > ringArea(largest) ? outer : largest;
  }, null);
}

function isBetter(found: Alignment, best: Alignment): boolean {
  const difference = costOf(found) - costOf(best);
  if (Math.abs(difference) > SAME_ERROR_MM) return difference < 0;
  return distanceFromZero(found.turn) < distanceFromZero(best.turn) - 1e-6;
}

function costOf(alignment: Alignment): number {
  return alignment.errorMm + Math.abs(alignment.insetMm);
}

function distanceFromZero(turn: number): number {
  return Math.abs(Math.atan2(Math.sin(turn), Math.cos(turn)));
}

/** Areas that differ by no more than a rim of the allowed width, and about the same reach. */
function canMatch(ring: Ring, target: Ring, rules: MatchRules): boolean {
  const { toleranceMm, largestInsetMm } = rules;
  const rim = (Math.abs(ringArea(ring)) - Math.abs(ringArea(target))) / ringPerimeter(ring);
  if (rim < -toleranceMm || rim > largestInsetMm + toleranceMm) return false;
  const reach = (of: Ring): number => Math.sqrt(ringMoments(of).spread);
  return Math.abs(reach(ring) - reach(target)) <= (largestInsetMm + toleranceMm) * 1.5;
}

function flip(ring: Ring): Ring {
  return transformRing(ring, { a: -1, b: 0, c: 0, d: 1, e: 0, f: 0 });
}
