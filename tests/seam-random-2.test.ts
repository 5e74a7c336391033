import { expect, it } from 'vitest';
import { tryRandomSeam } from './support/random-seams.ts';

it('plans random parts 250 to 499 validly or says why not', { timeout: 900_000 }, async () => {
  const faults: string[] = [];
  const kinds = new Map<string, number>();
  for (let k = 250; k < 500; k++) {
    const result = await tryRandomSeam(`suite ${k}`, 400, 'quick', 'full');
    faults.push(...result.faults);
    kinds.set(result.kind, (kinds.get(result.kind) ?? 0) + 1);
  }
  expect(faults).toEqual([]);
  // Mostly real splits: parts that fit or cannot be split prove little.
  const splits = [...kinds].reduce((sum, [kind, count]) => sum + (kind.startsWith('split') ? count : 0), 0);
  expect(splits).toBeGreaterThan(150);
});
