import { expect, test } from 'vitest';
import { planRandomSign } from './random-signs.ts';

/** How many fresh signs to plan; SOAK_SIGNS=500 for a night. */
const SIGNS = Number(process.env.SOAK_SIGNS ?? 40);

test(`${SIGNS} fresh random signs are planned or refused in words`, async () => {
  const first = Math.floor(Date.now() / 1000);
  for (let seed = first; seed < first + SIGNS; seed++) {
    const plan = await planRandomSign(seed);
    expect(plan.faults, `seed ${seed}`).toEqual([]);
  }
});
