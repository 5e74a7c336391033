import { flattenContour } from '@underlap/geometry/flatten';
import type { Ring } from '@underlap/geometry/ring';
import type { PartSplit } from '@underlap/job/stages';
import type { SplitPlan } from '@underlap/seam/task';
import type { SettledSeam } from '../workers/api.ts';
import { alongTrack, contourPath, stretchPath, trackOf, trackOfPoints } from './outline-views.ts';

/** A seam whose line runs, in the mean, within this of the one that the hand drew is that seam, mm. */
const SAME_SEAM_MM = 15;

/** Places along the drawn line that are compared with a plan. */
const SAMPLES = 60;

/** Chords are good enough this far from a curve, mm. */
const COARSE_MM = 0.2;

/**
 * What the planner makes of a seam that a hand has led elsewhere: of all its plans the one that runs nearest to the drawn line.
 * @param split - planned with the pins of that hand.
 * @param line - as the hand saw it, mm.
 * @returns null when the part cannot be split that way at all.
 */
export function settledSeam({ outcome, plan: first }: PartSplit, line: Ring): SettledSeam | null {
  if (outcome.kind !== 'split') return null;
  const ranked = outcome.plans
    .map((plan) => ({ plan, apartMm: meanDistance(line, plan) }))
    .sort((a, b) => a.apartMm - b.apartMm);
  const best = ranked[0];
  if (best === undefined) return null;
  const { plan, apartMm } = best;
  const lengthMm = plan.seams.reduce((sum, seam) => sum + seam.lengthMm, 0);
  return {
    planId: plan === first ? null : plan.id,
    isAsDrawn: apartMm <= SAME_SEAM_MM,
    pieces: plan.pieces.length,
    lines: plan.seams.map((seam) => contourPath(seam.path)),
    visible: plan.seams.flatMap((seam) => {
      const track = trackOf(seam.path);
      return seam.visible.map(([from, to]) => stretchPath(track, from, to));
    }),
    visibleLengthMm: plan.visibleLengthMm,
    heldShare: lengthMm > 0 ? Math.min(1, plan.heldLengthMm / lengthMm) : 1,
  };
}

/** Mean distance of places along the line from the nearest seam of a plan, mm. O(samples x chords). */
function meanDistance(line: Ring, plan: SplitPlan): number {
  const seams = plan.seams.map((seam) => flattenContour(seam.path, COARSE_MM));
  const track = trackOfPoints(line);
  let sum = 0;
  for (let i = 0; i <= SAMPLES; i++) {
    const { x, y } = alongTrack(track, (i / SAMPLES) * track.length);
    sum += Math.min(...seams.map((seam) => distanceTo(seam, x, y)));
  }
  return sum / (SAMPLES + 1);
}

function distanceTo(line: Ring, x: number, y: number): number {
  let least = Number.POSITIVE_INFINITY;
  for (let i = 2; i < line.length; i += 2) {
    const px = line[i - 2]!;
    const py = line[i - 1]!;
    const dx = line[i]! - px;
    const dy = line[i + 1]! - py;
    const square = dx * dx + dy * dy;
    const u = square > 0 ? Math.min(1, Math.max(0, ((x - px) * dx + (y - py) * dy) / square)) : 0;
    least = Math.min(least, Math.hypot(x - px - u * dx, y - py - u * dy));
  }
  return least;
}
