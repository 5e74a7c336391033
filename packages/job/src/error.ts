import type { Point } from '@underlap/geometry/point';

/** Stable codes of everything that stops a job. */
export type JobErrorCode =
  | 'job-invalid'
  | 'artwork-faulty'
  | 'size-unknown'
  | 'too-small'
  | 'check-failed'
  | 'cancelled'
  | 'internal';

/** Where the fault is, as far as that is known. */
export interface JobPlace {
  readonly file?: string;
  readonly part?: string;
  readonly field?: string;
  readonly at?: Point;
}

/** A job that cannot be planned; the message is a sentence a maker understands and says what to do. */
export class JobError extends Error {
  constructor(
    readonly code: JobErrorCode,
    message: string,
    readonly place: JobPlace = {},
  ) {
    super(message);
    this.name = 'JobError';
  }
}
