import type { WorkContext } from '@underlap/geometry/context';
import { FLATTEN_TOLERANCE_MM, flattenContour } from '@underlap/geometry/flatten';
import type { Ring } from '@underlap/geometry/ring';
import { planSeams } from '@underlap/seam/plan-seams';
import type { Limit, SeamOutcome, SeamTask, SplitPlan } from '@underlap/seam/task';
import { coverOf, partsOn } from '@underlap/stack/cover';
import { type BuildPlace, buildPlaces, gluedOnTopOf } from '@underlap/stack/levels';
import type { Mark, Part, Sign } from '@underlap/stack/sign';
import type { Job, SeamWish } from './document.ts';
import { JobError } from './error.ts';
import { reachOf } from './limits.ts';
import { parseRegions } from './path-regions.ts';
import { shapeFromRegion } from './shape-from-region.ts';
import { slotKeepOuts } from './sign-slots.ts';
import type { PartSplit, Piece, Plate, SplitResult } from './stages.ts';
import { jobForPart, jobOfStock, stockIdsOf } from './stock-of.ts';
import { throwIfStopped } from './stop.ts';
import { thicknessesOf } from './thickness.ts';

/** Least landing, mm: less does not bridge a seam with glue (common practice, no source). */
const LEAST_LANDING_MM = 3;

/** How far the cover must reach beyond a seam: as told, else half the thickness and at least 3 mm. */
export function landingOf(job: Job): number {
  return job.landing ?? Math.max(LEAST_LANDING_MM, job.thickness / 2);
}

/** The general wishes, or those for this part where the job has its own. */
export function wishFor(job: Job, partId: string): SeamWish {
  const { parts, ...general } = job.seams;
  return parts[partId] ?? general;
}

/**
 * Split every part that does not fit, bottom first, so that upper seams can keep away from lower ones.
 * @throws JobError `cancelled`, `too-small`; SeamError.
 * @remarks A part that cannot be made to fit is an outcome, not an error.
 */
export async function splitStage(sign: Sign, job: Job, context: WorkContext): Promise<SplitResult> {
  const { limits } = reachOf(jobOfStock(job, stockIdsOf(job)[0]!));
  const parts: PartSplit[] = [];
  const plates: Plate[] = [];
  const lowerSeams: Ring[] = [];
  const places = buildPlaces(sign, thicknessesOf(sign, job));
  for (const [index, part] of sign.parts.entries()) {
    throwIfStopped(context.signal);
    const share = (done: number) => (index + done) / sign.parts.length;
    const split = await splitPart(seamTaskOf(sign, part, job, lowerSeams, places), wishFor(job, part.id), {
      ...context,
      onProgress: (progress) => context.onProgress?.({ ...progress, stage: 'split', done: share(progress.done) }),
    });
    assertRoomForKnobs(split, jobForPart(job, part));
    parts.push(split);
    if (split.plan !== null) {
      lowerSeams.push(...split.plan.seams.map((seam) => flattenContour(seam.path, FLATTEN_TOLERANCE_MM)));
      if (wishFor(job, part.id).plates) plates.push(...platesOf(part, split.plan));
    }
    context.onProgress?.({ stage: 'split', done: share(1), message: part.name });
  }
  return { parts, limits, plates };
}

/**
 * A bed or board on which not even the smallest knob has room is a mistake in the job, not a part that does not fit.
 * @throws JobError `too-small` naming part and field.
 */
function assertRoomForKnobs({ partId, outcome }: PartSplit, job: Job): void {
  if (outcome.kind !== 'cannot' || outcome.why.code !== 'bed-too-small') return;
  const { limits } = reachOf(job);
  const room = (name: Limit['name']) =>
    Math.min(...limits.filter((limit) => limit.name === name).map(({ width, height }) => Math.min(width, height)));
  const isBoard = room('board') < room('bed');
  const message = isBoard ? outcome.why.message.replace(/\bbed\b/g, 'board') : outcome.why.message;
  throw new JobError('too-small', `Part ${partId} does not fit and cannot be split. ${message}`, {
    part: partId,
    field: isBoard ? 'boards' : 'bed',
  });
}

