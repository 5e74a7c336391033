import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  contourArea,
  contourBounds,
  contourLength,
  reversedContour,
  segmentPoint,
  segmentTangent,
  shapeArea,
  splitSegment,
  transformContour,
  transformShape,
} from './contour.ts';
import type { Contour, Segment } from './curve.ts';
import { flattenContour } from './flatten.ts';
import { placementMatrix } from './matrix.ts';
import { ringArea, ringBounds, ringPerimeter } from './ring.ts';

/** One of each kind of segment, closed. */
const MIXED: Contour = {
  start: { x: 0, y: 0 },
  segments: [
    { kind: 'line', to: { x: 60, y: 0 } },
    { kind: 'arc', to: { x: 80, y: 20 }, centre: { x: 60, y: 20 }, radius: 20, sweep: Math.PI / 2 },
    { kind: 'cubic', c1: { x: 90, y: 60 }, c2: { x: 50, y: 50 }, to: { x: 40, y: 70 } },
    {
      kind: 'ellipse',
      to: { x: 0, y: 70 },
      centre: { x: 20, y: 70 },
      rx: 20,
      ry: 9,
      axisTurn: 0,
      from: 0,
      sweep: Math.PI,
    },
    { kind: 'line', to: { x: 0, y: 0 } },
  ],
  closed: true,
};

const matrix = fc
  .tuple(...Array.from({ length: 4 }, () => fc.integer({ min: -30, max: 30 })))
  .filter(([a, b, c, d]) => Math.abs(a! * d! - b! * c!) > 20)
  .map(([a, b, c, d]) => ({ a: a! / 10, b: b! / 10, c: c! / 10, d: d! / 10, e: 500, f: -70 }));

describe('exact measures', () => {
  it('agree with a fine flattening', () => {
    const ring = flattenContour(MIXED, 1e-6);
    expect(contourArea(MIXED)).toBeCloseTo(ringArea(ring), 3);
    expect(contourLength(MIXED)).toBeCloseTo(ringPerimeter(ring), 3);
    const box = contourBounds(MIXED);
    const flat = ringBounds(ring);
    for (const side of ['minX', 'minY', 'maxX', 'maxY'] as const) expect(box[side]).toBeCloseTo(flat[side], 4);
  });

  it('know circles and ellipses in closed form', () => {
    const start = { x: 5, y: 0 };
    const ellipse = (rx: number, ry: number): Contour => ({
      start: { x: rx, y: 0 },
      segments: [
        {
          kind: 'ellipse',
          to: { x: rx, y: 0 },
          centre: { x: 0, y: 0 },
          rx,
          ry,
          axisTurn: 0,
          from: 0,
          sweep: 2 * Math.PI,
        },
      ],
      closed: true,
    });
    const circle: Contour = {
      start,
      segments: [{ kind: 'arc', to: start, centre: { x: 0, y: 0 }, radius: 5, sweep: -2 * Math.PI }],
      closed: true,
    };
    expect(contourArea(circle)).toBeCloseTo(-25 * Math.PI, 12);
    expect(contourLength(circle)).toBeCloseTo(10 * Math.PI, 12);
    expect(contourArea(ellipse(3, 2))).toBeCloseTo(6 * Math.PI, 12);
    expect(contourLength(ellipse(5, 5))).toBeCloseTo(10 * Math.PI, 9);
    // Perimeter of the 3 : 2 ellipse = 12 E(5 / 9): 15.8654395893 (value from memory).
    expect(contourLength(ellipse(3, 2))).toBeCloseTo(15.8654395893, 8);
  });

  it('change sign, not size, when the contour is reversed', () => {
    const back = reversedContour(MIXED);
    expect(contourArea(back)).toBeCloseTo(-contourArea(MIXED), 9);
    expect(contourLength(back)).toBeCloseTo(contourLength(MIXED), 9);
    expect(reversedContour(back)).toEqual(MIXED);
  });
});

