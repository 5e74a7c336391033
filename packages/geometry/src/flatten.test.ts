import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Contour, Segment } from './curve.ts';
import { distancePointToRing } from './distance.ts';
import { flattenContour, shapeToRegion } from './flatten.ts';
import { regionArea } from './region.ts';
import { ringArea } from './ring.ts';
import { segmentPoint } from './segment.ts';

const coordinate = fc.integer({ min: -500, max: 500 }).map((value) => value / 10);
const point = fc.record({ x: coordinate, y: coordinate });

/** Largest gap between points of the curve and the flattened ring. */
function largestGap(contour: Contour, ring: Float64Array): number {
  let worst = 0;
  let from = contour.start;
  for (const segment of contour.segments) {
    for (let i = 0; i <= 200; i++) {
      const { x, y } = segmentPoint(from, segment, i / 200);
      worst = Math.max(worst, distancePointToRing(x, y, ring));
    }
    from = segment.to;
  }
  return worst;
}

function closedBy(start: { x: number; y: number }, segment: Segment): Contour {
  return { start, segments: [segment, { kind: 'line', to: start }], closed: true };
}

describe('flattenContour', () => {
  it('keeps every cubic within the tolerance', () => {
    fc.assert(
      fc.property(point, point, point, point, fc.constantFrom(0.001, 0.01, 0.5), (start, c1, c2, to, tolerance) => {
        const contour = closedBy(start, { kind: 'cubic', c1, c2, to });
        expect(largestGap(contour, flattenContour(contour, tolerance))).toBeLessThanOrEqual(tolerance * 1.0001);
      }),
      { numRuns: 60, seed: 1 },
    );
  });

  it('keeps every elliptical arc within the tolerance', () => {
    const positive = fc.integer({ min: 1, max: 400 }).map((value) => value / 4);
    const angle = fc.integer({ min: -62, max: 62 }).map((value) => value / 10);
    fc.assert(
      fc.property(point, positive, positive, angle, angle, angle, (centre, rx, ry, axisTurn, from, sweep) => {
        fc.pre(sweep !== 0);
        const at = (u: number) => ({
          x: centre.x + Math.cos(axisTurn) * rx * Math.cos(u) - Math.sin(axisTurn) * ry * Math.sin(u),
          y: centre.y + Math.sin(axisTurn) * rx * Math.cos(u) + Math.cos(axisTurn) * ry * Math.sin(u),
        });
        const contour = closedBy(at(from), {
          kind: 'ellipse',
          to: at(from + sweep),
          centre,
          rx,
          ry,
          axisTurn,
          from,
          sweep,
        });
        expect(largestGap(contour, flattenContour(contour, 0.01))).toBeLessThanOrEqual(0.010001);
      }),
      { numRuns: 40, seed: 2 },
    );
  });

  it('would be caught if it used half the chords (faulty twin)', () => {
    const contour = closedBy(
      { x: 0, y: 0 },
      { kind: 'cubic', c1: { x: 0, y: 80 }, c2: { x: 90, y: 80 }, to: { x: 90, y: 0 } },
    );
    const ring = flattenContour(contour, 0.01);
    const half = ring.filter((_, index) => (index >> 1) % 2 === 0);
    expect(largestGap(contour, half)).toBeGreaterThan(0.01);
  });

  it('turns a full circle into a ring without a repeated point, vertices on the circle', () => {
    const start = { x: 10, y: 0 };
    const circle: Contour = {
      start,
      segments: [{ kind: 'arc', to: start, centre: { x: 0, y: 0 }, radius: 10, sweep: 2 * Math.PI }],
      closed: true,
    };
    const ring = flattenContour(circle, 0.01);
    const last = ring.length - 2;
    expect(Math.hypot(ring[0]! - ring[last]!, ring[1]! - ring[last + 1]!)).toBeGreaterThan(0.1);
    for (let i = 0; i < ring.length; i += 2) expect(Math.hypot(ring[i]!, ring[i + 1]!)).toBeCloseTo(10, 12);
    expect(ringArea(ring)).toBeLessThan(Math.PI * 100);
    expect(ringArea(ring)).toBeGreaterThan(Math.PI * 100 - 20 * Math.PI * 0.01);
  });

  it('names the segment with a number that is not finite', () => {
    const broken = closedBy({ x: 0, y: 0 }, { kind: 'line', to: { x: Number.NaN, y: 0 } });
    expect(() => flattenContour(broken, 0.01)).toThrowError(
      expect.objectContaining({ code: 'non-finite', place: 'segment 0' }),
    );
  });

  it('refuses more chords than memory should hold', () => {
    const far = closedBy(
      { x: 0, y: 0 },
      { kind: 'cubic', c1: { x: 1e300, y: 0 }, c2: { x: 0, y: 0 }, to: { x: 1, y: 1 } },
    );
    expect(() => flattenContour(far, 0.01)).toThrowError(expect.objectContaining({ code: 'out-of-range' }));
  });
});

describe('shapeToRegion', () => {
  it('orients rings by convention, drops holes that enclose nothing, and refuses open contours', () => {
    const square = (x: number, size: number, closed = true): Contour => ({
      start: { x, y: x },
      segments: [
        { kind: 'line', to: { x, y: x + size } },
        { kind: 'line', to: { x: x + size, y: x + size } },
        { kind: 'line', to: { x: x + size, y: x } },
        { kind: 'line', to: { x, y: x } },
      ],
      closed,
    });
    const region = shapeToRegion({ outer: square(0, 10), holes: [square(2, 3), square(7, 0)] }, 0.01);
    expect(ringArea(region.outer)).toBe(100);
    expect(region.holes).toHaveLength(1);
    expect(regionArea(region)).toBe(91);
    expect(() => shapeToRegion({ outer: square(0, 10, false), holes: [] }, 0.01)).toThrowError(
      expect.objectContaining({ code: 'open-contour' }),
    );
  });
});
