import type { WorkContext } from '@underlap/geometry/context';
import { ProgressLine } from './progress-line.ts';

/**
 * Run a long step with a progress line and Ctrl-C.
 * @param work - gets `say` for sentences that stay above the line.
 */
export async function withProgress<T>(
  signal: AbortSignal,
  isQuiet: boolean,
  work: (context: Omit<WorkContext, 'seed'>, say: (text: string) => void) => Promise<T>,
): Promise<T> {
  const line = new ProgressLine(!isQuiet);
  try {
    return await work({ signal, onProgress: (progress) => line.show(progress) }, (text) => line.say(text));
  } finally {
    line.clear();
  }
}
