import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { fitArcs, fitArcsOpen } from './arc-fit.ts';
import { contourArea, segmentTangent } from './contour.ts';
import { findCrossings } from './crossings.ts';
import type { Contour } from './curve.ts';
import { approximateByArcs } from './curve-to-arcs.ts';
import { distancePointToRing } from './distance.ts';
import { flattenContour } from './flatten.ts';
import { type Ring, ringArea } from './ring.ts';

/** Largest distance from points of one outline (every so many edges: ends and middles) to the other, both ways, mm. */
function apart(a: Ring, b: Ring, every = 1): number {
  let worst = 0;
  for (const [from, to] of [
    [a, b],
    [b, a],
  ] as const) {
    for (let i = 0; i < from.length; i += 2 * every) {
      const j = (i + 2) % from.length;
      worst = Math.max(worst, distancePointToRing(from[i]!, from[i + 1]!, to));
      const x = (from[i]! + from[j]!) / 2;
      const y = (from[i + 1]! + from[j + 1]!) / 2;
      worst = Math.max(worst, distancePointToRing(x, y, to));
    }
  }
  return worst;
}

/** Angles between neighbouring segments, degrees. */
function kinks(contour: Contour): number[] {
  const ends: { in: { x: number; y: number }; out: { x: number; y: number } }[] = [];
  let from = contour.start;
  for (const segment of contour.segments) {
    ends.push({ in: segmentTangent(from, segment, 0), out: segmentTangent(from, segment, 1) });
    from = segment.to;
  }
  return ends.map(({ out }, index) => {
    const next = ends[(index + 1) % ends.length]!.in;
    return (Math.abs(Math.atan2(out.x * next.y - out.y * next.x, out.x * next.x + out.y * next.y)) * 180) / Math.PI;
  });
}

const ROUNDED: Contour = {
  start: { x: 10, y: 0 },
  segments: [
    { kind: 'line', to: { x: 90, y: 0 } },
    { kind: 'arc', to: { x: 100, y: 10 }, centre: { x: 90, y: 10 }, radius: 10, sweep: Math.PI / 2 },
    { kind: 'line', to: { x: 100, y: 50 } },
    { kind: 'line', to: { x: 0, y: 50 } },
    { kind: 'line', to: { x: 0, y: 10 } },
    { kind: 'arc', to: { x: 10, y: 0 }, centre: { x: 10, y: 10 }, radius: 10, sweep: Math.PI / 2 },
  ],
  closed: true,
};

