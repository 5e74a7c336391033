import { contourArea } from '@underlap/geometry/contour';
import type { Point } from '@underlap/geometry/point';
import { describe, expect, it } from 'vitest';
import { circle, rectangle, shapeOf } from '../testing/fixtures.ts';
import { type ArrangedCut, arrange, type CutEnd, faceShape } from './arrangement.ts';
import { spineOf, spineStretch } from './spine.ts';

const onOutline = (segment: number, u: number): CutEnd => ({ kind: 'outline', contour: 0, segment, u });

function straightCut(from: CutEnd, start: Point, to: CutEnd, end: Point): ArrangedCut {
  const spine = spineOf(start, [{ kind: 'line', to: end }]);
  return { from, to, length: spine.length, stretch: (s0, s1) => spineStretch(spine, s0, s1) };
}

/** 400 x 100, its upper side segment 0 from left to right, its lower side segment 2 from right to left. */
const PLANK = shapeOf(rectangle(0, 0, 400, 100), [circle(50, 50, 10), circle(300, 50, 20)]);
const down = (x: number): ArrangedCut =>
  straightCut(onOutline(0, x / 400), { x, y: 0 }, onOutline(2, 1 - x / 400), { x, y: 100 });

const areaOf = (shape: ReturnType<typeof faceShape>): number =>
  contourArea(shape.outer) + shape.holes.reduce((sum, hole) => sum + contourArea(hole), 0);

const WHOLE = 40_000 - Math.PI * (100 + 400);

describe('faces of a cut part', () => {
  it('is one face with its holes when nothing is cut', () => {
    const [face, ...others] = arrange(PLANK, []);
    expect(others).toEqual([]);
    expect(face!.holes).toEqual([1, 2]);
    expect(areaOf(faceShape(face!, PLANK))).toBeCloseTo(WHOLE, 6);
  });

  it('gives every hole to the face it lies in, and areas add up to rounding', () => {
    const faces = arrange(PLANK, [down(100), down(200)]);
    const areas = faces.map((face) => areaOf(faceShape(face, PLANK))).sort((a, b) => a - b);
    expect(areas).toHaveLength(3);
    expect(areas.reduce((sum, area) => sum + area, 0)).toBeCloseTo(WHOLE, 6);
    expect(areas[0]).toBeCloseTo(10_000 - Math.PI * 100, 6);
    expect(areas[2]).toBeCloseTo(20_000 - Math.PI * 400, 6);
  });

  it('lets a cut end on another: three faces meet there', () => {
    const across = straightCut(onOutline(3, 0.5), { x: 0, y: 50 }, { kind: 'cut', cut: 0, s: 50 }, { x: 100, y: 50 });
    const plain = shapeOf(rectangle(0, 0, 400, 100));
    const areas = arrange(plain, [down(100), across]).map((face) => areaOf(faceShape(face, plain)));
    expect(areas.sort((a, b) => a - b).map(Math.round)).toEqual([5000, 5000, 30_000]);
  });

  it('two cuts to a hole part the plank: the hole becomes outline of both', () => {
    const toHole = (y: number, segment: number, u: number, side: 0 | 1): ArrangedCut =>
      straightCut(
        onOutline(segment, u),
        { x: 300, y },
        { kind: 'outline', contour: 2, segment: side, u: 0.5 },
        { x: 300, y: y === 0 ? 30 : 70 },
      );
    // The hole runs backwards, so which half its quarter point lies on is asked of the shape.
    const hole = PLANK.holes[1]!;
    const isFirstUpper = 'centre' in hole.segments[0]! && hole.segments[0]!.sweep < 0;
    const [upper, lower] = isFirstUpper ? ([1, 0] as const) : ([0, 1] as const);
    const faces = [0, 1].map((swap) =>
      arrange(PLANK, [
        toHole(0, 0, 0.75, swap === 0 ? upper : lower),
        toHole(100, 2, 0.25, swap === 0 ? lower : upper),
      ]),
    );
    const sums = faces.map((each) => each.map((face) => areaOf(faceShape(face, PLANK))));
    expect(sums.some((areas) => areas.length === 2 && Math.abs(areas[0]! + areas[1]! - WHOLE) < 1e-6)).toBe(true);
  });

  it('a slit that ends inside parts nothing', () => {
    const slit = straightCut(
      onOutline(0, 0.25),
      { x: 100, y: 0 },
      { kind: 'outline', contour: 1, segment: 0, u: 0.5 },
      {
        x: 50,
        y: 40,
      },
    );
    expect(arrange(PLANK, [slit])).toHaveLength(1);
  });
});
