import { planSeams } from '@underlap/seam/plan-seams';
import { type ProofDepth, provePlan } from '@underlap/seam/proof';
import { randomTask } from '../../packages/seam/testing/fixtures.ts';
import { proveOutside } from './outside-seam-proof.ts';

/** What became of one random task; `faults` is empty when all is well. */
export interface RandomSeamResult {
  readonly kind: string;
  readonly faults: readonly string[];
}

/**
 * Plan one random task and prove every plan; a reason must be told when there is none. At the effort that the product uses the
 * first plan is also proven by the second proof, which shares no geometry with the planner.
 */
export async function tryRandomSeam(
  seed: string,
  largest: number,
  effort: 'quick' | 'normal',
  depth: ProofDepth,
): Promise<RandomSeamResult> {
  const task = randomTask(seed, largest);
  const outcome = await planSeams(task, { seed: 1 }, effort);
  if (outcome.kind === 'fits') return { kind: 'fits', faults: [] };
  if (outcome.kind === 'cannot') {
    const isClear = outcome.why.message.length > 20 && outcome.why.code !== '';
    return { kind: `cannot: ${outcome.why.code}`, faults: isClear ? [] : [`${seed}: no reason given`] };
  }
  const faults = outcome.plans.flatMap((plan) => [
    ...provePlan(task, plan, depth).map((fault) => `${seed}: ${fault.code}: ${fault.message}`),
    ...(plan.pieces.length < outcome.piecesLowerBound ? [`${seed}: fewer pieces than the proven bound`] : []),
  ]);
  if (effort === 'normal') faults.push(...proveOutside(task, outcome.plans[0]!).map((fault) => `${seed}: ${fault}`));
  return { kind: `split in ${outcome.plans[0]!.pieces.length}`, faults };
}