describe('transformContour', () => {
  it('multiplies the exact area by the determinant for every map', () => {
    fc.assert(
      fc.property(matrix, (map) => {
        const moved = transformContour(MIXED, map);
        const factor = map.a * map.d - map.b * map.c;
        expect(contourArea(moved) / (contourArea(MIXED) * factor)).toBeCloseTo(1, 10);
      }),
      { numRuns: 200, seed: 3 },
    );
  });

  it('moves every point of every curve as it moves points', () => {
    fc.assert(
      fc.property(matrix, fc.double({ min: 0.01, max: 0.99, noNaN: true }), (map, u) => {
        const moved = transformContour(MIXED, map);
        let from = MIXED.start;
        let movedFrom = moved.start;
        MIXED.segments.forEach((segment, index) => {
          const before = segmentPoint(from, segment, u);
          const after = segmentPoint(movedFrom, moved.segments[index]!, u);
          expect(after.x).toBeCloseTo(map.a * before.x + map.c * before.y + map.e, 9);
          expect(after.y).toBeCloseTo(map.b * before.x + map.d * before.y + map.f, 9);
          from = segment.to;
          movedFrom = moved.segments[index]!.to;
        });
      }),
      { numRuns: 200, seed: 4 },
    );
  });

  it('keeps arcs as arcs under similarities and makes them ellipses otherwise', () => {
    const kinds = (contour: Contour) => contour.segments.map((segment) => segment.kind);
    expect(kinds(transformContour(MIXED, placementMatrix(3, 4, 33, true)))).toEqual(kinds(MIXED));
    const stretched = transformContour(MIXED, { a: 2, b: 0, c: 0, d: 1, e: 0, f: 0 });
    expect(kinds(stretched)[1]).toBe('ellipse');
    const back = transformContour(stretched, { a: 0.5, b: 0, c: 0, d: 1, e: 0, f: 0 });
    expect(kinds(back)[1]).toBe('arc');
  });

  it('keeps orientations of mirrored shapes', () => {
    const hole = reversedContour(transformContour(MIXED, { a: 0.2, b: 0, c: 0, d: 0.2, e: 20, f: 20 }));
    const shape = { outer: MIXED, holes: [hole] };
    const mirrored = transformShape(shape, placementMatrix(0, 0, 0, true));
    expect(contourArea(mirrored.outer)).toBeCloseTo(contourArea(MIXED), 9);
    expect(contourArea(mirrored.holes[0]!)).toBeLessThan(0);
    expect(shapeArea(mirrored)).toBeCloseTo(shapeArea(shape), 9);
  });

  it('refuses maps that are not finite or that flatten curves', () => {
    const map = { a: 1, b: 0, c: 0, d: Number.NaN, e: 0, f: 0 };
    expect(() => transformContour(MIXED, map)).toThrowError(expect.objectContaining({ code: 'non-finite' }));
    expect(() => transformContour(MIXED, { ...map, d: 0 })).toThrowError(
      expect.objectContaining({ code: 'degenerate' }),
    );
  });
});

describe('segments', () => {
  it('split into halves that are the same curve', () => {
    let from = MIXED.start;
    for (const segment of MIXED.segments) {
      for (const u of [0.2, 0.5, 0.9]) {
        const [first, second] = splitSegment(from, segment, u);
        const middle = segmentPoint(from, segment, u);
        expect(first.to).toEqual(middle);
        const early = segmentPoint(from, first, 0.3);
        const exact = segmentPoint(from, segment, 0.3 * u);
        expect(Math.hypot(early.x - exact.x, early.y - exact.y)).toBeLessThan(1e-9);
        const late = segmentPoint(first.to, second, 0.6);
        const exactLate = segmentPoint(from, segment, u + 0.6 * (1 - u));
        expect(Math.hypot(late.x - exactLate.x, late.y - exactLate.y)).toBeLessThan(1e-9);
      }
      from = segment.to;
    }
  });

  it('have tangents that agree with differences, also where control points coincide', () => {
    const start = { x: 1, y: 2 };
    const curves: Segment[] = [
      ...MIXED.segments.slice(1, 2),
      { kind: 'cubic', c1: start, c2: { x: 9, y: 4 }, to: { x: 9, y: 4 } },
      { kind: 'cubic', c1: { x: 4, y: 9 }, c2: { x: 6, y: 9 }, to: { x: 9, y: 4 } },
    ];
    for (const curve of curves) {
      const from = curve.kind === 'arc' ? { x: 60, y: 0 } : start;
      for (const u of [0, 0.37, 1]) {
        const step = 1e-4;
        const a = segmentPoint(from, curve, Math.max(0, u - step));
        const b = segmentPoint(from, curve, Math.min(1, u + step));
        const length = Math.hypot(b.x - a.x, b.y - a.y);
        const tangent = segmentTangent(from, curve, u);
        expect(tangent.x).toBeCloseTo((b.x - a.x) / length, 2);
        expect(tangent.y).toBeCloseTo((b.y - a.y) / length, 2);
      }
    }
  });
});
