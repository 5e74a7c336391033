import type { Verdict } from '@underlap/nest/problem';
import type { Job } from './document.ts';
import type { Guide } from './guide-of.ts';
import type { CutFile } from './sheet-drawings.ts';
import type { DesignResult, StockLayout } from './stages.ts';

/** Decimals of the outlines in a report, so that piece areas sum to the part's within 1e-9. */
export const REPORT_DECIMALS = 9;

/** The boards of one stock, as they are written. */
export interface ReportStock extends StockLayout {
  readonly verdict: Verdict;
  readonly cuts: readonly CutFile[];
}

/** Everything a report is made of. */
export interface ReportInput {
  readonly job: Job;
  readonly jobName: string;
  readonly designs: readonly DesignResult[];
  /** How each design is built, by its id. */
  readonly guides: ReadonlyMap<string, Guide>;
  /** Files of the masks of each part, by its id in the job; parts without masks are left out. */
  readonly masks: ReadonlyMap<string, readonly string[]>;
  /** Null when something does not fit and nothing was laid out. */
  readonly stocks: readonly ReportStock[] | null;
  /** Were (or will) the sheets be written? */
  readonly isWritten: boolean;
  readonly seconds: number;
}
