import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { findCrossings } from './crossings.ts';
import { distanceBetweenRings, distanceBetweenSegments, distancePointToRing, ringsCross } from './distance.ts';
import type { Ring } from './ring.ts';

const coordinate = fc.integer({ min: -300, max: 300 }).map((value) => value / 6);
const ring = fc
  .array(coordinate, { minLength: 6, maxLength: 60 })
  .map((values) => Float64Array.from(values.slice(0, values.length & ~1)));

function everyPair(a: Ring, b: Ring): number {
  let best = Infinity;
  for (let i = 0; i < a.length; i += 2) {
    for (let j = 0; j < b.length; j += 2) {
      const k = (i + 2) % a.length;
      const m = (j + 2) % b.length;
      const edge = [a[i]!, a[i + 1]!, a[k]!, a[k + 1]!, b[j]!, b[j + 1]!, b[m]!, b[m + 1]!] as const;
      best = Math.min(best, distanceBetweenSegments(...edge));
    }
  }
  return best;
}

describe('distances between rings', () => {
  it('equal the least over all pairs of edges', () => {
    fc.assert(
      fc.property(ring, ring, fc.integer({ min: 0, max: 300 }), (a, b, shift) => {
        const moved = b.map((value, index) => (index % 2 === 0 ? value + shift : value));
        const exact = everyPair(a, moved);
        expect(distanceBetweenRings(a, moved)).toBe(exact);
        expect(ringsCross(a, moved)).toBe(exact === 0);
        expect(findCrossings([a, moved]).some(({ a: p, b: q }) => p === 0 && q === 1)).toBe(exact === 0);
      }),
      { numRuns: 500, seed: 10 },
    );
  });

  it('are those of the outlines, also when one lies inside the other', () => {
    const outer = Float64Array.of(0, 0, 100, 0, 100, 100, 0, 100);
    const inner = Float64Array.of(20, 20, 30, 20, 30, 30, 20, 30);
    expect(distanceBetweenRings(outer, inner)).toBe(20);
    expect(ringsCross(outer, inner)).toBe(false);
    expect(distancePointToRing(50, 50, outer)).toBe(50);
  });
});

describe('findCrossings', () => {
  it('names rings that cross, touch or run back on themselves, with the place', () => {
    const bow = Float64Array.of(0, 0, 10, 10, 10, 0, 0, 10);
    expect(findCrossings([bow])).toEqual([{ a: 0, b: 0, at: { x: 5, y: 5 } }]);
    const spike = Float64Array.of(0, 0, 10, 0, 10, 10, 20, 10, 5, 10);
    expect(findCrossings([spike])).toHaveLength(1);
    const square = Float64Array.of(0, 0, 10, 0, 10, 10, 0, 10);
    const beside = Float64Array.of(10, 2, 15, 2, 15, 5, 10, 5);
    const apart = Float64Array.of(30, 2, 35, 2, 35, 5, 30, 5);
    expect(findCrossings([square, beside, apart]).map(({ a, b }) => [a, b])).toEqual([[0, 1]]);
  });
});
