import { expect, it } from 'vitest';
import { tryRandomSeam } from './support/random-seams.ts';

/** Every twentieth of the 500 random parts that the soak run plans in full, at the effort that the product uses, proven twice. */
it('plans random parts validly or says why not', { timeout: 900_000 }, async () => {
  const faults: string[] = [];
  let splits = 0;
  for (let k = 0; k < 500; k += 20) {
    const result = await tryRandomSeam(`suite ${k}`, 400, 'normal', 'full');
    faults.push(...result.faults);
    if (result.kind.startsWith('split')) splits++;
  }
  expect(faults).toEqual([]);
  // Mostly real splits: parts that fit or cannot be split prove little.
  expect(splits).toBeGreaterThan(12);
});
