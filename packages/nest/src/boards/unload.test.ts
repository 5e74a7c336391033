import { describe, expect, it } from 'vitest';
import type { BoardsInput, Spot } from '../search/task.ts';
import { unloadBoard } from './unload.ts';

const box = (width: number, height: number) => ({
  outer: Float64Array.of(0, 0, width, 0, width, height, 0, height),
  holes: [],
});
const board = { minX: 0, minY: 0, maxX: 100, maxY: 100, obstacles: [], price: 1 };
const square = [{ form: 0, turnDeg: 0 }];
const bar = [{ form: 1, turnDeg: 0 }];
const input = (barHeight: number, group: string | null = null): BoardsInput => ({
  forms: [box(40, 40), box(98, barHeight)],
  items: [{ poses: square }, { poses: square }, { poses: bar, group }, { poses: square, group }],
  boards: [board, board, board],
  spacing: 1,
  tolerance: 1e-4,
});
const at = (item: number, on: number, x: number, y: number): Spot => ({ item, board: on, pose: 0, turnDeg: 0, x, y });
/** Two squares one above the other, so that the bar only fits beside them once one has moved; bar and a square on the next board. */
const apart = [at(0, 0, 0, 0), at(1, 0, 0, 60), at(2, 1, 0, 0), at(3, 1, 0, 55)];
const boardsOf = (spots: readonly Spot[]) => spots.map((spot) => spot.board);
const budget = { evaluations: 400_000 };

describe('moving pieces of the last board onto the others', () => {
  it('makes room there: the bar leaves although nothing was free for it', () => {
    const { spots, moved } = unloadBoard(input(50), apart, 1, budget, { seed: 1 });
    expect(moved).toBe(1);
    expect(boardsOf(spots)).toEqual([0, 0, 0, 1]);
    for (const spot of spots.slice(0, 2)) {
      const gap = Math.max(spot.y - (spots[2]!.y + 50), spots[2]!.y - (spot.y + 40));
      expect(gap).toBeGreaterThanOrEqual(1 - 1e-3);
    }
  });

  it('moves a group as a whole or not at all', () => {
    const { spots, moved } = unloadBoard(input(50, 'kit'), apart, 1, budget, { seed: 1 });
    expect(moved).toBe(0);
    expect(spots).toBe(apart);
  });

  it('opens no further board, and leaves what has no room', () => {
    const { spots } = unloadBoard(input(70), apart, 1, budget, { seed: 1 });
    expect(boardsOf(spots)[2]).toBe(1);
    expect(boardsOf(spots)).not.toContain(2);
  });
});
