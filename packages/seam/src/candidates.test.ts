import type { Ring } from '@underlap/geometry/ring';
import { describe, expect, it } from 'vitest';
import { candidateHalves, densePoints, expectedPieces, sharingHalves, stripPlans, stripsFor } from './candidates.ts';
import { depthIn } from './halves.ts';

const box = (width: number, height: number): Ring => Float64Array.of(0, 0, width, 0, width, height, 0, height);
const BOTH = { rho: 15, oneSided: false };
const ONE = { rho: 15, oneSided: true };

describe('where a part may be cut', () => {
  it('counts strips with room for knobs beside every seam', () => {
    expect(stripsFor(300, 300, BOTH)).toBe(1);
    expect(stripsFor(301, 300, BOTH)).toBe(2);
    // Two strips of 300 hold 570 with knobs of 15 on either side, 585 with knobs on one.
    expect(stripsFor(570, 300, BOTH)).toBe(2);
    expect(stripsFor(571, 300, BOTH)).toBe(3);
    expect(stripsFor(585, 300, ONE)).toBe(2);
    expect(stripsFor(586, 300, ONE)).toBe(3);
    expect(stripsFor(400, 30, BOTH)).toBe(Infinity);
    expect(stripsFor(400, 15, ONE)).toBe(Infinity);
  });

  it('puts points every few millimetres on long sides and keeps the corners', () => {
    const points = densePoints(box(100, 10));
    expect(points.length / 2).toBe(2 * 20 + 2 * 2);
    for (const [x, y] of [
      [0, 0],
      [100, 0],
      [100, 10],
      [0, 10],
    ]) {
      expect([...points].some((value, i) => i % 2 === 0 && value === x && points[i + 1] === y)).toBe(true);
    }
  });

  it('expects of a plank what a maker counts, whichever way it lies', () => {
    const bed = { long: 300, short: 200 };
    expect(expectedPieces(densePoints(box(290, 190)), bed, BOTH)).toBe(1);
    expect(expectedPieces(densePoints(box(190, 560)), bed, BOTH)).toBe(2);
    expect(expectedPieces(densePoints(box(900, 180)), bed, ONE, 1)).toBe(4);
  });

  it('offers pairs of sets that hold the whole outline between them, and share some of it', () => {
    const points = densePoints(box(500, 250));
    const found = candidateHalves(points, { long: 400, short: 300 }, BOTH, 0, 40);
    expect(new Set(found.map(({ pieces }) => pieces))).toEqual(new Set([2]));
    const depths = (set: Float64Array) =>
      Array.from({ length: points.length / 2 }, (_, k) => depthIn(set, points[2 * k]!, points[2 * k + 1]!));
    const whole = found.filter(({ a, b }) => {
      const [inA, inB] = [depths(a), depths(b)];
      expect(inA.some((depth, k) => depth > 0 && inB[k]! > 0)).toBe(true);
      return inA.every((depth, k) => Math.max(depth, inB[k]!) > -1e-6);
    });
    // Estimates with an optimistic count may leave a hair of a corner outside: the search drops those.
    expect(whole.length).toBeGreaterThan(found.length / 2);
  });

  it('plans straight strips with the pieces they are going to be', () => {
    const plans = stripPlans(densePoints(box(800, 100)), { long: 300, short: 200 }, ONE);
    expect(Math.min(...plans.map(({ pieces }) => pieces))).toBe(3);
  });

  it('shares what goes in already out near the wanted share, from either end', () => {
    const even = sharingHalves(densePoints(box(200, 200)), 0.5);
    const uneven = sharingHalves(densePoints(box(200, 200)), 0.3);
    expect(uneven.length).toBe(2 * even.length);
    for (const { a, b } of even) {
      expect(depthIn(a, 100, 100)).toBeGreaterThan(0);
      expect(depthIn(b, 100, 100)).toBeGreaterThan(0);
    }
  });
});
