import { contourBounds } from '@underlap/geometry/contour';
import { describe, expect, it } from 'vitest';
import { jobFrom } from './parse-job.ts';
import { Pipeline } from './pipeline.ts';
import type { PieceMark } from './stages.ts';

/** A plate too long for the bed below a plank that hides its seam. */
const SIGN = `<svg xmlns="http://www.w3.org/2000/svg" width="420mm" height="160mm" viewBox="0 0 420 160">
<rect id="plate" x="10" y="10" width="400" height="140" fill="#7fb2c8"/>
<rect id="plank" x="120" y="20" width="180" height="120" fill="#23395b"/>
</svg>`;

const pipeline = new Pipeline();

/** Marks of the plate's pieces, by piece. */
async function marksWith(marks: Record<string, unknown>): Promise<PieceMark[][]> {
  const artwork = { text: SIGN, name: 'pier' };
  const job = jobFrom({ artwork, bed: '300x200', boards: ['300x200'], effort: 'quick', marks }, 'pier');
  return (await pipeline.cut(job)).pieces.filter(({ partId }) => partId === 'plate').map((piece) => [...piece.marks]);
}

const labelsOf = (marks: readonly PieceMark[]) => marks.filter(({ kind }) => kind === 'seam-label');
const heightOf = ({ contours }: PieceMark): number => {
  const boxes = contours.map(contourBounds);
  return Math.max(...boxes.map(({ maxY }) => maxY)) - Math.min(...boxes.map(({ minY }) => minY));
};

describe('marks of pieces', () => {
  it('have the letter of a seam on both of its sides, hidden under the plank, unless seamLabels are off', async () => {
    const pieces = await marksWith({});
    expect(pieces).toHaveLength(2);
    const letters = pieces.map((marks) => labelsOf(marks).map(({ label }) => label));
    expect(letters[0]).toHaveLength(1);
    expect(letters[1]).toEqual(letters[0]);
    for (const { contours } of pieces.flatMap(labelsOf)) {
      for (const { minX, minY, maxX, maxY } of contours.map(contourBounds)) {
        expect(minX).toBeGreaterThan(120);
        expect(maxX).toBeLessThan(300);
        expect(minY).toBeGreaterThan(20);
        expect(maxY).toBeLessThan(140);
      }
    }
    expect((await marksWith({ seamLabels: false })).flatMap(labelsOf)).toEqual([]);
  });

  it('are as high as textHeight says', async () => {
    const heights = async (textHeight: number) => (await marksWith({ textHeight })).flatMap(labelsOf).map(heightOf);
    const [low, high] = [await heights(4), await heights(8)];
    expect(low.length).toBe(2);
    for (const [at, height] of high.entries()) expect(height).toBeCloseTo(2 * low[at]!, 6);
    expect(high[0]).toBeCloseTo(8, 6);
  });

  it('have one number a piece when all numbers are asked for, and none when they are off', async () => {
    const numbers = (pieces: PieceMark[][]) =>
      pieces.map((marks) => marks.filter(({ kind }) => kind === 'number').length);
    expect(numbers(await marksWith({ numbers: 'all' }))).toEqual([1, 1]);
    expect(numbers(await marksWith({ numbers: 'off' }))).toEqual([0, 0]);
  });
});
