import { describe, expect, it } from 'vitest';
import { cornerDepth } from './corner.ts';

describe('cornerDepth', () => {
  const way = { x: 0, y: 1 };
  const end = { x: 0, y: 0 };
  const straight = Float64Array.of(-30, 0, 30, 0);

  it('is one at a right angle and cot(a / 2) at the angle a', () => {
    expect(cornerDepth(straight, end, way, 5)).toBe(1);
    for (const deg of [45, 60, 75]) {
      const angle = (deg * Math.PI) / 180;
      const leaning = { x: Math.cos(angle), y: Math.sin(angle) };
      const depth = cornerDepth(straight, end, leaning, 5);
      expect(depth).toBeGreaterThan(1 / Math.tan(angle / 2) - 0.05);
      expect(depth).toBeLessThan(1 / Math.tan(angle / 2) + 0.15);
    }
  });

  it('sees an outline that bends towards the seam beyond the end, and not one that bends away', () => {
    const towards = Float64Array.of(-30, 0, 6, 0, 12, 30);
    expect(cornerDepth(towards, end, way, 5)).toBeGreaterThan(1.2);
    const close = Float64Array.of(-30, 0, 4, 0, 5, 30);
    expect(cornerDepth(close, end, way, 5)).toBe(4);
    const away = Float64Array.of(-30, 0, 4, 0, 12, -30);
    expect(cornerDepth(away, end, way, 5)).toBe(1);
  });
});
