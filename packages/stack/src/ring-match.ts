import type { Matrix } from '@underlap/geometry/matrix';
import { type Ring, ringArea } from '@underlap/geometry/ring';
import { transformRing } from '@underlap/geometry/transform-region';
import { type Alignment, alignRings } from './ring-align.ts';
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

/**
 * Lay `ring` on `target` by a turn and a move (and a flip when allowed).
 * @param ring - closed, positive area, mm.
 * @param target - closed, either orientation, mm; start point and number of points do not matter.
 * @returns the best match within the rules, or null.
 * @remarks Area and second moments sort most pairs out; a radial signature about the centroid proposes turns (circular
 * correlation); point-to-line registration refines them (Chen and Medioni, Image and Vision Computing 10 (1992), value from
 * memory). About 1 ms for rings of 200 points.
 */
export function matchRing(ring: Ring, target: Ring, rules: MatchRules = DEFAULT_MATCH_RULES): RingMatch | null {
  if (!canMatch(ring, target, rules)) return null;
  const straight = bestAlignment(ring, target, rules);
  const flipped = rules.mayMirror ? bestAlignment(flip(ring), target, rules) : null;
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
    insetMm: best.insetMm,
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
  let best: Alignment | null = null;
  for (const turn of [0, ...peaks]) {
    const found = alignRings(ring, target, { turn, from, to }, rules.largestInsetMm);
    if (found.errorMm > rules.toleranceMm) continue;
    if (best === null || isBetter(found, best)) best = found;
  }
  return best;
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

function canMatch(ring: Ring, target: Ring, rules: MatchRules): boolean {
  const first = ringMoments(ring);
  const second = ringMoments(target);
  const reach = Math.sqrt(first.spread) * 4 + 1;
  const slack = (rules.largestInsetMm + rules.toleranceMm) * reach * 2;
  if (Math.abs(Math.abs(ringArea(ring)) - Math.abs(ringArea(target))) > slack) return false;
  const radius = Math.sqrt(first.spread);
  const largest = (rules.largestInsetMm + rules.toleranceMm) * 1.5;
  return Math.abs(radius - Math.sqrt(second.spread)) <= largest;
}

function flip(ring: Ring): Ring {
  return transformRing(ring, { a: -1, b: 0, c: 0, d: 1, e: 0, f: 0 });
}
