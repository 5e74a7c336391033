import type { Shape } from '@underlap/geometry/curve';
import { cutOutline } from '@underlap/seam/cut-outline';
import type { SplitPlan } from '@underlap/seam/task';
import type { Job } from './document.ts';

/** Cut outlines of the pieces of a plan, in its order: kerf and the fit of mating edges applied. */
export function splitCutShapes(plan: SplitPlan, job: Job): Shape[] {
  const { kerf, fit, compensate } = job;
  return plan.pieces.map((piece) => cutOutline(piece, { kerf, fit, compensate }));
}
