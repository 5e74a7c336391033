import { provePlan } from '@underlap/seam/proof';
import { buildPlaces } from '@underlap/stack/levels';
import type { Sign } from '@underlap/stack/sign';
import type { Job } from './document.ts';
import { JobError } from './error.ts';
import { seamTaskOf } from './split-stage.ts';
import type { SplitResult } from './stages.ts';
import { listenForStop } from './stop.ts';
import { thicknessesOf } from './thickness.ts';

/**
 * Prove every plan that was taken by other means than it was made with: areas, overlaps, fit, necks, hidden lengths.
 * @returns true; there is no other outcome than a proof or an error.
 * @throws JobError `check-failed` naming part and fault, so that nothing is written; `cancelled` between two parts.
 * @remarks Some tens of milliseconds for each pair of neighbours.
 */
export async function proveSplits(split: SplitResult, sign: Sign, job: Job, signal?: AbortSignal): Promise<true> {
  const places = buildPlaces(sign, thicknessesOf(sign, job));
  for (const { partId, plan } of split.parts) {
    if (plan === null) continue;
    await listenForStop(signal);
    const part = sign.parts.find((candidate) => candidate.id === partId)!;
    const faults = provePlan(seamTaskOf(sign, part, job, [], places), plan);
    const first = faults[0];
    if (first === undefined) continue;
    throw new JobError(
      'check-failed',
      `The split of ${partId} does not hold, so nothing was written: ${first.message}${faults.length > 1 ? ` (and ${faults.length - 1} more)` : ''}`,
      { part: partId },
    );
  }
  return true;
}
