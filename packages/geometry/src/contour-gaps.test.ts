import { describe, expect, it } from 'vitest';
import { contourEnd, contourLength } from './contour.ts';
import { contourWithGaps } from './contour-gaps.ts';
import type { Contour } from './curve.ts';

/** A line, a half circle, a cubic and an ellipse's quarter, closed. */
const contour: Contour = {
  start: { x: 0, y: 0 },
  segments: [
    { kind: 'line', to: { x: 40, y: 0 } },
    { kind: 'arc', to: { x: 40, y: 20 }, centre: { x: 40, y: 10 }, radius: 10, sweep: Math.PI },
    { kind: 'cubic', c1: { x: 30, y: 35 }, c2: { x: 10, y: 5 }, to: { x: 0, y: 20 } },
    { kind: 'line', to: { x: 0, y: 0 } },
  ],
  closed: true,
};

describe('a contour with gaps', () => {
  it('loses exactly the gaps, and goes on where they end', () => {
    const length = contourLength(contour);
    const gaps = [
      { from: 10, to: 12 },
      { from: 50, to: 53 },
      { from: 85, to: 85.5 },
    ];
    const left = contourWithGaps(contour, gaps);
    expect(left.map((one) => one.closed)).toEqual([false, false, false]);
    expect(left.map(contourLength)).toEqual([
      expect.closeTo(38, 6),
      expect.closeTo(32, 6),
      expect.closeTo(length - 85.5 + 10, 6),
    ]);
    expect(left[0]!.start).toEqual({ x: 12, y: 0 });
    expect(contourEnd(left[2]!)).toEqual({ x: 10, y: 0 });
    // The arc ends 10 mm along it: 40 + 10 of the way, a turn of one radian.
    const end = contourEnd(left[0]!);
    expect(end.x).toBeCloseTo(40 + 10 * Math.sin(1), 9);
    expect(end.y).toBeCloseTo(10 - 10 * Math.cos(1), 9);
  });

  it('is itself without gaps, and refuses gaps that overlap', () => {
    expect(contourWithGaps(contour, [])).toEqual([contour]);
    const overlapping = [
      { from: 10, to: 20 },
      { from: 15, to: 25 },
    ];
    expect(() => contourWithGaps(contour, overlapping)).toThrow(/follow one another/);
    expect(() => contourWithGaps(contour, [{ from: 10, to: 1e6 }])).toThrow(/follow one another/);
  });
});
