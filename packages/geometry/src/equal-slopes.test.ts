import seedrandom from 'seedrandom';
import { expect, it } from 'vitest';
import { areProductsEqual } from './equal-slopes.ts';

it('says of whole numbers whether two products are equal, as whole numbers of any length do', () => {
  const random = seedrandom('slopes');
  const whole = (most: number) => Math.floor((2 * random() - 1) * most);
  let equal = 0;
  for (let k = 0; k < 20_000; k++) {
    const [p, q, r, s] = [whole(3e4), whole(3e4), whole(3e4), whole(3e4)];
    // p q r s in two ways, and near misses by one.
    const [a, b, c, d] = [p * q, r * s, p * r, q * s + (k % 3 === 0 ? 1 : 0)];
    const exact = BigInt(a) * BigInt(b) === BigInt(c) * BigInt(d);
    if (exact) equal++;
    expect(areProductsEqual(a, b, c, d)).toBe(exact);
  }
  expect(equal).toBeGreaterThan(10_000);
  expect(equal).toBeLessThan(15_000);
});

it('tells products apart that doubles cannot', () => {
  expect(2 ** 30 * (2 ** 30 + 2)).toBe((2 ** 30 + 1) * (2 ** 30 + 1));
  expect(areProductsEqual(2 ** 30, 2 ** 30 + 2, 2 ** 30 + 1, 2 ** 30 + 1)).toBe(false);
});
