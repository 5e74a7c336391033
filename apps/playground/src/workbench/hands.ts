import { unionRegions } from '@underlap/geometry/boolean';
import type { Point } from '@underlap/geometry/point';
import type { Job } from '@underlap/job/document';
import type { Pipeline } from '@underlap/job/pipeline';

import { seamTaskOf, wishFor } from '@underlap/job/split-stage';
import { copyName } from '@underlap/nest/copy';
import type { SeamPreview, SettledSeam, TouchAnswer, TouchQuestion } from '../workers/api.ts';
import { movedLine, previewSeam } from './seam-preview.ts';
import { settledSeam } from './seam-settle.ts';

import { placedRegion, touchAt } from './touch.ts';

/** What a hand on a seam or a piece wants to know at once, from results that are there already. */
export class Hands {
  constructor(private readonly pipeline: Pipeline) {}

  /** The seam of a part as it would be elsewhere; null when nothing is known of it. */
  async seam(job: Job, partId: string, seamId: string, to: Point): Promise<SeamPreview | null> {
    const sign = await this.pipeline.sign(job);
    const split = await this.pipeline.split(job);
    const part = sign.parts.find((candidate) => candidate.id === partId);
    const plan = split.parts.find((candidate) => candidate.partId === partId)?.plan;
    const seam = plan?.seams.find((candidate) => candidate.id === seamId);
    if (part === undefined || plan === null || plan === undefined || seam === undefined) return null;
    const sides = plan.pieces.filter((piece) => seam.between.includes(piece.id));
    return previewSeam({ seam, sides, task: seamTaskOf(sign, part, job, []), to });
  }

  /**
   * The split as it would be if a seam were led through a point: the very one that the page gets when it then plans with these
   * pins, since both come from the same memory.
   */
  async settle(
    job: Job,
    partId: string,
    { seamId, to, pins }: { readonly seamId: string; readonly to: Point; readonly pins: readonly Point[] },
  ): Promise<SettledSeam | null> {
    const before = (await this.pipeline.split(job)).parts.find((candidate) => candidate.partId === partId)?.plan;
    const seam = before?.seams.find((candidate) => candidate.id === seamId);
    if (before === null || before === undefined || seam === undefined) return null;
    const sides = before.pieces.filter((piece) => seam.between.includes(piece.id));
    const line = movedLine(seam, unionRegions(sides.map((side) => side.region)), to);
    const wish = { ...wishFor(job, partId), plan: null, pins: [...pins] };
    const moved = { ...job, seams: { ...job.seams, parts: { ...job.seams.parts, [partId]: wish } } };
    const after = (await this.pipeline.split(moved)).parts.find((candidate) => candidate.partId === partId);
    return after === undefined || line === null ? null : settledSeam(after, line);
  }

  /** Is there room for a piece where the hand holds it, among what lies on that sheet now? */
  async touch(job: Job, { sheet, placement }: TouchQuestion): Promise<TouchAnswer> {
    const stocks = (await this.pipeline.nest(job)) ?? [];
    const sheets = stocks.flatMap((stock) => stock.layout.sheets.map((own) => ({ stock, own })));
    const { nested, pieces } = sheets[sheet]?.stock ?? { nested: null, pieces: [] };
    const regions = new Map(pieces.map((piece) => [piece.id, piece.cutRegion]));
    const region = regions.get(placement.pieceId);
    const below = sheets[sheet]?.own;
    const stock = nested?.problem.stock.find((candidate) => candidate.id === below?.stockId);
    if (nested === null || region === undefined || below === undefined || stock === undefined) {
      return { isFree: false, why: { kind: 'no-sheet' }, nearest: null };
    }
    const { spacing, margin } = nested.problem.rules;
    const { isFree, why, shift } = touchAt(placedRegion(region, placement), {
      board: stock.outline,
      forbidden: stock.forbidden,
      others: below.placements
        .filter((other) => copyName(other) !== placement.id)
        .flatMap((other) => {
          const own = regions.get(other.pieceId);
          return own === undefined ? [] : [{ id: copyName(other), region: placedRegion(own, other) }];
        }),
      spacing,
      margin,
    });
    const nearest = shift === null ? null : { x: placement.x + shift.x, y: placement.y + shift.y };
    return { isFree, why, nearest };
  }
}
