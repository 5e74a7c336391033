import type { JobContext, StageName } from './context.ts';

/** Where each stage ends on the way from 0 to 1, so that the bar moves about evenly on a job of some dozens of pieces. */
const STAGE_ENDS: Readonly<Record<StageName, number>> = {
  read: 0.02,
  sign: 0.04,
  split: 0.3,
  cut: 0.34,
  nest: 0.94,
  check: 0.97,
  files: 1,
};

/** Joins the progress of stages into one that never goes back and ends at 1. */
export class Steps {
  readonly #report: JobContext['onProgress'];
  #from = 0;
  #done = 0;

  constructor(report: JobContext['onProgress']) {
    this.#report = report;
  }

  /** A stage begins; told even when it takes no time. */
  begin(stage: StageName): void {
    this.#report?.({ stage, done: this.#done, share: 0 });
  }

  /** A stage is at `share` (0..1) of its own work. */
  within(stage: StageName, share: number, message?: string): void {
    const to = STAGE_ENDS[stage];
    const own = Math.min(1, Math.max(0, share));
    const done = this.#from + own * (to - this.#from);
    if (!(done > this.#done)) return;
    this.#done = done;
    this.#report?.({ stage, done, share: own, ...(message === undefined ? {} : { message }) });
  }

  /** A stage is over. */
  end(stage: StageName): void {
    this.within(stage, 1);
    this.#from = STAGE_ENDS[stage];
  }
}
