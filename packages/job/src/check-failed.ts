import { copyName } from '@underlap/nest/copy';
import type { Layout, Verdict } from '@underlap/nest/problem';
import { JobError } from './error.ts';

/**
 * The error that keeps a bad layout from being written; null when the verdict is clean. Pieces that the layout itself says
 * it could not place are not a fault of the layout.
 */
export function checkFault(verdict: Verdict, layout: Layout): JobError | null {
  const known = new Set(layout.unplaced.map(copyName));
  const faults = verdict.violations.filter(
    (violation) => !(violation.kind === 'missing' && violation.copies.every((copy) => known.has(copyName(copy)))),
  );
  const first = faults[0];
  if (first === undefined) {
    return verdict.ok || verdict.violations.length > 0
      ? null
      : new JobError(
          'check-failed',
          'The independent check refused the layout without naming a fault; nothing was written.',
        );
  }
  const names = first.copies.map(copyName);
  const more = faults.length > 1 ? ` (and ${faults.length - 1} more)` : '';
  return new JobError(
    'check-failed',
    `The independent check refused the layout, so nothing was written: ${first.message} Sheet ${first.sheet + 1}, at ${first.x.toFixed(2)}, ${first.y.toFixed(2)} mm, pieces ${names.join(' and ')}${more}.`,
    { part: names.join(', '), at: { x: first.x, y: first.y } },
  );
}
