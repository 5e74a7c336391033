import { expect, it } from 'vitest';
import { spoilRun } from '../support/spoil-svg.ts';

it('reads or refuses 3,000 spoilt drawings, with finite numbers and no other error', { timeout: 240_000 }, () => {
  const { read, refused } = spoilRun('suite', 3000);
  expect(read + refused).toBe(3000);
  // Both ends of the road are taken often enough for the check to mean something.
  expect(read).toBeGreaterThan(600);
  expect(refused).toBeGreaterThan(150);
});
