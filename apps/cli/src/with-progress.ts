import type { WorkContext } from '@underlap/geometry/context';
import { ProgressLine } from './progress-line.ts';

/** Run a long step with a progress line and Ctrl-C. */
export async function withProgress<T>(
  seed: number,
  signal: AbortSignal,
  isQuiet: boolean,
  work: (context: WorkContext) => Promise<T>,
): Promise<T> {
  const line = new ProgressLine(!isQuiet);
  try {
    return await work({ seed, signal, onProgress: (progress) => line.show(progress) });
  } finally {
    line.clear();
  }
}
