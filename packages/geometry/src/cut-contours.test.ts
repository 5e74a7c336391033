import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { contourArea, contourLength, polylineContour } from './contour.ts';
import type { Contour } from './curve.ts';
import { cutArea, cutLines, type FilledContours } from './cut-contours.ts';

const polygon = (...points: number[]): Contour => polylineContour(Float64Array.from(points), true);
const square = (x: number, y: number, side: number): Contour =>
  polygon(x, y, x + side, y, x + side, y + side, x, y + side);
const circle = (x: number, y: number, radius: number): Contour => ({
  start: { x: x + radius, y },
  segments: [{ kind: 'arc', to: { x: x + radius, y }, centre: { x, y }, radius, sweep: 2 * Math.PI }],
  closed: true,
});
const filled = (...contours: Contour[]): FilledContours => ({ contours, fillRule: 'nonzero' });
const contoursOf = (cut: ReturnType<typeof cutArea>): readonly Contour[] => (cut.kind === 'cut' ? cut.contours : []);
const area = (contours: readonly Contour[]): number => contours.reduce((sum, contour) => sum + contourArea(contour), 0);
const kinds = (contours: readonly Contour[]): string[] =>
  contours.flatMap((contour) => contour.segments.map(({ kind }) => kind)).sort();

describe('cutArea', () => {
  it('leaves alone what lies inside, touching allowed', () => {
    expect(cutArea(filled(circle(50, 50, 10)), [[filled(square(0, 0, 100))]])).toEqual({ kind: 'untouched' });
    expect(cutArea(filled(square(0, 0, 100)), [[filled(square(0, 0, 100))]])).toEqual({ kind: 'untouched' });
  });

  it('leaves nothing of what lies outside', () => {
    expect(cutArea(filled(square(0, 0, 5)), [[filled(square(10, 10, 5))]])).toEqual({ kind: 'cut', contours: [] });
    expect(cutArea(filled(square(0, 0, 5)), [[]])).toEqual({ kind: 'cut', contours: [] });
  });

  it('cuts a circle by a line to an arc and a chord, exactly', () => {
    const cut = contoursOf(cutArea(filled(circle(0, 0, 50)), [[filled(square(-100, 10, 300))]]));
    expect(kinds(cut)).toEqual(['arc', 'line']);
    // Segment of a circle: r^2 acos(d / r) - d sqrt(r^2 - d^2).
    expect(area(cut)).toBeCloseTo(2500 * Math.acos(0.2) - 10 * Math.sqrt(2400), 8);
    const arc = cut[0]!.segments.find((segment) => segment.kind === 'arc');
    expect(arc).toMatchObject({ centre: { x: 0, y: 0 }, radius: 50 });
  });

  it('cuts two circles to a lens of two arcs that meet in the true crossings', () => {
    const cut = contoursOf(cutArea(filled(circle(0, 0, 50)), [[filled(circle(60, 0, 50))]]));
    // The circle that is cut was drawn from a point of the lens on.
    expect(kinds(cut).length).toBeLessThanOrEqual(3);
    expect(new Set(kinds(cut))).toEqual(new Set(['arc']));
    expect(area(cut)).toBeCloseTo(2 * (2500 * Math.acos(0.6) - 30 * 40), 8);
    for (const { to } of cut[0]!.segments) {
      expect(to.x).toBeCloseTo(30, 9);
      expect(Math.abs(to.y)).toBeCloseTo(40, 9);
    }
  });

  it('keeps holes, and makes one where the clip has one', () => {
    const ring: FilledContours = { contours: [square(0, 0, 90), square(30, 30, 30)], fillRule: 'evenodd' };
    expect(area(contoursOf(cutArea(filled(square(0, 0, 120)), [[ring]])))).toBeCloseTo(8100 - 900, 6);
    expect(area(contoursOf(cutArea(ring, [[filled(square(-10, -10, 80))]])))).toBeCloseTo(4900 - 900, 6);
  });

  it('unites the members of a clip and cuts by every clip of a chain', () => {
    const two = [filled(square(0, 0, 50)), filled(square(25, 0, 50))];
    expect(area(contoursOf(cutArea(filled(square(0, 0, 100)), [two])))).toBeCloseTo(75 * 50, 6);
    expect(area(contoursOf(cutArea(filled(square(0, 0, 100)), [two, [filled(square(0, 0, 10))]])))).toBeCloseTo(100, 6);
  });

  it('keeps Beziers and ellipses as stretches of themselves', () => {
    const leaf: Contour = {
      start: { x: 0, y: 0 },
      segments: [
        { kind: 'cubic', c1: { x: 0, y: 60 }, c2: { x: 100, y: 60 }, to: { x: 100, y: 0 } },
        {
          kind: 'ellipse',
          to: { x: 0, y: 0 },
          centre: { x: 50, y: 0 },
          rx: 50,
          ry: 20,
          axisTurn: 0,
          from: 0,
          sweep: -Math.PI,
        },
      ],
      closed: true,
    };
    const left = contoursOf(cutArea(filled(leaf), [[filled(square(-150, -100, 200))]]));
    expect(kinds(left)).toEqual(['cubic', 'ellipse', 'line']);
    expect(area(left)).toBeCloseTo(Math.abs(contourArea(leaf)) / 2, 8);
  });

  it('does the same at any size, place and turn', () => {
    for (const size of [1e-4, 1, 3e4]) {
      const cut = contoursOf(
        cutArea(filled(circle(7 * size, 3 * size, 50 * size)), [[filled(circle(67 * size, 3 * size, 50 * size))]]),
      );
      expect(area(cut) / (size * size)).toBeCloseTo(2 * (2500 * Math.acos(0.6) - 30 * 40), 6);
    }
  });

  it('has the area that inclusion and exclusion ask for (property)', () => {
    const coordinate = fc.integer({ min: 0, max: 60 });
    const shape = fc.oneof(
      fc.tuple(coordinate, coordinate, fc.integer({ min: 5, max: 40 })).map(([x, y, r]) => circle(x, y, r)),
      fc
        .tuple(coordinate, coordinate, fc.integer({ min: 5, max: 40 }))
        .map(([x, y, s]) => square(x + 0.37, y + 0.11, s)),
    );
    fc.assert(
      fc.property(shape, shape, (a, b) => {
        const both = cutArea(filled(a), [[filled(b)]]);
        const other = cutArea(filled(b), [[filled(a)]]);
        const areaOf = (cut: typeof both, whole: Contour): number =>
          cut.kind === 'untouched' ? Math.abs(contourArea(whole)) : area(cut.contours);
        expect(areaOf(both, a)).toBeCloseTo(areaOf(other, b), 1);
        for (const contour of contoursOf(both)) expect(contour.segments.at(-1)!.to).toEqual(contour.start);
        // Chords would give a line for every few degrees.
        expect(kinds(contoursOf(both)).length).toBeLessThanOrEqual(16);
      }),
      { seed: 5, numRuns: 100 },
    );
  });
});

describe('cutLines', () => {
  it('keeps what lies inside, as curves', () => {
    const cut = cutLines([circle(0, 0, 50)], [[filled(square(0, 0, 100))]]);
    const contours = cut.kind === 'cut' ? cut.contours : [];
    expect(contours).toHaveLength(1);
    expect(contours[0]!.closed).toBe(false);
    expect(kinds(contours)).toEqual(['arc']);
    expect(contourLength(contours[0]!)).toBeCloseTo(25 * Math.PI, 6);
  });

  it('leaves alone what lies inside, and leaves nothing of what lies outside', () => {
    expect(cutLines([circle(50, 50, 10)], [[filled(square(0, 0, 100))]])).toEqual({ kind: 'untouched' });
    expect(cutLines([circle(500, 50, 10)], [[filled(square(0, 0, 100))]])).toEqual({ kind: 'cut', contours: [] });
  });
});
