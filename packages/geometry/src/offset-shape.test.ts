import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { contourArea, contourLength, polylineContour, shapeArea } from './contour.ts';
import { findCrossings } from './crossings.ts';
import type { Contour, Segment, Shape } from './curve.ts';
import { distancePointToRing } from './distance.ts';
import { flattenContour, shapeToRegion } from './flatten.ts';
import { offsetRegions } from './offset.ts';
import { OFFSET_FIT_TOLERANCE_MM, offsetShape } from './offset-shape.ts';
import type { Ring } from './ring.ts';

function circle(x: number, y: number, radius: number, sign = 1): Contour {
  const start = { x: x + radius, y };
  return {
    start,
    segments: [{ kind: 'arc', to: start, centre: { x, y }, radius, sweep: sign * 2 * Math.PI }],
    closed: true,
  };
}

/** Spokes of any length joined by lines, arcs and cubics. */
const outline = fc
  .array(
    fc.record({
      reach: fc.integer({ min: 40, max: 60 }),
      kind: fc.constantFrom('line', 'arc', 'cubic'),
      bend: fc.integer({ min: -12, max: 12 }),
    }),
    { minLength: 4, maxLength: 9 },
  )
  .map((spokes): Contour => {
    const corners = spokes.map(({ reach }, i) => {
      const turn = (2 * Math.PI * i) / spokes.length;
      return { x: reach * Math.cos(turn), y: reach * Math.sin(turn) };
    });
    const segments = spokes.map(({ kind, bend }, i): Segment => {
      const from = corners[i]!;
      const to = corners[(i + 1) % corners.length]!;
      const dx = to.x - from.x;
      const dy = to.y - from.y;
      const beside = (along: number, off: number) => ({
        x: from.x + dx * along - dy * off,
        y: from.y + dy * along + dx * off,
      });
      if (kind === 'arc' && bend !== 0) {
        const bulge = bend / 50;
        const centre = beside(0.5, (1 - bulge * bulge) / (4 * bulge));
        const radius = Math.hypot(centre.x - from.x, centre.y - from.y);
        return { kind, to, centre, radius, sweep: 4 * Math.atan(bulge) };
      }
      if (kind === 'cubic') return { kind, c1: beside(0.3, bend / 50), c2: beside(0.7, -bend / 60), to };
      return { kind: 'line', to };
    });
    return { start: corners[0]!, segments, closed: true };
  });

/** Largest distance of either outline from the other, mm. */
function apart(a: Ring, b: Ring): number {
  let worst = 0;
  for (let i = 0; i < a.length; i += 2) worst = Math.max(worst, distancePointToRing(a[i]!, a[i + 1]!, b));
  for (let i = 0; i < b.length; i += 2) worst = Math.max(worst, distancePointToRing(b[i]!, b[i + 1]!, a));
  return worst;
}

function contoursOf(shapes: readonly Shape[]): Contour[] {
  return shapes.flatMap(({ outer, holes }) => [outer, ...holes]);
}

/** Every point of the outlines at the right distance: compared with a much finer polygon offset. */
function errorOf(shape: Shape, distance: number): number {
  const found = contoursOf(offsetShape(shape, distance)).map((contour) => flattenContour(contour, 0.0005));
  const exact = offsetRegions([shapeToRegion(shape, 0.0005)], distance, 0.0005).flatMap(({ outer, holes }) => [
    outer,
    ...holes,
  ]);
  expect(found).toHaveLength(exact.length);
  return Math.max(0, ...found.map((ring, index) => apart(ring, exact[index]!)));
}

describe('offsetShape', () => {
  it('is exact for lines and arcs: shifted lines, changed radii, round outward corners', () => {
    const square = polylineContour(Float64Array.of(0, 0, 40, 0, 40, 40, 0, 40), true);
    const shape = { outer: square, holes: [circle(20, 20, 8, -1)] };
    const [grown] = offsetShape(shape, 0.1);
    expect(grown!.outer.segments.map(({ kind }) => kind).sort()).toEqual([
      'arc',
      'arc',
      'arc',
      'arc',
      'line',
      'line',
      'line',
      'line',
    ]);
    expect(contourArea(grown!.outer)).toBeCloseTo(1600 + 16 + Math.PI * 0.01, 9);
    expect(contourArea(grown!.holes[0]!)).toBeCloseTo(-Math.PI * 7.9 * 7.9, 9);
    const [shrunk] = offsetShape(shape, -0.1);
    expect(shrunk!.outer.segments).toHaveLength(4);
    expect(shapeArea(shrunk!)).toBeCloseTo(39.8 * 39.8 - Math.PI * 8.1 * 8.1, 9);
  });

  it('obeys Steiner for convex shapes with curves', () => {
    const start = { x: 50, y: 0 };
    const ellipse: Contour = {
      start,
      segments: [
        {
          kind: 'ellipse',
          to: start,
          centre: { x: 0, y: 0 },
          rx: 50,
          ry: 20,
          axisTurn: 0,
          from: 0,
          sweep: 2 * Math.PI,
        },
      ],
      closed: true,
    };
    for (const outer of [circle(3, 4, 25), ellipse]) {
      for (const distance of [0.1, 2, 15]) {
        const exact = contourArea(outer) + contourLength(outer) * distance + Math.PI * distance * distance;
        const [grown] = offsetShape({ outer, holes: [] }, distance);
        const slack = OFFSET_FIT_TOLERANCE_MM * contourLength(outer);
        expect(Math.abs(shapeArea(grown!) - exact)).toBeLessThan(slack);
      }
    }
  });

  it('stays within the tolerance and never meets itself, on random outlines', () => {
    fc.assert(
      fc.property(outline, fc.constantFrom(0.1, -0.1, 1.5, -1.5, 6, -6), (outer, distance) => {
        fc.pre(findCrossings([flattenContour(outer, 0.01)]).length === 0);
        const shape = { outer, holes: [circle(0, 0, 9, -1)] };
        expect(errorOf(shape, distance)).toBeLessThan(OFFSET_FIT_TOLERANCE_MM);
        for (const contour of contoursOf(offsetShape(shape, distance))) {
          expect(findCrossings([flattenContour(contour, 0.001)])).toEqual([]);
          expect(contour.segments.length).toBeLessThan(250);
        }
      }),
      { numRuns: 24, seed: 15 },
    );
  });

  it('would be caught if the distance were off by a fiftieth of a millimetre (faulty twin)', () => {
    const shape = { outer: circle(0, 0, 20), holes: [] };
    const found = flattenContour(offsetShape(shape, 1.02)[0]!.outer, 0.0005);
    const exact = offsetRegions([shapeToRegion(shape, 0.0005)], 1, 0.0005)[0]!.outer;
    expect(apart(found, exact)).toBeGreaterThan(OFFSET_FIT_TOLERANCE_MM);
  });

  it('consumes, splits and merges', () => {
    expect(offsetShape({ outer: circle(0, 0, 5), holes: [] }, -5.01)).toEqual([]);
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
    const halves = offsetShape({ outer: polylineContour(dumbbell, true), holes: [] }, -2.5);
    expect(halves).toHaveLength(2);
    const ring = { outer: circle(0, 0, 20), holes: [circle(0, 0, 2, -1)] };
    expect(offsetShape(ring, 2.01)[0]!.holes).toEqual([]);
    const [same] = offsetShape(ring, 0);
    expect(same).toBe(ring);
  });

  it('refuses a distance that is not finite', () => {
    expect(() => offsetShape({ outer: circle(0, 0, 5), holes: [] }, Number.NaN)).toThrowError(
      expect.objectContaining({ code: 'non-finite' }),
    );
  });
});
