import { describe, expect, it } from 'vitest';
import { depthIn, gapsBetween, type Halves, halfPlane, isInStretch, shrunkSet, turnedBox } from './halves.ts';
import type { OutlineSample } from './terminals.ts';

/** Samples round a rectangle from its upper left corner, a millimetre apart. */
function around(width: number, height: number): OutlineSample[] {
  const points: { x: number; y: number }[] = [];
  for (let x = 0; x < width; x++) points.push({ x, y: 0 });
  for (let y = 0; y < height; y++) points.push({ x: width, y });
  for (let x = width; x > 0; x--) points.push({ x, y: height });
  for (let y = height; y > 0; y--) points.push({ x: 0, y });
  return points.map((point, at) => ({ ...point, tx: 1, ty: 0, at, open: true, end: { kind: 'cut', cut: 0, s: 0 } }));
}

const band = (low: number, high: number): Halves => ({
  a: halfPlane(1, 0, high),
  b: halfPlane(-1, 0, -low),
  pieces: 2,
  inset: 1,
});

describe('two convex sets that hold a face', () => {
  it('measures how deep a point lies, and shrinks', () => {
    const box = turnedBox(Math.PI / 6, -10, 10, -5, 5);
    expect(depthIn(box, 0, 0)).toBeCloseTo(5, 9);
    expect(depthIn(shrunkSet(box, 2), 0, 0)).toBeCloseTo(3, 9);
    expect(depthIn(box, 12 * Math.cos(Math.PI / 6), 12 * Math.sin(Math.PI / 6))).toBeCloseTo(-2, 9);
    expect(turnedBox(0, -Infinity, Infinity, -5, 5)).toHaveLength(6);
  });

  it('a seam across a band runs from its part of the one side to its part of the other', () => {
    const samples = around(100, 40);
    const gaps = gapsBetween(samples, band(40, 60));
    expect(gaps).toHaveLength(1);
    const { before, after } = gaps[0]!;
    const wanted = samples.map(({ x }, index) => ({ index, x })).filter(({ x }) => x >= 40 && x <= 60);
    for (const { index, x } of wanted) {
      const isFound = isInStretch(index, before, samples.length) || isInStretch(index, after, samples.length);
      expect(isFound, `${index} at ${x}`).toBe(true);
    }
    const size = ([from, to]: readonly [number, number]) => ((to - from + samples.length) % samples.length) + 1;
    expect(size(before) + size(after)).toBe(wanted.length);
  });

  it('finds none where the sets leave outline outside, or one holds all', () => {
    expect(gapsBetween(around(100, 40), band(60, 40))).toEqual([]);
    expect(gapsBetween(around(100, 40), band(200, 300))).toEqual([]);
  });

  it('counts stretches round the end of the list, and knows an empty one', () => {
    expect([8, 9, 0, 1].every((index) => isInStretch(index, [8, 1], 10))).toBe(true);
    expect([2, 7].some((index) => isInStretch(index, [8, 1], 10))).toBe(false);
    expect(isInStretch(5, [5, 4], 10)).toBe(false);
  });
});
