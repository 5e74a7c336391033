import { describe, expect, it } from 'vitest';
import { checkLayout } from '../check/check-layout.ts';
import { nest } from '../nest.ts';
import type { NestProblem } from '../problem.ts';
import { seededRandom } from '../search/random.ts';
import { packStrip } from '../search/strip.ts';

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

  it('keep clear of obstacles on a strip', () => {
    const { pieces: parts } = problemOf('third');
    const forms = parts.map(({ region }) => ({ region }));
    const items = parts.flatMap((_, form) =>
      Array.from({ length: 3 }, () => ({ poses: [0, 90].map((turnDeg) => ({ form, turnDeg })), isFreeToTurn: true })),
    );
    const clamp = { region: { outer: Float64Array.of(30, 30, 50, 30, 50, 60, 30, 60), holes: [] }, clearance: 2 };
    const input = { forms, items, spacing: 1, tolerance: 1e-4, height: 100, obstacles: [clamp] };
    const { spots, length } = packStrip(input, { evaluations: 400_000 }, { seed: 1 });
    expect(spots).toHaveLength(15);
    expect(length).toBeLessThan(1e3);
    for (const spot of spots) {
      const ring = parts[Math.floor(spot.item / 3)]!.region.outer;
      const turn = (spot.turnDeg * Math.PI) / 180;
      for (let i = 0; i < ring.length; i += 2) {
        const x = spot.x + Math.cos(turn) * ring[i]! - Math.sin(turn) * ring[i + 1]!;
        const y = spot.y + Math.sin(turn) * ring[i]! + Math.cos(turn) * ring[i + 1]!;
        expect(x).toBeGreaterThan(-1e-3);
        expect(x).toBeLessThan(length + 1e-3);
        expect(x > 28.01 && x < 51.99 && y > 29.99 && y < 60.01).toBe(false);
      }
    }
  });
});
