import { expect, it } from 'vitest';
import { randomTask } from '../testing/fixtures.ts';
import { planSeams } from './plan-seams.ts';
import { provePlan } from './proof.ts';

/** Random parts with fresh seeds, thoroughly planned and proven; SEAM_SOAK tells how many, SEAM_SEED repeats a run. */
const count = Number(process.env.SEAM_SOAK ?? 200);
const base = process.env.SEAM_SEED ?? String(Date.now());

it(`plans ${count} fresh random parts (SEAM_SEED=${base})`, { timeout: 3_600_000 }, async () => {
  const faults: string[] = [];
  for (let k = 0; k < count; k++) {
    const seed = `${base} ${k}`;
    const task = randomTask(seed);
    const outcome = await planSeams(task, { seed: 1 });
    if (outcome.kind !== 'split') continue;
    for (const plan of outcome.plans) {
      for (const fault of provePlan(task, plan, 'full')) faults.push(`${seed}: ${plan.id}: ${fault.message}`);
    }
  }
  expect(faults).toEqual([]);
});
