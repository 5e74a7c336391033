import type { NestContext } from '@underlap/nest/nest';
import type { Effort, NestProblem, NestResult } from '@underlap/nest/problem';

/** Who runs the nest search: this thread, worker threads or web workers. The same seed and effort give the same layout. */
export type NestRunner = (problem: NestProblem, effort: Effort, context: NestContext) => Promise<NestResult>;
