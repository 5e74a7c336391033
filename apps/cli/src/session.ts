import type { NestRunner } from '@underlap/job/context';
import type { ExitCode } from './exit.ts';

/** What every command gets from the program around it. */
export interface Session {
  /** Aborted by Ctrl-C. */
  readonly signal: AbortSignal;
  /** Nests in as many threads as there are cores. */
  readonly nest: NestRunner;
  /** A command calls this with its exit code when it is not 0. */
  readonly leaveWith: (code: ExitCode) => void;
}
