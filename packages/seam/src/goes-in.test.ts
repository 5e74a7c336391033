import { convexHull } from '@underlap/geometry/hull';
import type { Ring } from '@underlap/geometry/ring';
import seedrandom from 'seedrandom';
import { describe, expect, it } from 'vitest';
import { circle, polygon, rectangle, shapeOf } from '../testing/fixtures.ts';
import {
  commonBox,
  exactTurns,
  holdsToo,
  likelyGoesIn,
  roomiestBerth,
  roughlyGoesIn,
  widenedBerth,
} from './goes-in.ts';
import type { Limit } from './task.ts';

const bed = (width: number, height: number): Limit => ({ name: 'bed', width, height });

/** Does any of 36,000 turns let the points into the rectangle? */
function goesIn(points: Ring, width: number, height: number): boolean {
  for (let step = 0; step < 36_000; step++) {
    const turn = (step * Math.PI) / 36_000;
    const [cos, sin] = [Math.cos(turn), Math.sin(turn)];
    let [x0, x1, y0, y1] = [Infinity, -Infinity, Infinity, -Infinity];
    for (let i = 0; i < points.length; i += 2) {
      const x = points[i]! * cos - points[i + 1]! * sin;
      const y = points[i]! * sin + points[i + 1]! * cos;
      [x0, x1, y0, y1] = [Math.min(x0, x), Math.max(x1, x), Math.min(y0, y), Math.max(y1, y)];
    }
    if (x1 - x0 <= width && y1 - y0 <= height) return true;
  }
  return false;
}

describe('what goes in a bed', () => {
  it('tells it as 36,000 turns do, for random triangles near the limit', () => {
    const random = seedrandom('triangles');
    let [goes, stays] = [0, 0];
    for (let i = 0; i < 40; i++) {
      const points = Float64Array.from({ length: 6 }, () => 300 * random());
      const hull = convexHull(points);
      const [width, height] = [150 + 150 * random(), 80 + 120 * random()];
      // Within a hair of the limit both answers are right.
      const surely = goesIn(points, width - 0.02, height - 0.02);
      const maybe = goesIn(points, width + 0.02, height + 0.02);
      if (surely !== maybe) continue;
      expect(roughlyGoesIn(hull, [bed(width, height)], 0), `triangle ${i}`).toBe(surely);
      if (likelyGoesIn(hull, [bed(width, height)], 0)) expect(surely).toBe(true);
      const corners = [0, 2, 4].map((k) => ({ x: points[k]!, y: points[k + 1]! }));
      expect(exactTurns(shapeOf(polygon(corners)), hull, [bed(width, height)], 0) !== null).toBe(surely);
      if (surely) goes++;
      else stays++;
    }
    expect(goes).toBeGreaterThan(8);
    expect(stays).toBeGreaterThan(8);
  });

  it('a part as large as the bed goes in; the kerf it is grown by does not', () => {
    const plate = shapeOf(rectangle(0, 0, 300, 200));
    const hull = Float64Array.of(0, 0, 300, 0, 300, 200, 0, 200);
    expect(exactTurns(plate, hull, [bed(300, 200)], 0)).toEqual({ bed: 0, board: 0 });
    expect(exactTurns(plate, hull, [bed(200, 300)], 0)).toEqual({ bed: 90, board: 0 });
    expect(exactTurns(plate, hull, [bed(300, 200)], 0.01)).toBeNull();
    expect(exactTurns(plate, hull, [bed(0.1, 200)], 0.2)).toBeNull();
  });

  it('asks a round part by its curve, not by its corners', () => {
    const disc = shapeOf(circle(0, 0, 100));
    // An octagon on the circle is 7.6 mm narrower than the disc.
    const hull = Float64Array.from(
      Array.from({ length: 8 }, (_, k) => [
        100 * Math.cos((k * Math.PI) / 4 + Math.PI / 8),
        100 * Math.sin((k * Math.PI) / 4 + Math.PI / 8),
      ]).flat(),
    );
    expect(roughlyGoesIn(hull, [bed(190, 190)], 0)).toBe(true);
    expect(exactTurns(disc, hull, [bed(190, 190)], 0)).toBeNull();
    expect(exactTurns(disc, hull, [bed(200, 200)], 0)).not.toBeNull();
  });

  it('every limit counts, and the common box is what all of them grant', () => {
    const limits: Limit[] = [bed(300, 200), { name: 'board', width: 180, height: 400 }];
    expect(commonBox(limits, 0.2)).toEqual({ long: 299.8, short: 179.8 });
    const hull = Float64Array.of(0, 0, 290, 0, 290, 190, 0, 190);
    expect(roughlyGoesIn(hull, limits, 0)).toBe(false);
    expect(roughlyGoesIn(hull, [limits[0]!], 0)).toBe(true);
  });

  it('a berth holds knobs as far as it has room, and no farther', () => {
    const hull = Float64Array.of(0, 0, 100, 0, 100, 50, 0, 50);
    const berth = roomiestBerth(hull, bed(120, 60), 0)!;
    expect(holdsToo(berth, Float64Array.of(110, 25))).toBe(true);
    expect(holdsToo(berth, Float64Array.of(121, 25))).toBe(false);
    const wider = widenedBerth(berth, Float64Array.of(115, 25));
    expect(holdsToo(wider, Float64Array.of(-4, 25))).toBe(true);
    expect(holdsToo(wider, Float64Array.of(-6, 25))).toBe(false);
    expect(roomiestBerth(hull, bed(90, 40), 0)).toBeNull();
  });
});
