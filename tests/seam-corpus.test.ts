import { planSeams } from '@underlap/seam/plan-seams';
import { provePlan } from '@underlap/seam/proof';
import type { SplitPlan } from '@underlap/seam/task';
import { expect, it } from 'vitest';
import { proveOutside } from './support/outside-seam-proof.ts';
import { type BedName, corpusTask, type DesignName } from './support/seam-corpus.ts';

/** Plan at the effort that the product uses; every plan offered stands both proofs. */
async function plansOf(name: DesignName, bed: BedName | readonly [number, number]): Promise<readonly SplitPlan[]> {
  const task = corpusTask(name, bed);
  const outcome = await planSeams(task, { seed: 1 });
  if (outcome.kind === 'cannot') throw new Error(`${name} on ${bed}: ${outcome.why.message}`);
  if (outcome.kind === 'fits') return [];
  for (const plan of outcome.plans) {
    expect([name, bed, ...provePlan(task, plan, 'full')]).toEqual([name, bed]);
    expect([name, bed, ...proveOutside(task, plan)]).toEqual([name, bed]);
    expect(plan.provenFewest).toBe(plan.pieces.length === outcome.piecesLowerBound);
  }
  return outcome.plans;
}

/** Pieces of plans drawn by hand, with room for knobs. */
const BY_HAND: readonly (readonly [DesignName, BedName, number])[] = [
  ['house', '400x400', 4],
  ['windows', '400x400', 4],
  ['arch', '520x320', 2],
  ['arch', '400x400', 3],
  ['oval', '300x200', 4],
  ['longOval', '300x200', 4],
  ['slimStar', '300x200', 5],
  ['ring', '400x400', 3],
  ['plank', '300x200', 5],
  ['hoop', '400x400', 2],
];

it.each(BY_HAND)('%s on %s takes no more pieces than by hand: %i', { timeout: 300_000 }, async (name, bed, pieces) => {
  const [plan] = await plansOf(name, bed);
  expect(plan!.pieces.length).toBeLessThanOrEqual(pieces);
});

it('the ring is cut in three radial seams', { timeout: 300_000 }, async () => {
  const [plan] = await plansOf('ring', '400x400');
  expect(plan!.seams).toHaveLength(3);
  for (const seam of plan!.seams) {
    const { start, segments } = seam.spine;
    const end = segments[segments.length - 1]!.to;
    expect(Math.abs(Math.hypot(end.x, end.y) - Math.hypot(start.x, start.y))).toBeCloseTo(55, 1);
    expect(seam.knobs.length).toBeGreaterThan(0);
  }
});

const OTHERS: readonly (readonly [DesignName, BedName])[] = (
  ['shield', 'star', 'plaque', 'silhouette', 'porch', 'door'] as const
).flatMap((name) => (['400x400', '600x300 through'] as const).map((bed) => [name, bed] as const));

it.each(OTHERS)('%s on %s is split, and proven twice', { timeout: 300_000 }, async (name, bed) => {
  const plans = await plansOf(name, bed);
  for (const plan of plans) expect(plan.balance).toBeGreaterThan(0.1);
});

it('a tip of a star is no piece: as many fair ones are taken instead', { timeout: 300_000 }, async () => {
  const [plan] = await plansOf('windRose', '520x320');
  expect(plan!.pieces).toHaveLength(4);
  expect(plan!.balance).toBeGreaterThan(0.5);
});
