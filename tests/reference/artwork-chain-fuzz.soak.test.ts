import { expect, it } from 'vitest';
import { chainRun } from '../support/spoil-chain.ts';

/** Drawings to spoil; fresh seeds each time. */
const COUNT = Number(process.env.SOAK_DRAWINGS ?? 100_000);

it('takes 100,000 spoilt drawings through reading, inspecting and finding parts', () => {
  const prefix = `soak-${Date.now()}`;
  const { counts, slowest, slowestSeed } = chainRun(prefix, COUNT);
  console.log(prefix, counts, slowest, slowestSeed);
  expect(counts.refused + counts['no sign'] + counts.sign).toBe(COUNT);
  // A hang would show as one drawing that takes far longer than its size explains.
  expect(slowest).toBeLessThan(60);
});
