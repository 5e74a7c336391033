import { checkLayout } from '@underlap/nest/check/check-layout';
import { nest } from '@underlap/nest/nest';
import type { Layout } from '@underlap/nest/problem';
import { describe, expect, it } from 'vitest';
import { cutUpBoard, type ExactPacking, pentominoes, squaredRectangle } from '../support/exact-packings.ts';
import { boardStock, boxRegion, nestPart, nestProblem } from '../support/nest-problems.ts';

// Sources: Moron (1925), squared rectangle; Haselgrove and Haselgrove (1960), pentominoes, value from memory;
// Friedman, Packing Unit Squares in Squares, Electronic J. Combinatorics DS7, value from memory.

const PACKINGS = [squaredRectangle(), pentominoes(), cutUpBoard('exact', 14)];

function known({ problem, solution }: ExactPacking): Layout {
  const board = problem.stock[0]!;
  const [width, height] = [board.outline.outer[2]!, board.outline.outer[5]!];
  return {
    sheets: [{ stockId: board.id, width, height, placements: solution, windows: [], yield: 1, offcut: null }],
    unplaced: [],
    yield: 1,
  };
}

describe('packings that are known to exist', () => {
  it.each(PACKINGS)('$name: the check accepts the solution and refuses it with one piece moved', (packing) => {
    const layout = known(packing);
    expect(checkLayout(packing.problem, layout).violations).toEqual([]);
    const [first, ...rest] = layout.sheets[0]!.placements;
    for (const [dx, dy] of [
      [0.05, 0],
      [0, 0.05],
      [-0.05, 0],
      [0, -0.05],
    ] as const) {
      const moved = {
        ...layout,
        sheets: [{ ...layout.sheets[0]!, placements: [{ ...first!, x: first!.x + dx, y: first!.y + dy }, ...rest] }],
      };
      expect(checkLayout(packing.problem, moved).ok).toBe(false);
    }
  });

  it.each(PACKINGS)('$name: the bound asks for one board and no more', async (packing) => {
    const result = await nest(packing.problem, 'quick', { seed: 1 });
    expect(result.lowerBound.boards).toBe(1);
    expect(checkLayout(packing.problem, result.layout).violations).toEqual([]);
    // a jigsaw laid bottom-left takes a second board, not three
    expect(result.layout.sheets.length).toBeLessThanOrEqual(2);
  });

  it.each([...PACKINGS, pentominoes('quarter')])('$name: a short search fills the one board', async (packing) => {
    const result = await nest(packing.problem, 2, { seed: 1 });
    expect(checkLayout(packing.problem, result.layout).violations).toEqual([]);
    expect(result.layout.sheets).toHaveLength(1);
    expect(result.isProvedMinimal).toBe(true);
  });

  it('eleven of the twelve pentominoes in 6 x 10: five cells stay free', async () => {
    const { problem } = pentominoes('quarter');
    const eleven = { ...problem, pieces: problem.pieces.slice(0, 11) };
    const result = await nest(eleven, 2, { seed: 1 });
    expect(checkLayout(eleven, result.layout).violations).toEqual([]);
    expect(result.layout.sheets).toHaveLength(1);
  });

  it('two sets of pentominoes fill two boards', async () => {
    const { problem } = pentominoes('quarter');
    const twice = { ...problem, pieces: problem.pieces.map((part) => ({ ...part, quantity: 2 })) };
    const result = await nest(twice, 4, { seed: 1 });
    expect(checkLayout(twice, result.layout).violations).toEqual([]);
    expect(result.layout.sheets).toHaveLength(2);
  });

  it('five unit squares fit a square of side 2 + 1 / sqrt 2 with one turned by 45 degrees, and not a smaller one', () => {
    const side = 2 + Math.SQRT1_2;
    const five = (width: number) =>
      nestProblem(
        [nestPart('unit', boxRegion(100, 100), { quantity: 5, turns: 'any' })],
        [boardStock(100 * width, 100 * width)],
        {
          spacing: 0,
          margin: 0,
        },
      );
    const middle = 50 * side;
    // four in the corners, the fifth about the middle: its lower corner lies half a diagonal below
    const corners = [0, 100 * (side - 1)];
    const placements = corners.flatMap((x) => corners.map((y) => ({ x, y, turnDeg: 0 })));
    placements.push({ x: middle, y: middle - 50 * Math.SQRT2, turnDeg: 45 });
    const layout = (width: number): Layout => ({
      sheets: [
        {
          stockId: five(width).stock[0]!.id,
          width: 100 * width,
          height: 100 * width,
          placements: placements.map((p, i) => ({
            ...p,
            pieceId: 'unit',
            copy: i + 1,
            mirrored: false,
          })),
          windows: [],
          yield: 0,
          offcut: null,
        },
      ],
      unplaced: [],
      yield: 0,
    });
    expect(checkLayout(five(side), layout(side)).violations).toEqual([]);
    expect(checkLayout(five(side - 0.001), layout(side - 0.001)).ok).toBe(false);
  });
});
