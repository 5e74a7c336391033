import seedrandom from 'seedrandom';
import { expect, test } from 'vitest';
import { EdgeStrips } from './edge-strips.ts';
import { isInRegion, type Region } from './region.ts';

/** A ragged star of many corners round a place. */
function star(x: number, y: number, corners: number, random: () => number): Float64Array {
  return Float64Array.from({ length: 2 * corners }, (_, k) => {
    const turn = ((k >> 1) / corners) * 2 * Math.PI;
    const reach = 20 + 15 * random();
    return k % 2 === 0 ? x + reach * Math.cos(turn) : y + reach * Math.sin(turn);
  });
}

const random = seedrandom('strips');
const regions: Region[] = [
  { outer: star(0, 0, 90, random), holes: [star(0, 0, 40, random).map((value) => value * 0.3)] },
  { outer: star(30, 10, 7, random), holes: [] },
  { outer: Float64Array.of(-50, 5, 60, 5, 60, 5.5, -50, 5.5), holes: [] },
];
const near = new EdgeStrips(regions);
const anywhere = (): number => (random() - 0.5) * 120;

test('a point is inside where any of the regions holds it', () => {
  const points = Array.from({ length: 3000 }, () => [anywhere(), anywhere()] as const);
  const inside = points.filter(([x, y]) => regions.some((region) => isInRegion(region, x, y)));
  expect(inside.length).toBeGreaterThan(200);
  for (const [x, y] of points) expect(near.holds(x, y)).toBe(regions.some((region) => isInRegion(region, x, y)));
});

test('a line stops at every edge it crosses, once, in order', () => {
  for (let k = 0; k < 200; k++) {
    const [ax, ay, bx, by] = [anywhere(), anywhere(), anywhere(), anywhere()];
    const stops = near.stops(ax, ay, bx, by);
    expect(stops).toEqual([...stops].sort((a, b) => a - b));
    // what lies between two stops lies on one side of every edge
    for (let i = 0; i + 1 < stops.length; i++) {
      const [from, to] = [stops[i]!, stops[i + 1]!];
      if (to - from < 1e-6) continue;
      const at = (share: number) => {
        const u = from + (to - from) * share;
        return regions.map((region) => isInRegion(region, ax + (bx - ax) * u, ay + (by - ay) * u)).join();
      };
      expect(at(0.9)).toBe(at(0.1));
    }
    expect(new Set(stops).size).toBe(stops.length);
  }
});
