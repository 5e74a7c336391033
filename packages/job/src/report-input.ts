import type { Drawing } from '@underlap/artwork/drawing';
import type { Verdict } from '@underlap/nest/problem';
import type { Sign } from '@underlap/stack/sign';
import type { Job } from './document.ts';
import type { CutFile } from './sheet-drawings.ts';
import type { CutPiece, NestStageResult, SplitResult } from './stages.ts';

/** Decimals of the outlines in a report, so that piece areas sum to the part's within 1e-9. */
export const REPORT_DECIMALS = 9;

/** Everything a report is made of. */
export interface ReportInput {
  readonly job: Job;
  readonly jobName: string;
  readonly drawing: Drawing;
  readonly sign: Sign;
  readonly split: SplitResult;
  readonly pieces: readonly CutPiece[];
  /** Null when something does not fit and nothing was laid out. */
  readonly nested: NestStageResult | null;
  readonly verdict: Verdict | null;
  readonly splitsProven: boolean;
  readonly cuts: readonly CutFile[];
  /** Were (or will) the sheets be written? */
  readonly isWritten: boolean;
  readonly seconds: number;
}
