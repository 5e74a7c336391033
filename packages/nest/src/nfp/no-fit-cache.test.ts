import { describe, expect, it } from 'vitest';
import { packBoards } from '../boards/pack-boards.ts';
import { noFit } from './no-fit.ts';
import { NoFitCache } from './no-fit-cache.ts';
import { turnedRegion } from './turned.ts';

const ell = { outer: Float64Array.of(0, 0, 30, 0, 30, 10, 10, 10, 10, 40, 0, 40), holes: [] };
const wedge = { outer: Float64Array.of(0, 0, 25, 5, 3, 18), holes: [] };

describe('no-fit polygons kept between searches', () => {
  it('are the ones that would be made afresh, made once', () => {
    const cache = new NoFitCache();
    const ask = () => cache.polygon(ell, cache.shapeOf(ell), wedge, cache.shapeOf(wedge), 90);
    expect(ask()).toEqual(noFit(ell, turnedRegion(wedge, 90)));
    expect(ask()).toBe(ask());
    expect(cache.shapeOf({ outer: ell.outer.slice(), holes: [] })).toBe(cache.shapeOf(ell));
    expect(cache.shapeOf(wedge)).not.toBe(cache.shapeOf(ell));
  });

  it('change no result: a search finds the same with polygons at hand and without', () => {
    const noFits = new NoFitCache();
    const poses = [0, 90, 180, 270].map((turnDeg) => [0, 1].map((form) => ({ form, turnDeg })));
    const ofForm = (form: number) => poses.map((list) => list[form]!);
    const lists = [ofForm(0), ofForm(1)];
    const input = {
      forms: [ell, wedge],
      items: Array.from({ length: 24 }, (_, i) => ({ poses: lists[i % 2]! })),
      boards: Array.from({ length: 8 }, () => ({ minX: 0, minY: 0, maxX: 80, maxY: 60, obstacles: [], price: 1 })),
      spacing: 1,
      tolerance: 1e-4,
    };
    const search = (kept?: NoFitCache) =>
      packBoards(input, null, { evaluations: 60_000 }, { seed: 3, ...(kept ? { noFits: kept } : {}) });
    const fresh = search();
    expect(fresh.spots).not.toBeNull();
    expect(search(noFits)).toEqual(fresh);
    expect(search(noFits)).toEqual(fresh);
  });
});
