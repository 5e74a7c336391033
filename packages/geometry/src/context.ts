/** How far a long step has come; `done` never goes back and ends at 1. */
export interface Progress {
  readonly stage: string;
  readonly done: number;
  readonly message?: string;
}

/**
 * What every long step gets: how to stop and where to report. Randomness comes from the seed alone, so that the same seed
 * gives the same answer everywhere.
 */
export interface WorkContext {
  readonly seed: number;
  readonly signal?: AbortSignal;
  readonly onProgress?: (progress: Progress) => void;
}
