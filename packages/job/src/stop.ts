import { JobError } from './error.ts';

/** @throws JobError `cancelled` once the signal says stop. */
export function throwIfStopped(signal: AbortSignal | undefined): void {
  if (signal?.aborted) throw new JobError('cancelled', 'Stopped before it was finished; nothing was written.');
}

/** Longest stretch of work after which a wish to stop is heard, ms. */
const LISTEN_EVERY_MS = 40;

let listenedAt = 0;

/**
 * Let a wish to stop arrive between two steps of work that never waits for anything by itself.
 * @throws JobError `cancelled` once the signal says stop.
 * @remarks A turn of the event loop every 40 ms at most, else nothing: cheap enough for inner loops.
 */
export async function listenForStop(signal: AbortSignal | undefined): Promise<void> {
  throwIfStopped(signal);
  const now = performance.now();
  if (signal === undefined || now - listenedAt < LISTEN_EVERY_MS) return;
  await new Promise((resolve) => setTimeout(resolve, 0));
  listenedAt = performance.now();
  throwIfStopped(signal);
}