/**
 * What the seam planner must know of one part; plain data, so a cache can key it by content.
 * @param places - of the whole sign; given by callers that ask for many parts.
 */
export function seamTaskOf(
  sign: Sign,
  part: Part,
  job: Job,
  lowerSeams: readonly Ring[],
  places: readonly BuildPlace[] = buildPlaces(sign, thicknessesOf(sign, job)),
): SeamTask {
  const wish = wishFor(job, part.id);
  const own = jobForPart(job, part);
  return {
    id: part.id,
    shape: part.shape,
    region: part.region,
    cover: coverOf(sign, part.id),
    coverParts: partsOn(sign, part.id).map(({ id, name, region }) => ({ id, name, region })),
    glue: gluedOnTopOf(places, part.id).flatMap((contact) =>
      contact.regions.map((region) => ({ partId: contact.partId, region })),
    ),
    keepOuts: slotKeepOuts(sign, part.id, job),
    avoid: [...lowerSeams, ...linesOf(part, (mark) => mark.process === 'engrave')],
    marks: linesOf(part, (mark) => mark.process !== 'engrave'),
    limits: reachOf(own).limits,
    thickness: own.thickness,
    kerf: own.kerf,
    fit: own.fit,
    landing: landingOf(own),
    wishes: {
      prefer: wish.prefer,
      morePieces: wish.morePieces,
      // Who names a part wants that part cut, also when it fits as it is; a general wish cuts nothing that fits.
      leastPieces: job.seams.parts[part.id] === undefined ? 1 : 1 + wish.morePieces,
      pins: wish.pins,
      forbidden: wish.forbidden.flatMap((data) => parseRegions(data, `a forbidden area of ${part.id}`)),
      knob: wish.knob,
      alongLines: wish.alongLines,
    },
  };
}

/** The part's own burnt lines; edges of engraved areas are no lines that a seam could follow. */
function linesOf(part: Part, isWanted: (mark: Mark) => boolean): Ring[] {
  return part.marks
    .filter(isWanted)
    .flatMap(({ contours }) => contours.map((contour) => flattenContour(contour, FLATTEN_TOLERANCE_MM)));
}

/** Plan one part and take the plan that the wish names, else the best. */
export async function splitPart(task: SeamTask, wish: SeamWish, context: WorkContext): Promise<PartSplit> {
  const outcome = await planSeams(task, context);
  return takePlan(task, outcome, wish.plan);
}

/** The pieces of one outcome; another plan may be taken without planning anew. */
export function takePlan(
  task: Pick<SeamTask, 'id' | 'shape' | 'region'>,
  outcome: SeamOutcome,
  planId: string | null,
): PartSplit {
  const partId = task.id;
  switch (outcome.kind) {
    case 'fits': {
      const whole: Piece = {
        id: partId,
        partId,
        shape: task.shape,
        region: task.region,
        limitTurnDeg: outcome.limitTurnDeg,
      };
      return { partId, outcome, plan: null, pieces: [whole] };
    }
    case 'split': {
      const plan = outcome.plans.find((candidate) => candidate.id === planId) ?? outcome.plans[0]!;
      const pieces = plan.pieces.map((piece): Piece => ({ ...piece, partId }));
      return { partId, outcome, plan, pieces };
    }
    case 'cannot':
      return { partId, outcome, plan: null, pieces: [] };
  }
}

/** Rear splice plates as parts of their own: they lie behind the part they join. */
function platesOf(part: Part, plan: SplitPlan): Plate[] {
  return plan.plates.map((region, index) => {
    const id = `${part.id}-plate-${index + 1}`;
    return {
      id,
      partId: id,
      shape: shapeFromRegion(region),
      region,
      limitTurnDeg: { bed: 0, board: 0 },
      ofPartId: part.id,
    };
  });
}
