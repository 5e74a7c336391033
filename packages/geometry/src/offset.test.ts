import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { intersectRegions, regionsFromRings, subtractRegions, unionRegions } from './boolean.ts';
import { convexHull } from './hull.ts';
import { bufferPolyline, offsetRegions } from './offset.ts';
import { type Region, regionsArea } from './region.ts';
import { type Ring, ringArea, ringPerimeter } from './ring.ts';

const coordinate = fc.integer({ min: -2000, max: 2000 }).map((value) => value / 20);
const cloud = fc
  .array(coordinate, { minLength: 8, maxLength: 30 })
  .map((values) => Float64Array.from(values.slice(0, values.length & ~1)));

/** Regions from any closed scribble. */
const scribble = cloud.map((ring) => regionsFromRings([ring], 'evenodd'));

function rectangle(x: number, y: number, width: number, height: number): Region {
  return { outer: Float64Array.of(x, y, x + width, y, x + width, y + height, x, y + height), holes: [] };
}

function holeOf(ring: Ring): Ring {
  return Float64Array.of(ring[0]!, ring[1]!, ring[6]!, ring[7]!, ring[4]!, ring[5]!, ring[2]!, ring[3]!);
}

describe('booleans', () => {
  it('obey inclusion and exclusion, and differences complete intersections', () => {
    fc.assert(
      fc.property(scribble, scribble, (a, b) => {
        const both = regionsArea(intersectRegions(a, b));
        const either = regionsArea(unionRegions([...a, ...b]));
        const only = regionsArea(subtractRegions(a, b));
        const size = 1 + regionsArea(a) + regionsArea(b);
        expect(Math.abs(either + both - regionsArea(a) - regionsArea(b)) / size).toBeLessThan(1e-5);
        expect(Math.abs(only + both - regionsArea(a)) / size).toBeLessThan(1e-5);
      }),
      { numRuns: 150, seed: 5 },
    );
  });

  it('keep holes and what lies inside them', () => {
    const rings = [rectangle(0, 0, 50, 50), rectangle(10, 10, 30, 30), rectangle(20, 20, 5, 5)].map(
      ({ outer }) => outer,
    );
    const regions = regionsFromRings(rings, 'evenodd');
    expect(regions).toHaveLength(2);
    expect(regionsArea(regions)).toBeCloseTo(2500 - 900 + 25, 9);
    for (const region of regions) {
      expect(ringArea(region.outer)).toBeGreaterThan(0);
      for (const hole of region.holes) expect(ringArea(hole)).toBeLessThan(0);
    }
  });

  it('refuse what is not finite or absurdly far, and say where', () => {
    const broken = { outer: Float64Array.of(0, 0, 1, 0, 1, Number.NaN), holes: [] };
    expect(() => unionRegions([broken])).toThrowError(
      expect.objectContaining({ code: 'non-finite', place: 'ring 0, vertex 2' }),
    );
    expect(() => unionRegions([rectangle(2e6, 0, 1, 1)])).toThrowError(
      expect.objectContaining({ code: 'out-of-range' }),
    );
  });
});

describe('offsetRegions', () => {
  it('obeys Steiner for convex polygons', () => {
    fc.assert(
      fc.property(cloud, fc.integer({ min: 1, max: 400 }), (points, tenths) => {
        const hull = convexHull(points);
        fc.pre(hull.length >= 6 && ringArea(hull) > 1);
        const distance = tenths / 10;
        const grown = offsetRegions([{ outer: hull, holes: [] }], distance, 0.01);
        const exact = ringArea(hull) + ringPerimeter(hull) * distance + Math.PI * distance * distance;
        expect(grown).toHaveLength(1);
        const slack = 0.01 * (ringPerimeter(hull) + 2 * Math.PI * distance);
        expect(Math.abs(regionsArea(grown) - exact)).toBeLessThan(slack);
      }),
      { numRuns: 150, seed: 6 },
    );
  });

  it('grows with the distance, and growing undoes no more than shrinking took', () => {
    fc.assert(
      fc.property(scribble, fc.integer({ min: 1, max: 60 }), (regions, tenths) => {
        const d = tenths / 10;
        const steps = [-2 * d, -d, 0, d, 2 * d].map((distance) => offsetRegions(regions, distance));
        for (let i = 1; i < steps.length; i++) {
          expect(regionsArea(subtractRegions(steps[i - 1]!, steps[i]!))).toBeLessThan(1e-3);
        }
        // Opening stays inside, closing covers: up to the arc tolerance along the outline.
        const opened = offsetRegions(offsetRegions(regions, -d), d);
        const length = regions.reduce((sum, region) => sum + ringPerimeter(region.outer), 0);
        expect(regionsArea(subtractRegions(opened, regions))).toBeLessThan(0.02 * length + 1e-3);
      }),
      { numRuns: 80, seed: 7 },
    );
  });

  it('empties what is consumed and splits what is thin in the middle', () => {
    expect(offsetRegions([rectangle(0, 0, 100, 6)], -3.001)).toEqual([]);
    const dumbbell = Float64Array.of(
      0,
      0,
      40,
      0,
      40,
      18,
      60,
      18,
      60,
      0,
      100,
      0,
      100,
      40,
      60,
      40,
      60,
      22,
      40,
      22,
      40,
      40,
      0,
      40,
    );
    expect(offsetRegions([{ outer: dumbbell, holes: [] }], -2.5)).toHaveLength(2);
    expect(offsetRegions([{ outer: dumbbell, holes: [] }], -1.5)).toHaveLength(1);
  });

  it('closes holes when growing and opens them when shrinking', () => {
    const frame = { outer: rectangle(0, 0, 60, 60).outer, holes: [holeOf(rectangle(20, 20, 20, 20).outer)] };
    const grown = offsetRegions([frame], 3);
    expect(grown[0]!.holes).toHaveLength(1);
    expect(ringArea(grown[0]!.holes[0]!)).toBeCloseTo(-14 * 14, 6);
    expect(offsetRegions([frame], 10.01)[0]!.holes).toHaveLength(0);
    const shrunk = offsetRegions([frame], -3);
    const rounded = 20 * 20 + 4 * 20 * 3 + Math.PI * 9;
    expect(Math.abs(ringArea(shrunk[0]!.holes[0]!) + rounded)).toBeLessThan(0.5);
  });

  it('refuses distances that are not finite', () => {
    expect(() => offsetRegions([rectangle(0, 0, 1, 1)], Number.NaN)).toThrowError(
      expect.objectContaining({ code: 'non-finite' }),
    );
  });
});

describe('bufferPolyline', () => {
  it('gives a stadium for a line and a disc for a point', () => {
    expect(regionsArea(bufferPolyline(Float64Array.of(0, 0, 100, 0), 5, 0.001))).toBeCloseTo(1000 + 25 * Math.PI, 1);
    expect(regionsArea(bufferPolyline(Float64Array.of(3, 3), 5, 0.001))).toBeCloseTo(25 * Math.PI, 1);
  });

  it('fills a sharp bend once', () => {
    // An L: two strips, less the square they share, plus a quarter disc outside and two half discs at the ends.
    const area = regionsArea(bufferPolyline(Float64Array.of(0, 0, 100, 0, 100, 50), 5, 0.001));
    expect(area).toBeCloseTo(1500 - 25 + 25 * Math.PI + (25 * Math.PI) / 4, 1);
  });
});
