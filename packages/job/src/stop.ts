import { JobError } from './error.ts';

/** @throws JobError `cancelled` once the signal says stop. */
export function throwIfStopped(signal: AbortSignal | undefined): void {
  if (signal?.aborted) throw new JobError('cancelled', 'Stopped before it was finished; nothing was written.');
}
