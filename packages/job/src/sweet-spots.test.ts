import { describe, expect, it } from 'vitest';
import { sweetSpots } from './sweet-spots.ts';

const row = (batch: number, boards: number, unplaced = 0) => ({ batch, boards, unplaced });

describe('sweet spots of a batch', () => {
  it('are where boards a sign are fewer than before and the next sign costs more', () => {
    // boards a sign: 1, 0.5, 0.67, 0.5, 0.4, 0.5
    expect(sweetSpots([row(1, 1), row(2, 1), row(3, 2), row(4, 2), row(5, 2), row(6, 3)])).toEqual([2, 5]);
  });

  it('fall on the last batch alone when every further sign makes the batch cheaper', () => {
    expect(sweetSpots([1, 2, 3, 4].map((batch) => row(batch, 2 * batch + 1)))).toEqual([4]);
  });

  it('fall on the first batch alone when nothing is gained, and never on one that lacks boards', () => {
    expect(sweetSpots([1, 2, 3].map((batch) => row(batch, 2 * batch)))).toEqual([1]);
    expect(sweetSpots([row(1, 1), row(2, 1, 3)])).toEqual([1]);
  });
});
