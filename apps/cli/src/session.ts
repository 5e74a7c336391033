import type { Pipeline } from '@underlap/job/pipeline';
import type { ExitCode } from './exit.ts';

/** What every command gets from the program around it. */
export interface Session {
  /** Aborted by Ctrl-C. */
  readonly signal: AbortSignal;
  /** The stages of jobs, remembered from one job of the command to the next; nests in as many threads as there are cores. */
  readonly pipeline: Pipeline;
  /** A command calls this with its exit code when it is not 0. */
  readonly leaveWith: (code: ExitCode) => void;
}
