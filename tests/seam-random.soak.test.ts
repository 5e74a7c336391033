import { expect, it } from 'vitest';
import { tryRandomSeam } from './support/random-seams.ts';

it('plans 500 random parts at the effort that the product uses, proven twice', { timeout: 3_600_000 }, async () => {
  const faults: string[] = [];
  let splits = 0;
  for (let k = 0; k < 500; k++) {
    const result = await tryRandomSeam(`suite ${k}`, 400, 'normal', 'full');
    faults.push(...result.faults);
    if (result.kind.startsWith('split')) splits++;
  }
  expect(faults).toEqual([]);
  expect(splits).toBeGreaterThan(300);
});
