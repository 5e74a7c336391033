import { describe, expect, it } from 'vitest';
import { seededRandom } from '../search/random.ts';
import { CoverLinks } from './cover-links.ts';

describe('exact cover by linked lists', () => {
  it('solves the example of Knuth, Dancing Links (2000), section 2; value from memory', () => {
    const rows = [
      [2, 4, 5],
      [0, 3, 6],
      [1, 2, 5],
      [0, 3],
      [1, 6],
      [3, 4, 6],
    ];
    const links = new CoverLinks(
      7,
      rows.map(() => 1),
    );
    for (const [kind, cells] of rows.entries()) links.add(kind, cells);
    expect(links.solve(1000, seededRandom(1))?.sort()).toEqual([0, 3, 4]);
  });

  it('uses a kind no more often than there are pieces, and proves that there is no cover', () => {
    const dominoes = (count: number) => {
      const links = new CoverLinks(4, [count]);
      for (const cells of [
        [0, 1],
        [2, 3],
        [0, 2],
        [1, 3],
      ])
        links.add(0, cells);
      return links;
    };
    expect(dominoes(2).solve(1000, seededRandom(1))).toHaveLength(2);
    const one = dominoes(1);
    expect(one.solve(1000, seededRandom(1))).toBeNull();
    expect(one.isCutShort).toBe(false);
  });

  it('tells when its limit ended it, and finds the same after another search', () => {
    const links = new CoverLinks(36, [18]);
    for (let cell = 0; cell < 36; cell++) {
      if (cell % 6 < 5) links.add(0, [cell, cell + 1]);
      if (cell < 30) links.add(0, [cell, cell + 6]);
    }
    expect(links.solve(3, seededRandom(1))).toBeNull();
    expect(links.isCutShort).toBe(true);
    const cover = links.solve(10_000, seededRandom(1));
    expect(cover).toHaveLength(18);
    expect(links.solve(10_000, seededRandom(1))).toEqual(cover);
  });
});
