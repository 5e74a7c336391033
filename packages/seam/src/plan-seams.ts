import type { WorkContext } from '@underlap/geometry/context';
import { orientedContour } from '@underlap/geometry/contour';
import type { Shape } from '@underlap/geometry/curve';
import { convexHull } from '@underlap/geometry/hull';
import { regionArea } from '@underlap/geometry/region';
import { assemble } from './assemble.ts';
import { piecesLowerBound } from './bound.ts';
import { SeamError } from './error.ts';
import { type PartFields, partFields, type SeamGround, seamGround } from './fields.ts';
import { exactFit } from './fit.ts';
import { placeKnobs } from './place-knobs.ts';
import { breathe, type CutPlan, type SearchGround, searchCuts } from './search.ts';
import { type SeamSizes, seamSizes } from './sizes.ts';
import type { SeamOutcome, SeamRemark, SeamTask, SplitPlan } from './task.ts';
import { CoverMeasure } from './visible.ts';

/** Grid cells along the square root of a part's area: sets the step between its limits. */
const CELLS_ACROSS = 220;
const FINEST_STEP_MM = 2;
const COARSEST_STEP_MM = 5;

/**
 * Split a part into pieces that fit the limits, along interlocking seams hidden below its cover where they can be.
 * @param task - mm; the shape's outer contour and holes may have any orientation.
 * @returns `fits` when nothing has to be cut; `split` with the best plans first; `cannot` with a reason a maker understands.
 * @throws SeamError `bad-task` for numbers that make no sense, `cancelled` when the signal is raised.
 * @remarks About a second for a part of 500 mm in two pieces; grows with area / step^2 and with the number of pieces.
 */
export async function planSeams(task: SeamTask, context: WorkContext): Promise<SeamOutcome> {
  assertSound(task);
  const shape: Shape = {
    outer: orientedContour(task.shape.outer, 1),
    holes: task.shape.holes.map((hole) => orientedContour(hole, -1)),
  };
  await breathe(context.signal);
  const whole = exactFit(shape, convexHull(task.region.outer), task.limits, task.kerf);
  if (whole !== null) return { kind: 'fits', fitsTurnDeg: whole };

  const sizes = seamSizes(task.thickness, task.kerf);
  const ground = seamGround(task);
  const step = Math.min(COARSEST_STEP_MM, Math.max(FINEST_STEP_MM, Math.sqrt(regionArea(task.region)) / CELLS_ACROSS));
  const fine = partFields(ground, sizes, step);
  const coarse = partFields(ground, sizes, 2 * step);
  const progress = monotone(context);
  const search: SearchGround = {
    task,
    shape,
    sizes,
    coarse,
    fine,
    context,
    budget: { routes: 0, most: 400 },
    progress: (done) => progress('seams', 0.05 + 0.75 * done),
  };
  const { plans, blocked } = await searchCuts(search, task.wishes.morePieces);
  if (plans.length === 0) return { kind: 'cannot', why: reasonFor(blocked) };
  const finished: SplitPlan[] = [];
  const measure = new CoverMeasure(task.cover);
  for (const plan of plans.slice(0, 3)) {
    await breathe(context.signal);
    finished.push(finishPlan(task, shape, ground, fine, sizes, plan, measure, `plan-${finished.length + 1}`));
  }
  progress('seams', 1);
  const piecesLower = piecesLowerBound(task, 0);
  return {
    kind: 'split',
    plans: finished,
    piecesLowerBound: piecesLower,
    provenFewest: Math.min(...finished.map((plan) => plan.pieces.length)) === piecesLower,
  };
}

function finishPlan(
  task: SeamTask,
  shape: Shape,
  ground: SeamGround,
  fine: PartFields,
  sizes: SeamSizes,
  plan: CutPlan,
  measure: CoverMeasure,
  id: string,
): SplitPlan {
  const placed = placeKnobs(task, ground, fine, plan.cuts, shape, sizes, 0);
  const { pieces, seams } = assemble(task, shape, plan.cuts, placed.knobs, measure);
  const areas = pieces.map((piece) => regionArea(piece.region));
  const total = areas.reduce((sum, area) => sum + area, 0);
  const necks = seams.filter((seam) => seam.knobs.length > 0).map((seam) => seam.neckMm);
  return {
    id,
    merits: [],
    pieces,
    seams,
    visibleLengthMm: seams.reduce((sum, seam) => sum + seam.lengthMm - seam.hiddenLengthMm, 0),
    leastNeckMm: necks.length > 0 ? Math.min(...necks) : 0,
    balance: Math.min(...areas) / (total / pieces.length),
    plates: [],
    remarks: [],
  };
}

function reasonFor(blocked: 'no-room' | 'no-way' | null): SeamRemark {
  return blocked === 'no-room'
    ? { code: 'no-cut', message: 'No single cut gives two sides that fit.', at: null }
    : {
        code: 'blocked',
        message: 'Holes or slots block every seam for this bed: move them or use a larger bed.',
        at: null,
      };
}

function assertSound(task: SeamTask): void {
  const numbers: [string, number, boolean][] = [
    ['thickness', task.thickness, task.thickness > 0],
    ['kerf', task.kerf, task.kerf >= 0],
    ['fit', task.fit, true],
    ['landing', task.landing, task.landing >= 0],
  ];
  for (const [name, value, isSound] of numbers) {
    if (!Number.isFinite(value) || !isSound) throw new SeamError('bad-task', `${name} cannot be ${value} mm`, name);
  }
  if (task.limits.length === 0) throw new SeamError('bad-task', 'A split needs a bed or a board to fit', 'limits');
  for (const limit of task.limits) {
    if (!(limit.width > 0) || !(limit.height > 0)) {
      throw new SeamError('bad-task', `A ${limit.name} of ${limit.width} x ${limit.height} mm holds nothing`, 'limits');
    }
  }
}

function monotone(context: WorkContext): (stage: string, done: number) => void {
  let reached = 0;
  return (stage, done) => {
    reached = Math.max(reached, Math.min(1, done));
    context.onProgress?.({ stage, done: reached });
  };
}
