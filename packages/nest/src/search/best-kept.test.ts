import { describe, expect, it } from 'vitest';
import { BestKept } from './best-kept.ts';
import { seededRandom } from './random.ts';

describe('the best candidates kept', () => {
  it('are those of least value, in order, whatever comes, and again after a clearing', () => {
    const random = seededRandom('kept');
    for (let size = 1; size <= 5; size++) {
      const kept = new BestKept(size, () => ({ value: Infinity, name: -1 }));
      for (let round = 0; round < 20; round++) {
        kept.clear();
        const values = Array.from({ length: Math.floor(12 * random()) }, () => Math.floor(9 * random()));
        values.forEach((value, name) => {
          if (value < kept.limit) kept.take(value).name = name;
        });
        const found = Array.from({ length: kept.count }, (_, k) => kept.at(k));
        expect(found.map(({ value }) => value)).toEqual([...values].sort((a, b) => a - b).slice(0, size));
        // each slot still belongs to the candidate whose value it has
        for (const { value, name } of found) expect(values[name]).toBe(value);
        expect(new Set(found.map(({ name }) => name)).size).toBe(found.length);
      }
    }
  });
});
