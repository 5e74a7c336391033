import { describe, expect, it } from 'vitest';
import { checkLayout } from '../check/check-layout.ts';
import { nest } from '../nest.ts';
import type { NestProblem } from '../problem.ts';
import { seededRandom } from '../search/random.ts';

/** Work units of each search. */
const EFFORT = 0.4;

/** Random pieces, some with a hole, on boards with a place to keep clear of and a corner cut off. */
function problemOf(seed: string): NestProblem {
  const random = seededRandom(seed);
  const parts = Array.from({ length: 5 }, (_, index): NestProblem['pieces'][number] => {
    const n = 3 + Math.floor(random() * 5);
    const ring = (scale: number) =>
      Float64Array.from(
        Array.from({ length: n }, (_, v) => {
          const angle = (2 * Math.PI * (v + 0.6 * random())) / n;
          const radius = scale * (12 + 10 * random());
          return [radius * Math.cos(angle), radius * Math.sin(angle)];
        }).flat(),
      );
    const hole = Float64Array.of(0, 0, 0, 2, 2, 2, 2, 0);
    return {
      id: `part ${index}`,
      region: { outer: ring(1), holes: index % 2 === 0 && n > 4 ? [hole] : [] },
      outline: null,
      quantity: 4,
      turns: index === 1 ? 'quarter' : 'any',
      baseTurnDeg: 0,
      mayMirror: index === 2,
      keepsGrain: false,
      groups: [],
    };
  });
  return {
    pieces: parts,
    stock: [
      {
        id: 'board',
        outline: { outer: Float64Array.of(0, 0, 150, 0, 150, 90, 120, 110, 0, 110), holes: [] },
        count: null,
        price: 1,
        forbidden: [{ outer: Float64Array.of(60, 40, 75, 40, 75, 55, 60, 55), holes: [] }],
        hasGrain: false,
      },
    ],
    // biome-ignore lint/suspicious/noThenProperty: the contract's name for the second aim; nothing awaits it
    rules: { spacing: 1.5, margin: 3, aim: 'fewest-boards', then: 'largest-offcut' },
    pinned: [],
  };
}

describe('boards with pieces that may take any turn', () => {
  for (const seed of ['first', 'second']) {
    it(`keep spacing, margin, forbidden places and turn rules exactly, and lose no piece (${seed})`, async () => {
      const problem = problemOf(seed);
      const { layout } = await nest(problem, EFFORT, { seed: 1 });
      expect(checkLayout(problem, layout).violations.map((violation) => violation.message)).toEqual([]);
      const placed = layout.sheets.reduce((sum, sheet) => sum + sheet.placements.length, 0);
      expect(placed).toBe(20);
      if (seed !== 'first') return;
      const again = await nest(problem, EFFORT, { seed: 1 });
      expect(again.layout).toEqual(layout);
    });
  }
});
