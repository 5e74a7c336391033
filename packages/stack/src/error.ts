import type { Place } from '@underlap/artwork/drawing';

export type StackErrorCode = 'no-closed-shape' | 'size-open' | 'zero-area' | 'geometry';

/** A drawing that cannot become a sign: one sentence for the maker and the place. */
export class StackError extends Error {
  constructor(
    readonly code: StackErrorCode,
    message: string,
    readonly place: Place | null = null,
  ) {
    super(message);
    this.name = 'StackError';
  }
}
