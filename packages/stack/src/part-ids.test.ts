import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { mintPartIds } from './part-ids.ts';

/** Everything that the parts may become: pieces, seams, plates. */
const derived = (id: string): string[] =>
  [1, 2, 3, 22].flatMap((n) => [`${id}-${n}`, `${id}-seam-${n}`, `${id}-plate-${n}`]);

describe('ids of parts', () => {
  it.each([
    [
      ['oval', 'oval-2'],
      ['oval', 'oval2'],
    ],
    [
      ['oval-2', 'oval'],
      ['oval2', 'oval'],
    ],
    [
      ['oval', 'oval', 'oval'],
      ['oval', 'oval2', 'oval3'],
    ],
    [
      ['sail-1', 'sail-2'],
      ['sail-1', 'sail-2'],
    ],
    [
      ['Boje Ä', 'boje a', ''],
      ['boje-a', 'boje-a2', 'part'],
    ],
    [
      ['backer', 'backer-plate-1'],
      ['backer', 'backer-plate1'],
    ],
  ])('%j become %j', (names, ids) => {
    expect(mintPartIds(names, 'part')).toEqual(ids);
  });

  it('never collide with one another or with the pieces of another part', () => {
    const name = fc.stringMatching(/^[ab]{1,2}(-[12]|-seam-1|-plate-2|2)?(-[12])?$/);
    fc.assert(
      fc.property(fc.array(name, { maxLength: 8 }), (names) => {
        const ids = mintPartIds(names, 'part');
        expect(new Set(ids).size).toBe(names.length);
        const pieces = new Set(ids.flatMap(derived));
        for (const id of ids) expect(pieces.has(id)).toBe(false);
      }),
      { seed: 14, numRuns: 2000 },
    );
  });
});
