import { expect, test } from 'vitest';
import { planRandomSign } from './random-signs.ts';

test.each([1, 5, 7])('random sign %i: planned and re-checked from outside, or refused in words', async (seed) => {
  const plan = await planRandomSign(seed);
  expect(plan.faults).toEqual([]);
  expect(plan.words).not.toBe('');
});
