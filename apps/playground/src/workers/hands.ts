import type { Point } from '@underlap/geometry/point';
import type { Job } from '@underlap/job/document';
import { landingOf } from '@underlap/job/split-stage';
import { coverOf } from '@underlap/stack/cover';
import type { SeamPreview, TouchAnswer, TouchQuestion } from './api.ts';
import { previewSeam } from './seam-preview.ts';
import { stageKeys } from './stage-keys.ts';
import type { StagesRun } from './stages-run.ts';
import { placedRegion, touchAt } from './touch.ts';

/** What a hand on a seam or a piece wants to know at once, from results that are there already. */
export class Hands {
  constructor(private readonly stages: StagesRun) {}

  /** The seam of a part as it would be elsewhere; null when nothing is known of it. */
  async seam(job: Job, partId: string, seamId: string, to: Point): Promise<SeamPreview | null> {
    const keys = stageKeys(job);
    const split = await this.stages.split(job, keys, { signal: new AbortController().signal });
    const plan = split.parts.find((part) => part.partId === partId)?.plan;
    const seam = plan?.seams.find((candidate) => candidate.id === seamId);
    if (plan === null || plan === undefined || seam === undefined) return null;
    return previewSeam({
      seam,
      sides: plan.pieces.filter((piece) => seam.between.includes(piece.id)),
      cover: coverOf(this.stages.sign(job, keys), partId),
      limits: split.limits,
      landing: landingOf(job),
      kerf: job.compensate === 'none' ? 0 : job.kerf,
      to,
    });
  }

  /** Is there room for a piece where the hand holds it, among what lies on that sheet now? */
  async touch(job: Job, { sheet, placement }: TouchQuestion): Promise<TouchAnswer> {
    const keys = stageKeys(job);
    const hooks = { signal: new AbortController().signal, pool: null };
    const { pieces } = await this.stages.cut(job, keys, hooks);
    const { nested } = await this.stages.nest(job, keys, hooks);
    const regions = new Map(pieces.map((piece) => [piece.id, piece.cutRegion]));
    const region = regions.get(placement.pieceId);
    const below = nested.layout.sheets[sheet];
    const stock = nested.problem.stock.find((candidate) => candidate.id === below?.stockId);
    if (region === undefined || below === undefined || stock === undefined) {
      return { isFree: false, why: 'There is no such sheet.', nearest: null };
    }
    const { spacing, margin } = nested.problem.rules;
    const { isFree, why, shift } = touchAt(placedRegion(region, placement), {
      board: stock.outline,
      forbidden: stock.forbidden,
      others: below.placements
        .filter((other) => other.pieceId !== placement.id)
        .flatMap((other) => {
          const own = regions.get(other.partId);
          return own === undefined ? [] : [{ id: other.pieceId, region: placedRegion(own, other) }];
        }),
      spacing,
      margin,
    });
    const nearest = shift === null ? null : { x: placement.x + shift.x, y: placement.y + shift.y };
    return { isFree, why, nearest };
  }
}
