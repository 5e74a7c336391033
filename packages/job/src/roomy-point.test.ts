import { describe, expect, it } from 'vitest';
import { roomiestPoint } from './roomy-point.ts';

const square = (x: number, y: number, side: number) => ({
  outer: Float64Array.of(x, y, x + side, y, x + side, y + side, x, y + side),
  holes: [],
});

describe('roomiestPoint', () => {
  it('is the middle of a square', () => {
    const point = roomiestPoint([square(10, 20, 40)]);
    expect(point?.x).toBeCloseTo(30, 0);
    expect(point?.y).toBeCloseTo(40, 0);
    expect(point?.clearance).toBeGreaterThan(19.5);
  });

  it('comes to an end for a speck so far out that its grid is finer than the last digit', () => {
    // Doubles near 2^40 are 2.4e-4 apart: a fortieth of this square is less.
    expect(roomiestPoint([square(2 ** 40, 0, 2 ** -11)])?.clearance ?? 0).toBeLessThan(2 ** -11);
  });
});
