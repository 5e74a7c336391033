import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { intersectRegions } from './boolean.ts';
import { polylineContour, transformShape } from './contour.ts';
import type { Segment, Shape } from './curve.ts';
import { distanceBetweenRings } from './distance.ts';
import { exactOutline, isInOutline, outlineGap } from './exact-outline.ts';
import { shapeToRegion } from './flatten.ts';
import { placementMatrix } from './matrix.ts';
import { regionsArea } from './region.ts';

/** A rosette of arcs that bulge in and out in turn. */
function rosette(count: number, radius: number): Shape {
  const corner = (i: number) => {
    const turn = (2 * Math.PI * (i % count)) / count;
    return { x: radius * Math.cos(turn), y: radius * Math.sin(turn) };
  };
  const segments = Array.from({ length: count }, (_, i): Segment => {
    const p = corner(i);
    const to = corner(i + 1);
    const sweep = i % 2 === 0 ? 1.5 : -1.5;
    const chord = Math.hypot(to.x - p.x, to.y - p.y);
    const height = (chord / 2 / Math.tan(0.75)) * Math.sign(sweep);
    const ux = (to.x - p.x) / chord;
    const uy = (to.y - p.y) / chord;
    const centre = { x: (p.x + to.x) / 2 - uy * height, y: (p.y + to.y) / 2 + ux * height };
    return { kind: 'arc', to, centre, radius: chord / 2 / Math.sin(0.75), sweep };
  });
  return { outer: { start: corner(0), segments, closed: true }, holes: [] };
}

function square(x: number, y: number, size: number): Shape {
  return {
    outer: polylineContour(Float64Array.of(x, y, x + size, y, x + size, y + size, x, y + size), true),
    holes: [],
  };
}

describe('exact outlines', () => {
  it('agree with fine polygons on gaps and overlaps of curved shapes', () => {
    const shape = rosette(24, 40);
    const outline = exactOutline(shape);
    const region = shapeToRegion(shape, 0.001);
    let overlaps = 0;
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: 1100 }),
        fc.integer({ min: 0, max: 628 }),
        fc.integer({ min: 0, max: 359 }),
        (reach, turn, own) => {
          const x = (reach / 10) * Math.cos(turn / 100);
          const y = (reach / 10) * Math.sin(turn / 100);
          const moved = transformShape(shape, placementMatrix(x, y, own + 0.5));
          const other = exactOutline(moved);
          const otherRegion = shapeToRegion(moved, 0.001);
          const gap = outlineGap(outline, other)!;
          expect(Math.abs(gap.distance - distanceBetweenRings(region.outer, otherRegion.outer))).toBeLessThan(0.0021);
          expect(Math.hypot(gap.onA.x - gap.onB.x, gap.onA.y - gap.onB.y)).toBeCloseTo(gap.distance, 6);
          const shared = regionsArea(intersectRegions([region], [otherRegion]));
          // Equal shapes overlap where their outlines meet: neither goes into the other.
          if (shared > 0.01) expect(gap.distance).toBe(0);
          if (gap.distance > 0.003) expect(shared).toBe(0);
          if (shared > 0) overlaps += 1;
        },
      ),
      { numRuns: 25, seed: 12 },
    );
    expect(overlaps).toBeGreaterThan(5);
    expect(overlaps).toBeLessThan(25);
  });

  it('finds no gap where outlines touch, cross or lie on one another', () => {
    const a = exactOutline(square(0, 0, 10));
    for (const x of [10, 9.999, 0]) expect(outlineGap(a, exactOutline(square(x, 0, 10)))?.distance).toBe(0);
    expect(outlineGap(a, exactOutline(square(10.001, 0, 10)))?.distance).toBeCloseTo(0.001, 9);
  });

  it('lets a shape lie in the hole of another', () => {
    const frame: Shape = { outer: square(0, 0, 100).outer, holes: [square(20, 20, 60).outer] };
    const inside = exactOutline(square(30, 30, 10));
    expect(outlineGap(exactOutline(frame), inside)?.distance).toBe(10);
    expect(outlineGap(exactOutline(frame), inside, 9.9)).toBeNull();
  });

  it('tells inside from outside beside arcs that turn back', () => {
    const outline = exactOutline(rosette(24, 40));
    expect(isInOutline(outline, { x: 0, y: 0 })).toBe(true);
    expect(isInOutline(outline, { x: 47, y: 0 })).toBe(false);
  });
});
