import type { Job } from '@underlap/job/document';
import type { BoardsView, RunFigures } from '../workers/views.ts';

export type PinnedPlace = Job['pinned'][number];

/** A layout kept on the shelf for comparison: what it was made from, its figures and its picture. */
export interface KeptLayout {
  readonly id: string;
  readonly name: string;
  readonly conditions: Conditions;
  readonly boards: BoardsView;
  readonly seconds: number | null;
  /** What a sign costs and how long the machine runs for it; missing in layouts that an older page kept. */
  readonly run?: RunFigures | null;
}

interface Side {
  readonly width: number;
  readonly height: number;
}

/** What can differ between two layouts of the same sign. */
export interface Conditions {
  readonly bed: Side;
  readonly boards: readonly Side[];
  /** How many offcuts were on hand. */
  readonly offcuts: number;
  /** As `turnCode` writes it; words in layouts that an older page kept. */
  readonly turns: string;
  readonly spacingMm: number;
  readonly marginMm: number;
  readonly batch: number;
  readonly effort: string;
  readonly seed: number;
}

/** Everything that is saved, undone and redone: the job with its artwork, and what was decided by hand. */
export interface Desk {
  readonly job: Job;
  /** Placements that stay where they are until 'nest the rest around' is asked for. */
  readonly held: readonly PinnedPlace[];
  readonly kept: readonly KeptLayout[];
}

/** The job as it is planned: pieces held in place count as pinned. */
export function jobToPlan(desk: Desk): Job {
  if (desk.held.length === 0) return desk.job;
  const pinnedIds = new Set(desk.job.pinned.map((place) => place.piece));
  return { ...desk.job, pinned: [...desk.job.pinned, ...desk.held.filter((place) => !pinnedIds.has(place.piece))] };
}

/** The desk after the job was changed: what was held no longer applies, what was pinned by the user stays. */
export function withJob(desk: Desk, change: (job: Job) => Job): Desk {
  const job = change(desk.job);
  return job === desk.job ? desk : { ...desk, job, held: [] };
}

/** The conditions of a job, for the shelf. */
export function conditionsOf(job: Job): Conditions {
  const side = ({ width, height }: Side): Side => ({ width, height });
  return {
    bed: side(job.bed),
    boards: job.boards.map(side),
    offcuts: job.offcuts.length,
    turns: turnCode(job.turns.default),
    spacingMm: job.spacing,
    marginMm: job.margin,
    batch: job.batch,
    effort: String(job.effort),
    seed: job.seed,
  };
}

/** A rule of turning as one word; steps as their degrees. */
export function turnCode(rule: Job['turns']['default']): string {
  return typeof rule === 'object' ? String(rule.stepDeg) : rule;
}
