import { apply } from '@underlap/geometry/matrix';
import type { Placement, Sheet } from '@underlap/nest/problem';
import { describe, expect, it } from 'vitest';
import { cutPlan, intoFile, loadingsOf, loadingWords, moveWords } from './loadings.ts';
import { jobFrom } from './parse-job.ts';

const job = jobFrom({ bed: '300x200', boards: ['560x380'], margin: 0 }, 'test');

const place = (pieceId: string, copy: number, x: number, y: number): Placement => ({
  pieceId,
  copy,
  x,
  y,
  turnDeg: 0,
  mirrored: false,
});

/** A board whose pieces lie in three of its four windows. */
function sheetOf(copy: number, shift = 0): Sheet {
  const placements = [
    place('tower', copy, 10 + shift, 10),
    place('hull', copy, 300, 20),
    place('gull', copy, 320, 250),
  ];
  const window = (x: number, y: number, index: number) => ({
    x,
    y,
    copies: [{ pieceId: placements[index]!.pieceId, copy }],
  });
  return {
    stockId: '560x380',
    width: 560,
    height: 380,
    placements,
    windows: [window(0, 0, 0), window(260, 0, 1), window(260, 180, 2)],
    offcut: null,
  } as unknown as Sheet;
}

describe('loadings', () => {
  it('are told in the order of one short way round the board, empty ones left out, every copy once', () => {
    const loadings = loadingsOf(sheetOf(1), job);
    expect(loadings.map(({ number, count }) => `${number}/${count}`)).toEqual(['1/3', '2/3', '3/3']);
    expect(loadings.flatMap(({ copies }) => copies.map(({ pieceId }) => pieceId)).sort()).toEqual([
      'gull',
      'hull',
      'tower',
    ]);
    // Down the first column, up the second: the lower window comes before the upper one there.
    expect(loadings.map(({ copies }) => copies[0]!.pieceId)).toEqual(['tower', 'gull', 'hull']);
  });

  it('say how the board moves: the moves add up to where each page lies', () => {
    const loadings = loadingsOf(sheetOf(1), job);
    expect(loadings[0]!.move).toBeNull();
    let at = { x: loadings[0]!.board.minX, y: loadings[0]!.board.minY };
    for (const { move, page, board } of loadings.slice(1)) {
      at = { x: at.x + move!.dx, y: at.y + move!.dy };
      expect(at.x).toBeCloseTo(-page.minX, 9);
      expect(at.y).toBeCloseTo(board.minY, 9);
    }
    expect(loadingWords(loadings[1]!).join('; ')).toContain('move the board 260 mm to the left and 180 mm up');
    expect(moveWords({ dx: 0, dy: 12.5 })).toBe('12.5 mm down (towards you)');
    expect(moveWords({ dx: 0, dy: 0 })).toBe('not at all');
  });

  it('a file that is turned for the bed still begins at 0, 0 and holds its page', () => {
    const page = { minX: 100, minY: 40, maxX: 290, maxY: 330 };
    const corners = [page.minX, page.maxX].flatMap((x) => [page.minY, page.maxY].map((y) => ({ x, y })));
    for (const isTurned of [false, true]) {
      const found = corners.map((corner) => apply(intoFile({ page, isTurned }), corner));
      expect(Math.min(...found.map(({ x }) => x))).toBeCloseTo(0, 9);
      expect(Math.min(...found.map(({ y }) => y))).toBeCloseTo(0, 9);
      expect(Math.max(...found.map(({ x }) => x))).toBeCloseTo(isTurned ? 290 : 190, 9);
    }
  });

  it('boards with the same pieces in the same places are one set of files, whatever signs they belong to', () => {
    const plan = cutPlan([sheetOf(1), sheetOf(2), sheetOf(3, 0.5)], job);
    expect(plan.map(({ sheets }) => sheets)).toEqual([[0, 1], [2]]);
  });
});
