import type { BestSoFar, NestContext } from '@underlap/nest/nest';
import type { Effort, NestProblem, NestResult } from '@underlap/nest/problem';
import type { CutPiece } from './stages.ts';

/** Who runs the nest search: this thread, worker threads or web workers. The same seed and effort give the same layout. */
export type NestRunner = (problem: NestProblem, effort: Effort, context: NestContext) => Promise<NestResult>;

/** What planning a job needs from outside; nothing is global. `seed` of the job counts unless a caller sets another. */
export interface JobContext {
  readonly signal?: AbortSignal;
  /** Over all stages: `done` never goes back and ends at 1. */
  readonly onProgress?: (progress: {
    readonly stage: StageName;
    readonly done: number;
    readonly message?: string;
  }) => void;
  /** Every better layout as it is found, in the nester's frames (see `placementInPieceFrame`). */
  readonly onBest?: (best: BestSoFar, pieces: readonly CutPiece[]) => void;
  /** Default: search in this thread. */
  readonly nest?: NestRunner;
}

/** The steps of a job in their order. */
export type StageName = 'read' | 'sign' | 'split' | 'cut' | 'nest' | 'check' | 'files' | 'report';
