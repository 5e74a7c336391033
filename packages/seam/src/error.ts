/** Stable codes of everything that seam planning refuses. */
export type SeamErrorCode = 'bad-task' | 'cancelled' | 'internal';

/** A fault in the task, or a plan that was called off; `place` names the part or the number at fault. */
export class SeamError extends Error {
  constructor(
    readonly code: SeamErrorCode,
    message: string,
    readonly place: string | null = null,
  ) {
    super(message);
    this.name = 'SeamError';
  }
}
