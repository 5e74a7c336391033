import { multiply, placementMatrix } from '@underlap/geometry/matrix';
import { describe, expect, it } from 'vitest';
import { nest } from './nest.ts';
import type { NestProblem } from './problem.ts';
import { isTurnAllowed, ownTurn, turnByRule, turnsOf } from './turns.ts';

describe('turns from a base turn', () => {
  it.each([
    [0, 0, false],
    [30, 90, false],
    [37.5, 270, false],
    [30, 90, true],
    [123.4, 180, true],
  ])(
    'a base turn of %s, %s by the rule, turned over %s: the same place as turned by both',
    (baseTurnDeg, byRule, mirrored) => {
      // the base turn first, then turned over, then the rule's turn
      const inSteps = multiply(placementMatrix(11, 22, byRule, mirrored), placementMatrix(0, 0, baseTurnDeg));
      const atOnce = placementMatrix(11, 22, ownTurn({ baseTurnDeg }, byRule, mirrored), mirrored);
      for (const key of ['a', 'b', 'c', 'd', 'e', 'f'] as const) expect(atOnce[key]).toBeCloseTo(inSteps[key], 9);
      expect(turnByRule({ baseTurnDeg }, ownTurn({ baseTurnDeg }, byRule, mirrored), mirrored)).toBeCloseTo(byRule, 9);
    },
  );

  it('lists what it allows, and the grain counts from the own frame', () => {
    const askew = { turns: 'quarter', baseTurnDeg: 30, keepsGrain: false } as const;
    expect(turnsOf(askew, true)).toEqual([30, 120, 210, 300]);
    expect(turnsOf(askew, true, true)).toEqual([330, 60, 150, 240]);
    for (const mirrored of [false, true]) {
      for (const turn of turnsOf(askew, true, mirrored)) expect(isTurnAllowed(askew, true, turn, mirrored)).toBe(true);
    }
    expect(isTurnAllowed(askew, true, 30, true)).toBe(false);
    expect(turnsOf({ ...askew, keepsGrain: true }, true)).toEqual([]);
    expect(turnsOf({ ...askew, keepsGrain: true, baseTurnDeg: 90 }, true)).toEqual([180, 0]);
  });

  it('places a bar that fits its board along the diagonal only', async () => {
    const box = (width: number, height: number) => ({
      outer: Float64Array.of(0, 0, width, 0, width, height, 0, height),
      holes: [],
    });
    const problem: NestProblem = {
      pieces: [
        {
          id: 'bar',
          region: box(120, 6),
          outline: null,
          quantity: 2,
          turns: 'quarter',
          baseTurnDeg: 45,
          mayMirror: false,
          keepsGrain: false,
          groups: [],
        },
      ],
      stock: [{ id: 'board', outline: box(100, 100), count: null, price: 1, forbidden: [], hasGrain: false }],
      // biome-ignore lint/suspicious/noThenProperty: a word of the nesting rules; nobody awaits them
      rules: { spacing: 2, margin: 1, aim: 'fewest-boards', then: 'largest-offcut' },
      pinned: [],
    };
    const { layout } = await nest(problem, 'quick', { seed: 1 });
    expect(layout.unplaced).toEqual([]);
    const turns = layout.sheets.flatMap((sheet) => sheet.placements.map(({ turnDeg }) => turnDeg % 90));
    expect(turns).toEqual([45, 45]);
    const square = { ...problem, pieces: problem.pieces.map((piece) => ({ ...piece, baseTurnDeg: 0 })) };
    expect((await nest(square, 'quick', { seed: 1 })).layout.unplaced).toHaveLength(2);
  });
});
