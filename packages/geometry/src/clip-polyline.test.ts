import { expect, test } from 'vitest';
import { clipPolyline, polylineLength } from './clip-polyline.ts';

const square = (x: number, y: number, side: number) => ({
  outer: Float64Array.of(x, y, x + side, y, x + side, y + side, x, y + side),
  holes: [],
});
const total = (lines: readonly Float64Array[]) => lines.reduce((sum, line) => sum + polylineLength(line), 0);

test('a line across a square is cut where it enters and leaves', () => {
  const line = Float64Array.of(-5, 5, 15, 5);
  const inside = clipPolyline(line, false, [square(0, 0, 10)], 'inside');
  const outside = clipPolyline(line, false, [square(0, 0, 10)], 'outside');
  expect(inside.map((piece) => [...piece])).toEqual([[0, 5, 10, 5]]);
  expect(outside).toHaveLength(2);
  expect(total(inside) + total(outside)).toBeCloseTo(20, 12);
});

test('a hole in the region counts as outside', () => {
  const ring = { outer: square(0, 0, 10).outer, holes: [Float64Array.of(3, 3, 3, 7, 7, 7, 7, 3)] };
  const inside = clipPolyline(Float64Array.of(0.5, 5, 9.5, 5), false, [ring], 'inside');
  expect(total(inside)).toBeCloseTo(5, 12);
});

test('the stretch over the start of a closed line comes back as one', () => {
  const loop = Float64Array.of(0, 0, 10, 0, 10, 10, 0, 10);
  const outside = clipPolyline(loop, true, [square(8, 8, 4)], 'outside');
  expect(outside).toHaveLength(1);
  expect(total(outside)).toBeCloseTo(36, 12);
});

test('a closed line that is kept whole ends where it began', () => {
  const kept = clipPolyline(Float64Array.of(0, 0, 10, 0, 10, 10, 0, 10), true, [square(-5, -5, 30)], 'inside');
  expect(kept).toHaveLength(1);
  expect(total(kept)).toBeCloseTo(40, 12);
});

test('overlapping regions do not cut a line between them', () => {
  const kept = clipPolyline(Float64Array.of(1, 5, 14, 5), false, [square(0, 0, 10), square(5, 0, 10)], 'inside');
  expect(kept).toHaveLength(1);
  expect(total(kept)).toBeCloseTo(13, 12);
});
