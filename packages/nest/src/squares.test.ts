import { describe, expect, it } from 'vitest';
import { checkLayout } from './check/check-layout.ts';
import { nest } from './nest.ts';
import type { NestProblem } from './problem.ts';

/** Side of the board in units of the squares' side: 2 + 1 / sqrt 2 = 2.70711 is least possible. */
const SIDE = 2.7072;
/** Millimetres to a unit. */
const SCALE = 100;

function squaresOnBoard(turns: NestProblem['pieces'][number]['turns']): NestProblem {
  const square = (side: number) => Float64Array.of(0, 0, side, 0, side, side, 0, side);
  return {
    pieces: [
      {
        id: 'square',
        region: { outer: square(SCALE), holes: [] },
        outline: null,
        quantity: 5,
        turns,
        baseTurnDeg: 0,
        mayMirror: false,
        keepsGrain: false,
        groups: [],
      },
    ],
    stock: [
      {
        id: 'board',
        outline: { outer: square(SIDE * SCALE), holes: [] },
        count: null,
        price: 1,
        forbidden: [],
        hasGrain: false,
      },
    ],
    // biome-ignore lint/suspicious/noThenProperty: the contract's name for the second aim; nothing awaits it
    rules: { spacing: 0, margin: 0, aim: 'fewest-boards', then: 'largest-offcut' },
    pinned: [],
  };
}

describe('five unit squares (Friedman, Packing Unit Squares in Squares, EJC DS7; value from memory)', () => {
  it('fit a square of side 2.7072 when they may take any turn', async () => {
    const problem = squaresOnBoard('any');
    const { layout } = await nest(problem, 5, { seed: 1 });
    expect(layout.unplaced).toEqual([]);
    expect(layout.sheets).toHaveLength(1);
    expect(checkLayout(problem, layout).violations).toEqual([]);
    const askew = layout.sheets[0]!.placements.filter(({ turnDeg }) => Math.abs((turnDeg % 90) - 45) < 5);
    expect(askew).toHaveLength(1);
  });

  it('need two boards with quarter turns', async () => {
    const { layout } = await nest(squaresOnBoard('quarter'), 1, { seed: 1 });
    expect(layout.sheets).toHaveLength(2);
  });
});