describe('fitArcs', () => {
  it('finds lines, arcs and corners of a rounded plate again, exactly', () => {
    const fitted = fitArcs(flattenContour(ROUNDED, 0.001), 0.01);
    expect(fitted.segments).toHaveLength(6);
    const radii = fitted.segments.flatMap((segment) => (segment.kind === 'arc' ? [segment.radius] : []));
    expect(radii).toHaveLength(2);
    for (const radius of radii) expect(radius).toBeCloseTo(10, 3);
    expect(kinks(fitted).filter((kink) => kink > 0.05)).toHaveLength(2);
    expect(contourArea(fitted)).toBeCloseTo(contourArea(ROUNDED), 1);
  });

  it('makes a circle of two arcs and keeps polygons as they are', () => {
    const start = { x: 50, y: 0 };
    const circle: Contour = {
      start,
      segments: [{ kind: 'arc', to: start, centre: { x: 0, y: 0 }, radius: 50, sweep: 2 * Math.PI }],
      closed: true,
    };
    expect(fitArcs(flattenContour(circle, 0.005), 0.01).segments.map(({ kind }) => kind)).toEqual(['arc', 'arc']);
    const star = Float64Array.from({ length: 40 }, (_, i) => {
      const turn = ((i >> 1) * Math.PI) / 10;
      return ((i >> 1) % 2 === 0 ? 50 : 20) * (i % 2 === 0 ? Math.cos(turn) : Math.sin(turn));
    });
    const fitted = fitArcs(star, 0.01);
    expect(fitted.segments).toHaveLength(20);
    expect(fitted.segments.every(({ kind }) => kind === 'line')).toBe(true);
    expect(contourArea(fitted)).toBeCloseTo(ringArea(star), 9);
  });

  it('stays within the tolerance both ways, with few smooth arcs, on random smooth outlines', () => {
    const wave = fc.record({
      size: fc.integer({ min: 0, max: 12 }),
      count: fc.integer({ min: 2, max: 9 }),
      phase: fc.integer({ min: 0, max: 62 }),
    });
    fc.assert(
      fc.property(
        fc.array(wave, { minLength: 1, maxLength: 3 }),
        fc.constantFrom(0.005, 0.01, 0.05),
        (waves, tolerance) => {
          const n = 3000;
          const ring = new Float64Array(2 * n);
          for (let i = 0; i < n; i++) {
            const turn = (2 * Math.PI * i) / n;
            const radius = waves.reduce(
              (sum, { size, count, phase }) => sum + size * Math.sin(count * turn + phase / 10),
              80,
            );
            ring[2 * i] = radius * Math.cos(turn);
            ring[2 * i + 1] = radius * Math.sin(turn);
          }
          const fitted = fitArcs(ring, tolerance);
          const flat = flattenContour(fitted, 0.0005);
          expect(apart(flat, ring, 7)).toBeLessThan(tolerance * 1.02 + 0.0005);
          expect(fitted.segments.length).toBeLessThan(350);
          expect(Math.max(...kinks(fitted))).toBeLessThan(0.01);
          expect(findCrossings([flat])).toEqual([]);
        },
      ),
      { numRuns: 6, seed: 13 },
    );
  });

  it('would be caught if its arcs were a hair off (faulty twin)', () => {
    const ring = flattenContour(ROUNDED, 0.001);
    const fitted = fitArcs(ring, 0.01);
    const shifted = flattenContour(fitted, 0.0005).map((value) => value + 0.02);
    expect(apart(shifted, ring)).toBeGreaterThan(0.0105);
  });

  it('keeps both ends of open lines', () => {
    const line = Float64Array.of(0, 0, 50, 0, 50, 30);
    const fitted = fitArcsOpen(line, 0.01);
    expect(fitted.closed).toBe(false);
    expect(fitted.segments.map(({ to }) => to)).toEqual([
      { x: 50, y: 0 },
      { x: 50, y: 30 },
    ]);
  });

  it('refuses what is no ring', () => {
    expect(() => fitArcs(Float64Array.of(0, 0, 1, 1), 0.01)).toThrowError(
      expect.objectContaining({ code: 'degenerate' }),
    );
  });
});

describe('approximateByArcs', () => {
  it('keeps lines and arcs, and stays near cubics and ellipses with equal tangents', () => {
    const coordinate = fc.integer({ min: -100, max: 100 });
    const point = fc.record({ x: coordinate, y: coordinate });
    fc.assert(
      fc.property(point, point, point, (c1, c2, to) => {
        const start = { x: 0, y: 0 };
        fc.pre(Math.hypot(to.x, to.y) > 5 && Math.hypot(c1.x, c1.y) > 1 && Math.hypot(c2.x - to.x, c2.y - to.y) > 1);
        const open: Contour = { start, segments: [{ kind: 'cubic', c1, c2, to }], closed: false };
        const arcs = approximateByArcs(open, 0.01);
        const fine = flattenContour(open, 0.0005);
        const coarse = flattenContour(arcs, 0.0005);
        for (let i = 0; i < fine.length; i += 2) {
          expect(distancePointToRing(fine[i]!, fine[i + 1]!, coarse)).toBeLessThan(0.0112);
        }
        expect(arcs.segments.at(-1)!.to).toEqual(to);
        expect(arcs.segments.length).toBeLessThan(160);
      }),
      { numRuns: 60, seed: 14 },
    );
    expect(approximateByArcs(ROUNDED, 0.01)).toEqual(ROUNDED);
  });
});
