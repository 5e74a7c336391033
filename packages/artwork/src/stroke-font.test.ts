import { contourBounds } from '@underlap/geometry/contour';
import type { Contour } from '@underlap/geometry/curve';
import { describe, expect, it } from 'vitest';
import { strokeText, strokeTextWidth } from './stroke-font.ts';

function box(contours: readonly Contour[]) {
  const boxes = contours.map(contourBounds);
  return {
    minX: Math.min(...boxes.map(({ minX }) => minX)),
    maxX: Math.max(...boxes.map(({ maxX }) => maxX)),
    minY: Math.min(...boxes.map(({ minY }) => minY)),
    maxY: Math.max(...boxes.map(({ maxY }) => maxY)),
  };
}

describe('stroke text', () => {
  it.each([...'ABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789'])('%s is as high as asked and no wider than told', (character) => {
    const { minX, maxX, minY, maxY } = box(strokeText(character, { x: 50, y: 20 }, 6));
    expect(minY).toBeCloseTo(17, 2);
    expect(maxY).toBeCloseTo(23, 2);
    const half = strokeTextWidth(character, 6) / 2;
    expect(minX).toBeGreaterThanOrEqual(50 - half - 0.01);
    expect(maxX).toBeLessThanOrEqual(50 + half + 0.01);
  });

  it('reads from left to right, in capitals, and turns about its middle', () => {
    const [first, second] = [strokeText('l1', { x: 0, y: 0 }, 6), strokeText('L1', { x: 0, y: 0 }, 6)];
    expect(first).toEqual(second);
    const upright = box(strokeText('BOAT', { x: 5, y: 5 }, 4));
    const turned = box(strokeText('BOAT', { x: 5, y: 5 }, 4, 90));
    expect(turned.maxY - turned.minY).toBeCloseTo(upright.maxX - upright.minX, 6);
    // A quarter turn from +x towards +y: the first letter comes out on top.
    const b = box(strokeText('BOAT', { x: 5, y: 5 }, 4, 90).slice(0, 1));
    expect(b.maxY).toBeLessThan(5);
  });

  it('puts a bar below numbers that read as others upside down', () => {
    const digits: Record<string, number> = { '0': 1, '1': 1, '6': 1, '8': 2, '9': 1, B: 1 };
    const bar = (text: string) =>
      strokeText(text, { x: 0, y: 0 }, 6).length > [...text].reduce((sum, digit) => sum + digits[digit]!, 0);
    expect(['6', '9', '66', '906'].map(bar)).toEqual([true, true, true, true]);
    expect(['1', '8', '16', '80', 'B6'].map(bar)).toEqual([false, false, false, false, false]);
  });

  it('draws a box for what it has no sign for', () => {
    expect(strokeText('\u00e9', { x: 0, y: 0 }, 6)).toHaveLength(1);
    expect(strokeText('', { x: 0, y: 0 }, 6)).toEqual([]);
  });
});
