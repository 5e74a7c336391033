import { describe, expect, it } from 'vitest';
import { circleDepth, innerCircles } from './inner-circles.ts';

const square = { outer: Float64Array.of(0, 0, 10, 0, 10, 10, 0, 10), holes: [] };
const frame = { outer: square.outer, holes: [Float64Array.of(2, 2, 2, 8, 8, 8, 8, 2)] };

describe('circles within outlines', () => {
  it('lie within, clear of holes', () => {
    for (const region of [square, frame]) {
      const circles = innerCircles(region);
      expect(circles.length).toBeGreaterThanOrEqual(3);
      for (let i = 0; i < circles.length; i += 3) {
        const [x, y, radius] = [circles[i]!, circles[i + 1]!, circles[i + 2]!];
        expect(Math.min(x, y, 10 - x, 10 - y)).toBeGreaterThanOrEqual(radius - 1e-9);
        const fromHole = Math.hypot(Math.max(2 - x, x - 8, 0), Math.max(2 - y, y - 8, 0));
        if (region === frame) expect(fromHole).toBeGreaterThanOrEqual(radius - 1e-9);
      }
    }
  });

  it('tell overlap at most as deep as it is, and none of what lies apart', () => {
    const circles = innerCircles(square);
    for (const dx of [0, 3, 6, 9]) {
      const depth = circleDepth(circles, circles, dx, 0, 0);
      expect(depth).toBeLessThanOrEqual(10 - dx + 1e-9);
      if (dx <= 6) expect(depth).toBeGreaterThan(0);
    }
    expect(circleDepth(circles, circles, 10, 0, 0)).toBe(0);
    expect(circleDepth(circles, circles, 11, 0, 2)).toBeLessThanOrEqual(1 + 1e-9);
    expect(circleDepth(circles, circles, 12.1, 0, 2)).toBe(0);
  });
});
