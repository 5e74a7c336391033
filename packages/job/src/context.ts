import type { NestHooks, Pipeline } from './pipeline.ts';

/** What planning a job needs from outside; nothing is global. `seed` of the job counts unless a caller sets another. */
export interface JobContext {
  readonly signal?: AbortSignal;
  /** Over all stages: `done` never goes back and ends at 1. */
  readonly onProgress?: (progress: {
    readonly stage: StageName;
    readonly done: number;
    /** Of this stage alone, 0 when it begins. */
    readonly share: number;
    readonly message?: string;
  }) => void;
  /** Called when a stage is over; its result is in the pipeline then. What this throws ends the job. */
  readonly onStage?: (stage: StageName) => void | Promise<void>;
  /** Every better layout as it is found. */
  readonly onBest?: NestHooks['onBest'];
  /** Ends the search alone: the job goes on with its best layout so far. */
  readonly endSearch?: AbortSignal;
  /** Results of earlier jobs, and who runs the search; default: a fresh one that searches in this thread. */
  readonly pipeline?: Pipeline;
}

/** The steps of a job in their order. */
export type StageName = 'read' | 'sign' | 'split' | 'cut' | 'nest' | 'check' | 'files';
