import { expect, it } from 'vitest';
import { spoilRun } from '../support/spoil-svg.ts';

it('reads or refuses 100,000 spoilt drawings with fresh seeds', () => {
  const prefix = `soak-${Date.now()}`;
  const result = spoilRun(prefix, 100_000);
  console.log(prefix, result);
  expect(result.read + result.refused).toBe(100_000);
  // A hang would show as one drawing that takes far longer than its size explains.
  expect(result.slowest).toBeLessThan(20);
});
