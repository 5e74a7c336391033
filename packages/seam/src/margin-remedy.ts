import { commonBox } from './goes-in.ts';
import type { Limit, SeamOutcome, SeamRemark, SeamTask, SplitPlan } from './task.ts';

/** A remedy that hides less than this much more of the seam, and saves no piece, is none. */
const WORTH_TELLING = 0.05;

/**
 * What the part would become without the margin of a limit: planned, not guessed.
 * @param best - the plan that is offered first.
 * @param planOf - plans a task; asked once for each margin that narrows what pieces go in.
 * @returns null where no margin matters.
 */
export async function marginRemedy(
  task: SeamTask,
  best: SplitPlan,
  planOf: (task: SeamTask) => Promise<SeamOutcome>,
): Promise<SeamRemark | null> {
  const now = commonBox(task.limits, task.kerf);
  for (const limit of task.limits) {
    const { margin = 0 } = limit;
    if (margin <= 0) continue;
    const bare: Limit = { name: limit.name, width: limit.width + 2 * margin, height: limit.height + 2 * margin };
    const limits = task.limits.map((each) => (each === limit ? bare : each));
    const then = commonBox(limits, task.kerf);
    if (then.long === now.long && then.short === now.short) continue;
    const outcome = await planOf({ ...task, limits });
    const gain = gainOf(best, outcome);
    if (gain === null) continue;
    const message = `The margin of ${margin} mm limits this part: ${sizeWords(limit)} are left of the ${limit.name}. With a margin of 0 ${gain}.`;
    return { code: 'limited-by-margin', message, at: null };
  }
  return null;
}

function gainOf(best: SplitPlan, outcome: SeamOutcome): string | null {
  if (outcome.kind === 'fits') return 'it fits whole';
  if (outcome.kind === 'cannot') return null;
  const [plan] = outcome.plans;
  const [pieces, other] = [best.pieces.length, plan!.pieces.length];
  const share = hiddenShareOf(plan!);
  const isFewer = other < pieces;
  if (!isFewer && (other > pieces || share < hiddenShareOf(best) + WORTH_TELLING)) return null;
  const hidden = `the seam is hidden ${Math.floor(100 * share)} %`;
  return isFewer ? `it goes in ${other} pieces, and ${hidden}` : hidden;
}

function hiddenShareOf({ hiddenLengthMm, visibleLengthMm }: SplitPlan): number {
  const length = hiddenLengthMm + visibleLengthMm;
  return length > 0 ? hiddenLengthMm / length : 1;
}

/** A limit's sides in words. */
export function sizeWords({ width, height }: Limit): string {
  const side = (value: number) => (Number.isFinite(value) ? value.toFixed(0) : 'any length');
  return `${side(width)} x ${side(height)} mm`;
}
