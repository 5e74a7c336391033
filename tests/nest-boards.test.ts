import { packBoards } from '@underlap/nest/boards/pack-boards';
import type { BoardsInput } from '@underlap/nest/search/task';
import { describe, expect, it } from 'vitest';
import { HEIGHT, randomParts, verdictOn } from './support/random-parts.ts';

const SPACING = 0.8;
const TOLERANCE = 4e-4;

describe('packBoards', () => {
  const board = { minX: 0, minY: 0, maxX: 70, maxY: HEIGHT, obstacles: [], price: 1 };

  it('gives valid layouts on few boards, never more than the incumbent', () => {
    const parts = randomParts('h', 6, 4);
    const input: BoardsInput = { ...parts, boards: Array(8).fill(board), spacing: SPACING, tolerance: TOLERANCE };
    const first = packBoards(input, null, { evaluations: 100_000 }, { seed: 1 });
    expect(first.spots).toHaveLength(24);
    expect(verdictOn(parts, first.spots!, 70, SPACING, 4).violations).toEqual([]);
    const second = packBoards(input, first.spots, { evaluations: 50_000 }, { seed: 2 });
    expect(second.price).toBeLessThanOrEqual(first.price);
    expect(verdictOn(parts, second.spots!, 70, SPACING, 4).ok).toBe(true);
  });

  it('keeps groups on one board and prefers cheap boards', () => {
    const parts = randomParts('i', 6, 4);
    const items = parts.items.map((item, index) => ({ ...item, group: `kit ${index % 4}` }));
    const boards = [board, board, board, board, { ...board, price: 0.2 }, { ...board, price: 0.2 }];
    const input: BoardsInput = { ...parts, items, boards, spacing: 0, tolerance: TOLERANCE };
    const result = packBoards(input, null, { evaluations: 200_000 }, { seed: 3 });
    for (let kit = 0; kit < 4; kit++) {
      const where = new Set(result.spots!.filter((spot) => spot.item % 4 === kit).map((spot) => spot.board));
      expect(where.size).toBe(1);
    }
    expect(result.spots!.some((spot) => spot.board >= 4)).toBe(true);
  });

  it('never leaves a piece on a board that its pose exceeds', () => {
    const forms = [{ outer: Float64Array.of(0, 0, 50, 0, 50, 9, 0, 9), holes: [] }];
    const poses = [0, 90].map((turnDeg) => ({ form: 0, turnDeg }));
    const items = Array.from({ length: 6 }, () => ({ poses }));
    // Two narrow boards that are cheap and too short one way, and one dear board.
    const narrow = { minX: 0, minY: 0, maxX: 60, maxY: 20, obstacles: [], price: 0.1 };
    const tiny = { minX: 0, minY: 0, maxX: 40, maxY: 40, obstacles: [], price: 0.1 };
    const boards = [board, tiny, narrow, tiny];
    const input: BoardsInput = { forms, items, boards, spacing: 0, tolerance: 1e-4 };
    const result = packBoards(input, null, { evaluations: 100_000 }, { seed: 1 });
    expect(result.spots!.some((spot) => spot.board === 1 || spot.board === 3)).toBe(false);
    expect(result.spots!.filter((spot) => spot.board === 2).every((spot) => spot.turnDeg === 0)).toBe(true);
  });

  it('fills boards of a known cut without waste', () => {
    const cut = [
      [0, 0, 31, 0, 26, 44, 0, 40],
      [31, 0, 70, 0, 70, 25, 26, 44],
      [0, 40, 26, 44, 38, 60, 0, 60],
      [26, 44, 70, 25, 70, 60, 38, 60],
    ].map((ring) => Float64Array.from(ring));
    const forms = cut.map((outer) => ({ outer, holes: [] }));
    const items = [...cut, ...cut].map((_, index) => ({
      poses: [0, 90, 180, 270].map((turnDeg) => ({ form: index % 4, turnDeg })),
    }));
    const input: BoardsInput = {
      forms,
      items,
      boards: Array(5).fill(board),
      spacing: 0,
      tolerance: 1e-4,
      priceBound: 2,
    };
    const result = packBoards(input, null, { evaluations: 2e6 }, { seed: 1 });
    expect(result.boardsUsed).toBe(2);
    expect(result.endedBy).toBe('bound');
  });
});

describe('free turns', () => {
  it('puts five unit squares into a square of side 2.7072', () => {
    // 2 + 1 / sqrt 2 = 2.70711 is least possible (Friedman, Packing Unit Squares in Squares, EJC DS7; value from memory).
    const forms = [{ outer: Float64Array.of(0, 0, 1, 0, 1, 1, 0, 1), holes: [] }];
    const poses = [0, 30, 60].map((turnDeg) => ({ form: 0, turnDeg }));
    const items = Array.from({ length: 5 }, () => ({ poses, isFreeToTurn: true }));
    const side = 2.7072;
    const boards = Array(2).fill({ minX: 0, minY: 0, maxX: side, maxY: side, obstacles: [], price: 1 });
    const input: BoardsInput = { forms, items, boards, spacing: 0, tolerance: 1e-6, priceBound: 1 };
    const result = packBoards(input, null, { evaluations: 6_000_000 }, { seed: 1 });
    expect(result.boardsUsed).toBe(1);
    const tilted = result.spots!.filter((spot) => Math.abs((spot.turnDeg % 90) - 45) < 5);
    expect(tilted).toHaveLength(1);
  });

  it('cannot do it with listed turns of 0, 30 and 60 degrees', () => {
    const forms = [{ outer: Float64Array.of(0, 0, 1, 0, 1, 1, 0, 1), holes: [] }];
    const items = Array.from({ length: 5 }, () => ({ poses: [0, 30, 60].map((turnDeg) => ({ form: 0, turnDeg })) }));
    const boards = Array(2).fill({ minX: 0, minY: 0, maxX: 2.7072, maxY: 2.7072, obstacles: [], price: 1 });
    const input: BoardsInput = { forms, items, boards, spacing: 0, tolerance: 1e-6, priceBound: 1 };
    expect(packBoards(input, null, { evaluations: 500_000 }, { seed: 1 }).boardsUsed).toBe(2);
  });
});
