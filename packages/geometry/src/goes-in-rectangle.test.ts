import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { feasibleTurns, goesInRectangle, type TurnInterval } from './goes-in-rectangle.ts';
import { convexHull } from './hull.ts';
import { placementMatrix } from './matrix.ts';
import { type Ring, ringArea, ringBounds } from './ring.ts';
import { transformRing } from './transform-region.ts';

const coordinate = fc.integer({ min: -1000, max: 1000 }).map((value) => value / 7);
const cloud = fc
  .array(coordinate, { minLength: 6, maxLength: 40 })
  .map((values) => Float64Array.from(values.slice(0, values.length & ~1)));

/** By how much the points are wider and taller than the rectangle at a turn, mm. */
function excesses(points: Ring, turnDeg: number, width: number, height: number): [number, number] {
  const box = ringBounds(transformRing(points, placementMatrix(0, 0, turnDeg)));
  return [box.maxX - box.minX - width, box.maxY - box.minY - height];
}

function excess(points: Ring, turnDeg: number, width: number, height: number): number {
  return Math.max(...excesses(points, turnDeg, width, height));
}

/**
 * Reference by rotating calipers: between turns at which an edge of the hull lies along an axis, width and height are sinusoids,
 * so if anything fits, it fits at such a turn or where width or height passes its limit (found by halving).
 */
function leastExcess(points: Ring, width: number, height: number): number {
  const hull = convexHull(points);
  const breaks = new Set([0, 180]);
  for (let i = 0; i < hull.length; i += 2) {
    const j = (i + 2) % hull.length;
    const edge = (Math.atan2(hull[j + 1]! - hull[i + 1]!, hull[j]! - hull[i]!) * 180) / Math.PI;
    for (const quarter of [0, 90]) breaks.add((((quarter - edge) % 180) + 180) % 180);
  }
  const coarse = [...breaks].sort((a, b) => a - b);
  const turns = coarse.flatMap((turn, i) =>
    i === 0 ? [turn] : [1, 2, 3, 4].map((k) => coarse[i - 1]! + ((turn - coarse[i - 1]!) * k) / 4),
  );
  const at = turns.map((turn) => excesses(hull, turn, width, height));
  let least = Math.min(...at.map((pair) => Math.max(...pair)));
  for (let i = 1; i < turns.length; i++) {
    for (const axis of [0, 1] as const) {
      if (at[i - 1]![axis] > 0 === at[i]![axis] > 0) continue;
      let low = turns[i - 1]!;
      let high = turns[i]!;
      for (let halving = 0; halving < 50; halving++) {
        const middle = (low + high) / 2;
        if (excesses(hull, middle, width, height)[axis] > 0 === at[i - 1]![axis] > 0) low = middle;
        else high = middle;
      }
      least = Math.min(least, excess(hull, low, width, height), excess(hull, high, width, height));
    }
  }
  return least;
}

describe('convexHull', () => {
  it('is convex, counter-clockwise and holds every point', () => {
    fc.assert(
      fc.property(cloud, (points) => {
        const hull = convexHull(points);
        fc.pre(hull.length >= 6);
        expect(ringArea(hull)).toBeGreaterThan(0);
        for (let i = 0; i < hull.length; i += 2) {
          const j = (i + 2) % hull.length;
          const dx = hull[j]! - hull[i]!;
          const dy = hull[j + 1]! - hull[i + 1]!;
          for (let k = 0; k < points.length; k += 2) {
            const side = dx * (points[k + 1]! - hull[i + 1]!) - dy * (points[k]! - hull[i]!);
            expect(side).toBeGreaterThan(-1e-9);
          }
        }
      }),
      { numRuns: 200, seed: 8 },
    );
  });

  it('degrades to two points, one point, none', () => {
    expect([...convexHull(Float64Array.of(0, 0, 2, 2, 1, 1))]).toEqual([0, 0, 2, 2]);
    expect([...convexHull(Float64Array.of(3, 4, 3, 4))]).toEqual([3, 4]);
    expect([...convexHull(new Float64Array(0))]).toEqual([]);
  });
});

describe('feasibleTurns', () => {
  it('agrees with rotating calipers on 3,000 random outlines', () => {
    const side = fc.integer({ min: 20, max: 320 });
    let fits = 0;
    fc.assert(
      fc.property(cloud, side, side, (points, width, height) => {
        const turns = feasibleTurns(points, width, height);
        const least = leastExcess(points, width, height);
        if (turns.length > 0) fits += 1;
        if (least <= 0) expect(turns.length).toBeGreaterThan(0);
        if (least > 2e-6) expect(turns).toEqual([]);
        for (const { fromDeg, toDeg } of turns) {
          for (const turn of [fromDeg, (fromDeg + toDeg) / 2, toDeg]) {
            expect(excess(points, turn, width, height)).toBeLessThan(1e-5);
          }
          // Just outside an interval nothing fits: these are all feasible turns.
          if (fromDeg > 0) expect(excess(points, fromDeg - 1e-4, width, height)).toBeGreaterThan(0);
          if (toDeg < 180) expect(excess(points, toDeg + 1e-4, width, height)).toBeGreaterThan(0);
        }
      }),
      { numRuns: 3000, seed: 9 },
    );
    expect(fits).toBeGreaterThan(300);
    expect(fits).toBeLessThan(2700);
  });

  it('takes a part exactly as large as the bed, straight only', () => {
    const part = Float64Array.of(0, 0, 520, 0, 520, 320, 0, 320);
    expect(allows(feasibleTurns(part, 520, 320), 0)).toBe(true);
    expect(allows(feasibleTurns(part, 520, 320), 90)).toBe(false);
    expect(allows(feasibleTurns(part, 320, 520), 90)).toBe(true);
    expect(goesInRectangle(part, 519.999, 320)).toBe(false);
    for (const { fromDeg, toDeg } of feasibleTurns(part, 520, 320)) expect(toDeg - fromDeg).toBeLessThan(1e-5);
  });

  it('lets material pass through in one direction', () => {
    const long = Float64Array.of(0, 0, 3000, 0, 3000, 300, 0, 300);
    expect(allows(feasibleTurns(long, Infinity, 320), 0)).toBe(true);
    expect(allows(feasibleTurns(long, 320, Infinity), 90)).toBe(true);
    expect(allows(feasibleTurns(long, 320, Infinity), 0)).toBe(false);
    expect(goesInRectangle(long, 299, Infinity)).toBe(false);
  });

  it('refuses sides that are not positive', () => {
    expect(() => feasibleTurns(Float64Array.of(0, 0), 0, 5)).toThrowError(
      expect.objectContaining({ code: 'out-of-range' }),
    );
  });
});

function allows(turns: readonly TurnInterval[], turnDeg: number): boolean {
  return turns.some(({ fromDeg, toDeg }) => fromDeg <= turnDeg && turnDeg <= toDeg);
}
