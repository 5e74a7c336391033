import { distancePointToRing } from '@underlap/geometry/distance';
import { flattenContour, shapeToRegion } from '@underlap/geometry/flatten';
import { offsetRegions } from '@underlap/geometry/offset';
import { regionArea } from '@underlap/geometry/region';
import { beforeAll, describe, expect, it } from 'vitest';
import { rectangle, shapeOf, taskOf } from '../testing/fixtures.ts';
import { couponShapes, DEFAULT_CLEARANCES, fitFromCoupon, kerfFromCoupon } from './coupon.ts';
import { cutOutline } from './cut-outline.ts';
import { planSeams } from './plan-seams.ts';
import type { SplitPlan } from './task.ts';

/** Junctions and ends of seams are left out of the measure, mm. */
const END_MM = 1.5;

describe('cutOutline', () => {
  let plan: SplitPlan;
  beforeAll(async () => {
    const task = taskOf(shapeOf(rectangle(0, 0, 330, 240)), [rectangle(-10, 90, 350, 60)], [210, 180]);
    const outcome = await planSeams(task, { seed: 1 }, 'quick');
    if (outcome.kind !== 'split') throw new Error('the sample must be split');
    plan = outcome.plans[0]!;
    expect(plan.pieces.length).toBeGreaterThan(2);
  });

  /** Largest difference between the gap that a cut leaves and the one asked for, along all seams. */
  function worstGap(kerf: number, cutKerf: number, fit: number): number {
    const wood = plan.pieces.map((piece) => {
      const path = shapeToRegion(cutOutline(piece, { kerf, fit }), 0.002);
      return cutKerf === 0 ? path : offsetRegions([path], -cutKerf / 2, 0.002)[0]!;
    });
    let worst = 0;
    for (const seam of plan.seams) {
      const line = flattenContour(seam.path, 0.004);
      const [a, b] = seam.between.map((id) => wood[plan.pieces.findIndex((piece) => piece.id === id)]!);
      let along = 0;
      for (let i = 2; i < line.length; i += 2) {
        along += Math.hypot(line[i]! - line[i - 2]!, line[i + 1]! - line[i - 1]!);
        if (along < END_MM + 1 || along > seam.lengthMm - END_MM - 1) continue;
        const x = (line[i]! + line[i - 2]!) / 2;
        const y = (line[i + 1]! + line[i - 1]!) / 2;
        const gap = distancePointToRing(x, y, a!.outer) + distancePointToRing(x, y, b!.outer);
        worst = Math.max(worst, Math.abs(gap - Math.abs(fit)));
      }
    }
    return worst;
  }

  it('leaves the gap that was asked for, press fit to loose', () => {
    for (const [kerf, fit] of [
      [0.2, 0.05],
      [0.2, -0.05],
      [0.3, 0.2],
      [0, 0.1],
    ] as const) {
      expect(worstGap(kerf, kerf, fit)).toBeLessThan(0.01);
    }
  });

  it('would not, were the beam wider than told', () => {
    expect(worstGap(0.2, 0.25, 0.05)).toBeGreaterThan(0.04);
  });

  it('keeps the size of the sign', () => {
    for (const piece of plan.pieces) {
      const path = shapeToRegion(cutOutline(piece, { kerf: 0.2, fit: 0.05 }), 0.002);
      const wood = offsetRegions([path], -0.1, 0.002)[0]!;
      const seamLength = plan.seams.reduce(
        (sum, seam) => sum + (seam.between.includes(piece.id) ? seam.lengthMm : 0),
        0,
      );
      expect(regionArea(wood)).toBeCloseTo(regionArea(piece.region) - 0.025 * seamLength, 0);
    }
  });

  it('leaves drawn edges alone when only seams are compensated', () => {
    const [piece] = plan.pieces;
    const cut = cutOutline(piece!, { kerf: 0.2, fit: 0, compensate: 'seams' });
    const drawn = piece!.shape.outer.segments.filter((_, index) => piece!.edges[0]![index] === null);
    const ring = shapeToRegion(cut, 0.002).outer;
    for (const segment of drawn.slice(0, -1)) {
      expect(distancePointToRing(segment.to.x, segment.to.y, ring)).toBeLessThan(0.2);
    }
    expect(cutOutline(piece!, { kerf: 0, fit: 0 })).toBe(piece!.shape);
  });
});

describe('coupon', () => {
  it('has a tile for every clearance, a bar and a comb, none touching another', () => {
    const coupon = couponShapes({ thickness: 6, kerf: 0.2, clearances: DEFAULT_CLEARANCES });
    expect(coupon.pieces.map((piece) => piece.kind)).toEqual(['comb', ...DEFAULT_CLEARANCES.map(() => 'tile'), 'bar']);
    const regions = coupon.pieces.map((piece) => shapeToRegion(piece.shape, 0.01));
    const grown = offsetRegions(regions, 1, 0.01);
    expect(grown).toHaveLength(regions.length);
    expect(coupon.widthMm * coupon.heightMm).toBeLessThan(200 * 110);
  });

  it('tells the kerf from the gap in the comb, and the fit from the tile that is liked', () => {
    expect(kerfFromCoupon([2.2, 2.31, 2.09])).toEqual({
      kerf: expect.closeTo(0.2, 9),
      spread: expect.closeTo(0.01, 9),
    });
    expect(() => kerfFromCoupon([-1])).toThrow(/no reading/);
    expect(() => kerfFromCoupon([80])).toThrow(/no reading/);
    expect(fitFromCoupon(0.05, 0.2, 0.23)).toBeCloseTo(0.08, 9);
  });

  it('refuses numbers that make no sense', () => {
    expect(() => couponShapes({ thickness: 0, kerf: 0.2, clearances: [0] })).toThrow(/thickness/);
    expect(() => couponShapes({ thickness: 6, kerf: -1, clearances: [0] })).toThrow(/kerf/);
    expect(() => couponShapes({ thickness: 6, kerf: 0.2, clearances: [] })).toThrow(/clearances/);
  });
});
