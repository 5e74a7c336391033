import { describe, expect, it } from 'vitest';
import { spansAt } from './section-views.ts';

const square = (x: number, y: number, side: number): Float64Array =>
  Float64Array.of(x, y, x + side, y, x + side, y + side, x, y + side);

describe('a cut through a part', () => {
  it('has the stretches of wood from left to right, holes left out', () => {
    const plate = { outer: square(0, 0, 10), holes: [square(3, 3, 4)] };
    expect(spansAt(plate, 1)).toEqual([[0, 10]]);
    expect(spansAt(plate, 5)).toEqual([
      [0, 3],
      [7, 10],
    ]);
    expect(spansAt(plate, 12)).toEqual([]);
  });

  it('counts a corner on the cut once', () => {
    const tip = { outer: Float64Array.of(0, 0, 4, 2, 0, 4), holes: [] };
    expect(spansAt(tip, 2)).toEqual([[0, 4]]);
  });
});
