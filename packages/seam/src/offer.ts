import type { WorkContext } from '@underlap/geometry/context';
import { choosePlans } from './choose.ts';
import type { PlannedPlan } from './finish.ts';
import { provePlan } from './proof.ts';
import type { SeamViolation } from './seam-violation.ts';
import { breathe } from './search-ground.ts';
import type { SeamRemark, SeamTask } from './task.ts';

/** Proofs that were made already, by the pieces of the plan. */
export type Proofs = Map<PlannedPlan['plan']['pieces'], readonly SeamViolation[]>;

/**
 * The plans to offer, best first: every one of them stands the full proof.
 * @param proofs - filled in as plans are proven.
 * @returns a plan with thin corners only where none without is left, and then it says so; empty when nothing stands the proof.
 * @remarks Proofs cost more than plans: only what would be offered is proven, and what falls is replaced by the next best.
 * @throws SeamError `cancelled`.
 */
export async function offeredPlans(
  task: SeamTask,
  plans: readonly PlannedPlan[],
  context: WorkContext,
  proofs: Proofs,
): Promise<PlannedPlan[]> {
  let pool = plans;
  const thin: PlannedPlan[] = [];
  while (pool.length > 0) {
    const offered = choosePlans(pool, task.wishes);
    const fallen = new Set<PlannedPlan['plan']['pieces']>();
    for (const entry of offered) {
      await breathe(context.signal);
      const faults = proofOf(task, entry, proofs);
      if (faults.length > 0) fallen.add(entry.plan.pieces);
    }
    if (fallen.size === 0) return offered;
    const isFallen = (entry: PlannedPlan) => fallen.has(entry.plan.pieces);
    thin.push(...pool.filter((entry) => isFallen(entry) && isOnlyThin(proofOf(task, entry, proofs))));
    pool = pool.filter((entry) => !isFallen(entry));
  }
  return choosePlans(thin, task.wishes).map((entry) => withThinTold(entry, proofOf(task, entry, proofs)));
}

/** What is wrong with a plan by the full proof; worked out once. */
export function proofOf(task: SeamTask, entry: PlannedPlan, proofs: Proofs): readonly SeamViolation[] {
  let faults = proofs.get(entry.plan.pieces);
  if (faults === undefined) {
    faults = provePlan(task, entry.plan, 'full');
    proofs.set(entry.plan.pieces, faults);
  }
  return faults;
}

function isOnlyThin(faults: readonly SeamViolation[]): boolean {
  return faults.every((fault) => fault.code === 'sliver');
}

function withThinTold(entry: PlannedPlan, faults: readonly SeamViolation[]): PlannedPlan {
  const told = faults.map((fault): SeamRemark => {
    const message = `A corner is thin and may char or break off: ${fault.message}.`;
    return { code: 'sliver', message, at: fault.at };
  });
  return { ...entry, plan: { ...entry.plan, remarks: [...entry.plan.remarks, ...told] } };
}
