import type { Shape } from '@underlap/geometry/curve';
import { offsetShape } from '@underlap/geometry/offset-shape';
import type { SplitPlan } from '@underlap/seam/task';
import type { Job } from './document.ts';

/** Cut outlines of the pieces of a plan, in its order. */
export function splitCutShapes(plan: SplitPlan, job: Job): Shape[] {
  return plan.pieces.map((piece) => offsetShape(piece.shape, job.kerf / 2)[0]!);
}
