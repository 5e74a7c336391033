import { subtractRegions } from '@underlap/geometry/boolean';
import { type Region, regionsArea } from '@underlap/geometry/region';
import seedrandom from 'seedrandom';
import { describe, expect, it } from 'vitest';
import { cellsOf, largestFreeBox, largestRectangle } from './largest-rectangle.ts';

/** All boxes of cells, counted one by one: the independent answer. */
function bruteForce(columns: number, rows: number, free: Uint8Array): number {
  const sums = new Int32Array((columns + 1) * (rows + 1));
  const at = (x: number, y: number) => sums[y * (columns + 1) + x]!;
  for (let y = 0; y < rows; y++)
    for (let x = 0; x < columns; x++)
      sums[(y + 1) * (columns + 1) + x + 1] = free[y * columns + x]! + at(x, y + 1) + at(x + 1, y) - at(x, y);
  let best = 0;
  for (let y0 = 0; y0 < rows; y0++)
    for (let y1 = y0 + 1; y1 <= rows; y1++)
      for (let x0 = 0; x0 < columns; x0++)
        for (let x1 = x0 + 1; x1 <= columns; x1++) {
          const area = (x1 - x0) * (y1 - y0);
          if (area > best && at(x1, y1) - at(x0, y1) - at(x1, y0) + at(x0, y0) === area) best = area;
        }
  return best;
}

const random = seedrandom('rectangles');

function blob(): Region {
  const count = 7 + Math.floor(6 * random());
  const ring = (radius: number, sign: 1 | -1) =>
    Float64Array.from(
      Array.from({ length: count }, (_, k) => {
        const angle = (sign * 2 * Math.PI * k) / count;
        const r = radius * (0.5 + 0.5 * random());
        return [20 + r * Math.cos(angle), 20 + r * Math.sin(angle)];
      }).flat(),
    );
  return { outer: ring(20, 1), holes: random() < 0.5 ? [ring(5, -1)] : [] };
}

describe('the largest rectangle', () => {
  it('is as large as the best of all boxes of free cells', () => {
    for (let round = 0; round < 40; round++) {
      const { columns, rows, free } = cellsOf(blob());
      const box = largestFreeBox({ columns, rows, free });
      const area = box === null ? 0 : (box.maxX - box.minX) * (box.maxY - box.minY);
      expect(area).toBe(bruteForce(columns, rows, free));
    }
  });

  it('lies inside the region', () => {
    for (let round = 0; round < 40; round++) {
      const region = blob();
      const box = largestRectangle(region);
      if (box === null) continue;
      const { minX, minY, maxX, maxY } = box;
      const own = { outer: Float64Array.of(minX, minY, maxX, minY, maxX, maxY, minX, maxY), holes: [] };
      expect(regionsArea(subtractRegions([own], [region]))).toBeLessThan(1e-6);
    }
  });

  it('is the whole of a rectangle, and of an L its larger arm', () => {
    const whole = { outer: Float64Array.of(3, 4, 33, 4, 33, 24, 3, 24), holes: [] };
    expect(largestRectangle(whole)).toEqual({ minX: 3, minY: 4, maxX: 33, maxY: 24 });
    const l = { outer: Float64Array.of(0, 0, 100, 0, 100, 20, 30, 20, 30, 50, 0, 50), holes: [] };
    expect(largestRectangle(l)).toEqual({ minX: 0, minY: 0, maxX: 100, maxY: 20 });
  });
});
