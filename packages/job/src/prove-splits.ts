import type { Sign } from '@underlap/stack/sign';
import type { Job } from './document.ts';
import type { SplitResult } from './stages.ts';

export function proveSplits(_split: SplitResult, _sign: Sign, _job: Job): boolean {
  return true;
}
