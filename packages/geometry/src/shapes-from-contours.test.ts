import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { regionsFromRings } from './boolean.ts';
import { contourArea, polylineContour, reversedContour, shapeArea } from './contour.ts';
import type { Contour } from './curve.ts';
import { flattenContour } from './flatten.ts';
import { regionsArea } from './region.ts';
import { RESOLVE_TOLERANCE_MM, shapesFromContours } from './shapes-from-contours.ts';

function square(x: number, y: number, size: number): Contour {
  return polylineContour(Float64Array.of(x, y, x + size, y, x + size, y + size, x, y + size), true);
}

function circle(x: number, y: number, radius: number): Contour {
  const start = { x: x + radius, y };
  return {
    start,
    segments: [{ kind: 'arc', to: start, centre: { x, y }, radius, sweep: 2 * Math.PI }],
    closed: true,
  };
}

const someContour = fc
  .tuple(
    fc.boolean(),
    fc.boolean(),
    fc.integer({ min: 0, max: 60 }),
    fc.integer({ min: 0, max: 60 }),
    fc.integer({ min: 3, max: 40 }),
  )
  .map(([isRound, isReversed, x, y, size]) => {
    // Odd fractions keep edges from coinciding exactly.
    const contour = isRound ? circle(x * 1.37, y * 1.37, size * 0.7) : square(x * 1.21, y * 1.21, size * 1.03);
    return isReversed ? reversedContour(contour) : contour;
  });

describe('shapesFromContours', () => {
  it('nests by the fill rule and keeps curves exactly', () => {
    const contours = [square(0, 0, 100), circle(50, 50, 30), square(45, 45, 10)];
    const found = shapesFromContours(contours, 'evenodd');
    expect(found.resolved).toBe(false);
    expect(found.shapes.map(({ holes }) => holes.length)).toEqual([1, 0]);
    expect(found.shapes[0]!.outer).toBe(contours[0]);
    expect(found.shapes[0]!.holes[0]!.segments.map(({ kind }) => kind)).toEqual(['arc']);
    expect(contourArea(found.shapes[0]!.holes[0]!)).toBeLessThan(0);
    expect(shapesFromContours(contours, 'nonzero').shapes).toHaveLength(1);
    const opposite = [contours[0]!, reversedContour(contours[1]!)];
    expect(shapesFromContours(opposite, 'nonzero').shapes[0]!.holes).toHaveLength(1);
  });

  it('resolves only the contours that meet', () => {
    const apart = circle(500, 0, 10);
    const found = shapesFromContours([square(0, 0, 10), square(5, 5, 10), apart], 'nonzero');
    expect(found.resolved).toBe(true);
    expect(found.crossings.map(({ a, b }) => [a, b])).toEqual([[0, 1]]);
    expect(found.shapes.map(shapeArea)[0]).toBeCloseTo(175, 6);
    expect(found.shapes[1]!.outer).toBe(apart);
  });

  it('knows the winding around contours that meet inside another', () => {
    const hole = [reversedContour(square(40, 40, 20)), reversedContour(square(50, 50, 20))];
    const found = shapesFromContours([square(0, 0, 100), ...hole], 'nonzero');
    // Twice out leaves -1 where the holes overlap: filled again by the non-zero rule.
    expect(found.shapes.reduce((sum, shape) => sum + shapeArea(shape), 0)).toBeCloseTo(10000 - 400 - 400 + 200, 5);
  });

  it('removes nothing but what encloses nothing, and doubles', () => {
    const line = polylineContour(Float64Array.of(0, 0, 50, 0), true);
    expect(shapesFromContours([line, square(0, 10, 5)], 'nonzero').shapes).toHaveLength(1);
    expect(shapesFromContours([square(0, 0, 5), square(0, 0, 5)], 'nonzero').shapes).toHaveLength(1);
    expect(shapesFromContours([square(0, 0, 5), square(0, 0, 5)], 'evenodd').shapes).toHaveLength(0);
  });

  it('fills the same area as a plain boolean, for any contours and both rules', () => {
    fc.assert(
      fc.property(
        fc.array(someContour, { minLength: 1, maxLength: 9 }),
        fc.constantFrom('nonzero' as const, 'evenodd' as const),
        (contours, rule) => {
          const { shapes, resolved } = shapesFromContours(contours, rule);
          const rings = contours.map((contour) => flattenContour(contour, RESOLVE_TOLERANCE_MM));
          const area = regionsArea(regionsFromRings(rings, rule));
          const length = contours.length * 200;
          const found = shapes.reduce((sum, shape) => sum + shapeArea(shape), 0);
          expect(Math.abs(found - area)).toBeLessThan(2 * RESOLVE_TOLERANCE_MM * length);
          for (const { outer, holes } of shapes) {
            expect(contourArea(outer)).toBeGreaterThan(0);
            for (const hole of holes) expect(contourArea(hole)).toBeLessThan(0);
            if (!resolved) expect(contours.some((one) => one.segments.length === outer.segments.length)).toBe(true);
          }
        },
      ),
      { numRuns: 200, seed: 11 },
    );
  });

  it('names an open contour', () => {
    expect(() => shapesFromContours([{ ...square(0, 0, 1), closed: false }], 'nonzero')).toThrowError(
      expect.objectContaining({ code: 'open-contour', place: 'contour 0' }),
    );
  });
});
