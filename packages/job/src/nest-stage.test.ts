import { transformContour } from '@underlap/geometry/contour';
import type { Contour } from '@underlap/geometry/curve';
import { multiply, placementMatrix } from '@underlap/geometry/matrix';
import { describe, expect, it } from 'vitest';
import { boardId, nestProblemOf, placementInPieceFrame, priceOf } from './nest-stage.ts';
import { jobFrom } from './parse-job.ts';

const line: Contour = { start: { x: 3, y: 7 }, segments: [{ kind: 'line', to: { x: 40, y: -5 } }], closed: false };

describe('frames of placements', () => {
  // The nester sees a piece turned by its base turn; seen from the piece's own frame the same place must come out.
  it.each([
    [0, 0, false],
    [30, 90, false],
    [37.5, 270, false],
    [30, 90, true],
    [123.4, 180, true],
  ])('a base turn of %s, a turn of %s, mirrored %s', (baseTurnDeg, turnDeg, mirrored) => {
    const placement = { pieceId: 'a#1', partId: 'a', copy: 1, x: 11, y: 22, turnDeg, mirrored };
    const byNester = multiply(placementMatrix(11, 22, turnDeg, mirrored), placementMatrix(0, 0, baseTurnDeg));
    const own = placementInPieceFrame(placement, { baseTurnDeg });
    const expected = transformContour(line, byNester);
    const found = transformContour(line, placementMatrix(own.x, own.y, own.turnDeg, own.mirrored));
    expect(found.start.x).toBeCloseTo(expected.start.x, 9);
    expect(found.start.y).toBeCloseTo(expected.start.y, 9);
    expect(found.segments[0]!.to.x).toBeCloseTo(expected.segments[0]!.to.x, 9);
    expect(found.segments[0]!.to.y).toBeCloseTo(expected.segments[0]!.to.y, 9);
  });
});

describe('stock', () => {
  const job = jobFrom(
    {
      bed: '520x320',
      boards: ['508x305', { width: 508, height: 305, price: 4 }, { id: 'birch', width: 400, height: 300, price: 7 }],
      offcuts: [{ id: 'rest', outline: 'M100 50h200v100h-200zM150 80h20v20h-20z' }],
    },
    'test',
  );

  it('gives every board a name of its own and finds its price by it', () => {
    expect(job.boards.map((_, index) => boardId(job, index))).toEqual(['508x305', '508x305-2', 'birch']);
    expect(priceOf(job, '508x305-2')).toBe(4);
    expect(priceOf(job, 'birch')).toBe(7);
    expect(priceOf(job, 'rest')).toBe(0);
  });

  it('moves an offcut to the origin and keeps its holes', () => {
    const rest = nestProblemOf([], job).stock.find((stock) => stock.id === 'rest')!;
    expect(Math.min(...rest.outline.outer)).toBe(0);
    expect(Math.max(...rest.outline.outer)).toBe(200);
    expect(rest.outline.holes).toHaveLength(1);
    expect(rest.count).toBe(1);
  });

  it('refuses an outline that is none, naming the offcut', () => {
    const broken = { ...job, offcuts: [{ ...job.offcuts[0]!, outline: 'M0 0L10 0' }] };
    expect(() => nestProblemOf([], broken)).toThrow(/outline of offcut rest/);
  });
});
