import type { WorkContext } from '@underlap/geometry/context';
import type { Shape } from '@underlap/geometry/curve';
import { convexHull } from '@underlap/geometry/hull';
import { type ArrangedCut, arrange, type CutEnd, type Face, faceShape } from './arrangement.ts';
import { SeamError } from './error.ts';
import type { PartFields, SeamGround } from './fields.ts';
import { exactTurns, roughlyGoesIn } from './goes-in.ts';
import type { SeamSizes } from './sizes.ts';
import { type Spine, spineStretch } from './spine.ts';
import type { SeamTask } from './task.ts';

/** A cut before knobs. */
export interface PlannedCut {
  readonly spine: Spine;
  readonly from: CutEnd;
  readonly to: CutEnd;
}

/** A tree of cuts that makes every face fit. */
export interface CutPlan {
  readonly cuts: readonly PlannedCut[];
  readonly pieces: number;
  readonly cost: number;
  /** Length of seam that lies bare, knobs not counted, mm. */
  readonly bareMm: number;
}

/** How hard to look. */
export type SeamEffort = 'quick' | 'normal';

/** What the search works on; built once per task. */
export interface SearchGround {
  readonly task: SeamTask;
  readonly shape: Shape;
  readonly sizes: SeamSizes;
  readonly ground: SeamGround;
  readonly coarse: PartFields;
  readonly fine: PartFields;
  /** Radius of a disc that lies in the part, mm. */
  readonly disc: number;
  readonly context: WorkContext;
  readonly effort: SeamEffort;
  /** Ways searched so far, and how many there may be before the search turns greedy. */
  readonly budget: { routes: number; readonly most: number };
  readonly progress: (done: number) => void;
}

/** Does the face fit every limit, measured on its exact curves? */
export function doesGoIn(ground: SearchGround, face: Face): boolean {
  const { task, shape } = ground;
  const hull = convexHull(face.outer);
  return (
    roughlyGoesIn(hull, task.limits, task.kerf) &&
    exactTurns(faceShape(face, shape), hull, task.limits, task.kerf) !== null
  );
}

/** The face on one side of a cut. */
export function sideOf(faces: readonly Face[], cut: number, forward: boolean): Face | null {
  return faces.find((face) => face.loop.some((step) => step.edge.cut === cut && step.forward === forward)) ?? null;
}

export function spinesOf(cuts: readonly PlannedCut[]): Spine[] {
  return cuts.map((cut) => cut.spine);
}

/** Faces of a set of cuts. */
export function facesOf(shape: Shape, cuts: readonly PlannedCut[]): Face[] {
  return arrange(shape, cuts.map(arrangedCut));
}

export function arrangedCut(cut: PlannedCut): ArrangedCut {
  return {
    from: cut.from,
    to: cut.to,
    length: cut.spine.length,
    stretch: (s0, s1) => spineStretch(cut.spine, s0, s1),
  };
}

/** Distances along each cut at which others end on it. */
export function junctionsOf(cuts: readonly PlannedCut[]): number[][] {
  const out: number[][] = cuts.map(() => []);
  for (const cut of cuts) {
    for (const end of [cut.from, cut.to]) if (end.kind === 'cut') out[end.cut]!.push(end.s);
  }
  return out;
}

let lastBreath = 0;

/** Let the event loop run now and then, so that a cancel arrives. */
export async function breathe(signal: AbortSignal | undefined): Promise<void> {
  if (signal?.aborted) throw new SeamError('cancelled', 'Planning of seams was called off');
  const now = Date.now();
  if (now - lastBreath < 25) return;
  await new Promise<void>((resolve) => setTimeout(resolve, 0));
  lastBreath = Date.now();
  if (signal?.aborted) throw new SeamError('cancelled', 'Planning of seams was called off');
}
