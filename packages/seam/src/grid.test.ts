import type { Ring } from '@underlap/geometry/ring';
import { isInRing } from '@underlap/geometry/ring';
import seedrandom from 'seedrandom';
import { describe, expect, it } from 'vitest';
import { cellAt, distanceField, type Grid, gridOver, rasterMask, sampleField } from './grid.ts';

/** A slanting star with a square hole, so that rows cross it several times. */
const STAR: Ring = Float64Array.from(
  Array.from({ length: 10 }, (_, k) => {
    const size = k % 2 === 0 ? 40 : 17;
    return [size * Math.cos(k * 0.63 + 0.2), size * Math.sin(k * 0.63 + 0.2)];
  }).flat(),
);
const HOLE: Ring = Float64Array.of(-6, -6, -6, 6, 6, 6, 6, -6);
const GRID = gridOver(-41, -41, 41, 41, 1.7);

const centreOf = ({ x0, y0, step, cols }: Grid, cell: number) => ({
  x: x0 + (cell % cols) * step,
  y: y0 + Math.floor(cell / cols) * step,
});

/** Distance to the nearest edge by trying all of them. */
function plainDistance(x: number, y: number, rings: readonly Ring[]): number {
  let least = Infinity;
  for (const ring of rings) {
    for (let i = 0; i < ring.length; i += 2) {
      const j = (i + 2) % ring.length;
      const [ax, ay, dx, dy] = [ring[i]!, ring[i + 1]!, ring[j]! - ring[i]!, ring[j + 1]! - ring[i + 1]!];
      const u = Math.min(1, Math.max(0, ((x - ax) * dx + (y - ay) * dy) / (dx * dx + dy * dy)));
      least = Math.min(least, Math.hypot(x - ax - u * dx, y - ay - u * dy));
    }
  }
  return least;
}

describe('the planning grid', () => {
  it('marks the very cells whose points lie inside, holes left out', () => {
    const mask = rasterMask(GRID, [STAR, HOLE]);
    let inside = 0;
    mask.forEach((marked, cell) => {
      const { x, y } = centreOf(GRID, cell);
      const isIn = isInRing(STAR, x, y) && !isInRing(HOLE, x, y);
      expect(marked, `${x} ${y}`).toBe(isIn ? 1 : 0);
      inside += marked;
    });
    expect(inside).toBeGreaterThan(400);
  });

  it('knows the distance to the nearest edge within a few hundredths of a step', () => {
    const field = distanceField(GRID, [STAR, HOLE], true, 1000);
    field.forEach((far, cell) => {
      const { x, y } = centreOf(GRID, cell);
      expect(Math.abs(far - plainDistance(x, y, [STAR, HOLE])), `${x} ${y}`).toBeLessThan(0.1 * GRID.step);
    });
  });

  it('says far where there are no edges, and leaves an open line open', () => {
    expect(distanceField(GRID, [], true, 77).every((value) => value === 77)).toBe(true);
    const line = Float64Array.of(-20, -20, 20, -20, 20, 20);
    const cell = cellAt(GRID, 0, 0);
    const { x, y } = centreOf(GRID, cell);
    expect(distanceField(GRID, [line], false, 1000)[cell]).toBeCloseTo(20 - Math.max(x, -y), 3);
    // Closed, its third side runs past the middle.
    expect(distanceField(GRID, [line], true, 1000)[cell]).toBeLessThan(3);
  });

  it('samples linear fields exactly between cells and keeps to the border outside', () => {
    const plane = Float32Array.from({ length: GRID.cols * GRID.rows }, (_, cell) => {
      const { x, y } = centreOf(GRID, cell);
      return 3 * x - 2 * y;
    });
    const random = seedrandom('samples');
    for (let i = 0; i < 50; i++) {
      const [x, y] = [80 * random() - 40, 80 * random() - 40];
      expect(sampleField(GRID, plane, x, y)).toBeCloseTo(3 * x - 2 * y, 3);
    }
    expect(sampleField(GRID, plane, -500, 0)).toBeCloseTo(3 * GRID.x0, 2);
  });
});
