import seedrandom from 'seedrandom';
import { describe, expect, it } from 'vitest';
import type { NestPiece, NestProblem, TurnRule } from '../problem.ts';
import { prepareProblem } from '../shape/prepare.ts';
import { areaBound } from './area-bound.ts';
import { boardBound } from './board-bound.ts';
import { dualFeasibleBound } from './dual-feasible.ts';
import { exclusionBound } from './exclusion.ts';

const box = (width: number, height: number) => ({
  outer: Float64Array.of(0, 0, width, 0, width, height, 0, height),
  holes: [],
});

function part(id: string, region: NestPiece['region'], quantity: number, turns: TurnRule = 'fixed'): NestPiece {
  return {
    id,
    region,
    outline: null,
    quantity,
    turns,
    baseTurnDeg: 0,
    mayMirror: false,
    keepsGrain: false,
    groups: [],
  };
}

function problem(parts: NestPiece[], width: number, height: number, spacing = 0, margin = 0): NestProblem {
  return {
    pieces: parts,
    stock: [{ id: 'board', outline: box(width, height), count: null, price: 1, forbidden: [], hasGrain: false }],
    // biome-ignore lint/suspicious/noThenProperty: a word of the nesting rules; nobody awaits them
    rules: { spacing, margin, aim: 'fewest-boards', then: 'largest-offcut' },
    pinned: [],
  };
}

const counts = (p: NestProblem) => p.pieces.map((one) => one.quantity);

describe('lower bounds', () => {
  it('counts areas, and the share of the spacing that each piece needs', () => {
    const bare = problem([part('a', box(10, 10), 4)], 20, 20);
    expect(areaBound(prepareProblem(bare), [4])).toBe(1);
    // 20 + spacing does not hold 2 x (10 + spacing / 2): a second board is needed only by other arguments, the area still fits
    const many = problem([part('a', box(10, 10), 400)], 200, 200, 2);
    expect(areaBound(prepareProblem(many), [400])).toBeGreaterThan(1);
  });

  it('sees that pieces over half the board exclude each other', () => {
    // an L that fills most of 100 x 80: two never fit, though their areas would
    const ell = { outer: Float64Array.of(0, 0, 90, 0, 90, 25, 25, 25, 25, 75, 0, 75), holes: [] };
    const p = problem([part('ell', ell, 3)], 100, 80);
    expect(areaBound(prepareProblem(p), counts(p))).toBe(2);
    expect(exclusionBound(prepareProblem(p), counts(p))).toBe(3);
    expect(boardBound(prepareProblem(p))).toEqual({ boards: 3, by: 'exclusion' });
    // turned by half, two of them embrace: no exclusion may be claimed
    const embracing = problem([part('ell', ell, 3, 'half')], 100, 105);
    expect(exclusionBound(prepareProblem(embracing), counts(embracing))).toBe(1);
  });

  it('beats areas by dual feasible functions', () => {
    // 6 x 6 in 10 x 10: one to a board
    const p = problem([part('a', box(6, 6), 5), part('b', box(4, 4), 5)], 10, 10);
    expect(areaBound(prepareProblem(p), counts(p))).toBe(3);
    expect(dualFeasibleBound(prepareProblem(p), counts(p))).toBe(5);
    // three squares of 0.4 on a side do not stand beside each other: four to a board
    const q = problem([part('a', box(4, 4), 9)], 10, 10);
    expect(dualFeasibleBound(prepareProblem(q), counts(q))).toBe(3);
  });

  it('leaves out what fits no board and counts no boards for nothing', () => {
    const p = problem([part('a', box(50, 50), 1)], 10, 10);
    expect(boardBound(prepareProblem(p), new Set([0]))).toEqual({ boards: 0, by: 'area' });
  });

  it('never exceeds the true optimum of small jobs, found by trying all places', () => {
    const rng = seedrandom('bounds');
    const whole = (from: number, to: number) => from + Math.floor(rng() * (to - from + 1));
    let reached = 0;
    for (let round = 0; round < 40; round++) {
      const width = whole(4, 7);
      const height = whole(4, 6);
      const spacing = whole(0, 1);
      const turns: TurnRule = rng() < 0.5 ? 'fixed' : 'quarter';
      const sizes = Array.from(
        { length: whole(2, 4) },
        () => [whole(1, Math.min(4, width)), whole(1, Math.min(4, height))] as const,
      );
      const p = problem(
        sizes.map(([w, h], i) => part(`p${i}`, box(w, h), 1, turns)),
        width,
        height,
        spacing,
      );
      const optimum = fewestBoards(sizes, width, height, spacing, turns === 'quarter');
      const bound = boardBound(prepareProblem(p)).boards;
      expect(bound, JSON.stringify({ sizes, width, height, spacing, turns })).toBeLessThanOrEqual(optimum);
      if (bound === optimum) reached++;
    }
    // a bound that is always 1 would pass as well: it must also be worth something
    expect(reached).toBeGreaterThan(20);
  });
});

/**
 * True optimum for rectangles of whole sizes and spacing: some optimal layout has all of them pushed to whole coordinates.
 * Tries every place on every board.
 */
function fewestBoards(
  sizes: readonly (readonly [number, number])[],
  width: number,
  height: number,
  spacing: number,
  turn: boolean,
): number {
  interface Placed {
    readonly board: number;
    readonly x: number;
    readonly y: number;
    readonly w: number;
    readonly h: number;
  }
  const place = (index: number, placed: readonly Placed[], boards: number): boolean => {
    const size = sizes[index];
    if (size === undefined) return true;
    for (const [w, h] of turn && size[0] !== size[1] ? [size, [size[1], size[0]] as const] : [size]) {
      for (let board = 0; board < boards; board++) {
        // boards are alike: an empty one stands for all empty ones
        if (board > 0 && !placed.some((p) => p.board === board - 1)) break;
        for (let x = 0; x + w <= width; x++) {
          for (let y = 0; y + h <= height; y++) {
            const clear = placed.every(
              (p) =>
                p.board !== board ||
                // whole coordinates and a spacing of 1: corners are diagonal neighbours at sqrt(2) > 1 apart
                x >= p.x + p.w + spacing ||
                p.x >= x + w + spacing ||
                y >= p.y + p.h + spacing ||
                p.y >= y + h + spacing ||
                Math.hypot(Math.max(0, x - p.x - p.w, p.x - x - w), Math.max(0, y - p.y - p.h, p.y - y - h)) >=
                  Math.max(spacing, 1e-9),
            );
            if (clear && place(index + 1, [...placed, { board, x, y, w, h }], boards)) return true;
          }
        }
      }
    }
    return false;
  };
  for (let boards = 1; boards < sizes.length; boards++) if (place(0, [], boards)) return boards;
  return sizes.length;
}
