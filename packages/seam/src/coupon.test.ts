import { contourBounds } from '@underlap/geometry/contour';
import { distanceBetweenRings } from '@underlap/geometry/distance';
import { flattenContour } from '@underlap/geometry/flatten';
import { placementMatrix } from '@underlap/geometry/matrix';
import { ringArea } from '@underlap/geometry/ring';
import { transformRegion } from '@underlap/geometry/transform-region';
import { describe, expect, it } from 'vitest';
import { couponShapes, DEFAULT_CLEARANCES, fitFromCoupon, kerfFromCoupon } from './coupon.ts';

const OPTIONS = { thickness: 6, kerf: 0.2, clearances: DEFAULT_CLEARANCES };

describe('the coupon', () => {
  const coupon = couponShapes(OPTIONS);

  it('has a comb whose gap adds the kerfs up: ten blocks between eleven cuts', () => {
    const comb = coupon.pieces.find(({ kind }) => kind === 'comb')!;
    expect(comb.lines).toHaveLength(9);
    expect(comb.shape.holes).toHaveLength(1);
    expect(coupon.kerfsInGap).toBe(comb.lines.length + 2);
    // Cut with this kerf, the blocks lose half of it on either side, and the window grows by half at its ends.
    const kerf = 0.17;
    const window = contourBounds(comb.shape.holes[0]!);
    const blocks = (window.maxX - window.minX) / (comb.lines.length + 1) - kerf;
    const gap = window.maxX - window.minX + kerf - blocks * (comb.lines.length + 1);
    expect(kerfFromCoupon([gap]).kerf).toBeCloseTo(kerf, 9);
  });

  it('cuts every tile so much looser than its socket as its number says', () => {
    const bar = coupon.pieces.find(({ kind }) => kind === 'bar')!;
    const socketsAbove = flattenContour(bar.shape.outer, 0.001);
    const tiles = coupon.pieces.filter(({ kind }) => kind === 'tile');
    expect(tiles).toHaveLength(DEFAULT_CLEARANCES.length);
    const barTop = contourBounds(bar.shape.outer).minY;
    tiles.forEach((tile, index) => {
      const clearance = DEFAULT_CLEARANCES[index]!;
      const box = contourBounds(tile.shape.outer);
      const { y } = tile.shape.outer.start;
      // Where the tile's shoulders come to lie once the knob is in its socket.
      const shoulders = Math.max(
        ...tile.shape.outer.segments.filter(({ kind }) => kind === 'line').map(({ to }) => to.y),
      );
      expect(y).toBeLessThan(shoulders);
      expect(box.maxY).toBeGreaterThan(shoulders + 5);
      const moved = transformRegion(
        { outer: flattenContour(tile.shape.outer, 0.001), holes: [] },
        placementMatrix(0, barTop - shoulders, 0),
      ).outer;
      // Both paths are grown by half the kerf: what is left between them is the clearance less the kerf.
      const gap = distanceBetweenRings(moved, socketsAbove);
      if (clearance - 0.2 < 0) expect(gap).toBeLessThan(0.01);
      expect(Math.abs(ringArea(moved))).toBeGreaterThan(100);
    });
    const areas = tiles.map((tile) => Math.abs(ringArea(flattenContour(tile.shape.outer, 0.001))));
    // A looser tile is a smaller one, by about its lower edge times the difference.
    for (let k = 1; k < areas.length; k++) expect(areas[k]!).toBeLessThan(areas[k - 1]!);
  });

  it('turns readings into kerf and fit, and refuses what no kerf explains', () => {
    expect(kerfFromCoupon([1.98, 2.2, 2.42])).toEqual({
      kerf: expect.closeTo(0.2, 9),
      spread: expect.closeTo(0.02, 9),
    });
    expect(fitFromCoupon(0.05, 0.2, 0.23)).toBeCloseTo(0.08, 9);
    expect(() => kerfFromCoupon([])).toThrow('at least one');
    expect(() => kerfFromCoupon([2, 60])).toThrow('60 mm is no reading');
    expect(() => kerfFromCoupon([-1])).toThrow('no reading');
  });

  it.each([
    [{ thickness: 0 }, 'thickness'],
    [{ thickness: Number.NaN }, 'thickness'],
    [{ kerf: -0.1 }, 'kerf'],
    [{ kerf: 4 }, 'kerf'],
    [{ clearances: [] }, 'clearances'],
    [{ clearances: [3] }, 'clearances'],
  ])('refuses %o', (wrong, word) => {
    expect(() => couponShapes({ ...OPTIONS, ...wrong })).toThrow(word);
  });
});
