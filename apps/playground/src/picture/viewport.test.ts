import { describe, expect, it } from 'vitest';
import { fitView, keepInSight, panBy, rulerStep, toScreen, toWorld, zoomAt } from './viewport.ts';

const size = { width: 800, height: 600 };
const bounds = { minX: 0, minY: 0, maxX: 480, maxY: 410 };

describe('viewport', () => {
  it('fits the bounds into the scene', () => {
    const view = fitView(bounds, size, 20);
    for (const [x, y] of [
      [0, 0],
      [480, 410],
    ] as const) {
      const screen = toScreen(view, size, x, y);
      expect(screen.x).toBeGreaterThanOrEqual(19.99);
      expect(screen.x).toBeLessThanOrEqual(780.01);
      expect(screen.y).toBeGreaterThanOrEqual(19.99);
      expect(screen.y).toBeLessThanOrEqual(580.01);
    }
  });

  it('keeps the point under the pointer while zooming', () => {
    const view = fitView(bounds, size, 20);
    const before = toWorld(view, size, 123, 456);
    const after = toWorld(zoomAt(view, size, 123, 456, 3.7), size, 123, 456);
    expect(after.x).toBeCloseTo(before.x, 9);
    expect(after.y).toBeCloseTo(before.y, 9);
  });

  it('moves by the pixels asked and never loses the drawing', () => {
    const view = fitView(bounds, size, 20);
    const moved = panBy(view, 50, -30);
    expect(toScreen(moved, size, 0, 0).x - toScreen(view, size, 0, 0).x).toBeCloseTo(50, 9);
    const lost = keepInSight(panBy(view, 1e6, 1e6), size, bounds);
    expect(toScreen(lost, size, bounds.minX, bounds.minY).x).toBeLessThan(size.width);
  });

  it('divides the ruler in round lengths', () => {
    expect(rulerStep(2, 60)).toBe(50);
    expect(rulerStep(1, 60)).toBe(100);
    expect(rulerStep(60, 60)).toBe(1);
    expect(rulerStep(600, 60)).toBeCloseTo(0.1, 9);
  });
});
