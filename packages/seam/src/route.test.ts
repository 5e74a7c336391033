import type { Contour } from '@underlap/geometry/curve';
import { describe, expect, it } from 'vitest';
import { rectangle, regionOf, shapeOf, taskOf } from '../testing/fixtures.ts';
import { arrange, type Face } from './arrangement.ts';
import { faceFields, facePlace, partFields, seamGround } from './fields.ts';
import { type Halves, halfPlane } from './halves.ts';
import { cheapestRoute, type Route, routeVia } from './route.ts';
import { seamSizes } from './sizes.ts';
import { smoothRoute } from './smooth.ts';
import { spineSamples } from './spine.ts';
import type { SeamTask } from './task.ts';
import { outlineSamples, type Terminal, terminalsOf } from './terminals.ts';

const SIZES = seamSizes(6, 0.2);
const EDGE_CLEAR = 8;

/** A plank of 400 x 200 whose seam runs from its upper to its lower side, between x = 120 and 280. */
function plank(cover: readonly Contour[], more: Partial<SeamTask> = {}) {
  const task = taskOf(shapeOf(rectangle(0, 0, 400, 200)), cover, [500, 300], more);
  const [face] = arrange(task.shape, []) as [Face];
  const fields = faceFields(facePlace(partFields(seamGround(task), SIZES, 2), face), SIZES, EDGE_CLEAR);
  const samples = outlineSamples(face, task.shape, [], [], SIZES.junctionClear);
  const ends = terminalsOf(samples, fields, SIZES, EDGE_CLEAR, false);
  const halves: Halves = { a: halfPlane(1, 0, 280), b: halfPlane(-1, 0, -120), pieces: 2, inset: 1 };
  const within = (list: readonly Terminal[]) => list.filter(({ x }) => x > 121 && x < 279);
  const upper = within(ends.filter(({ ny }) => ny > 0.9));
  const lower = within(ends.filter(({ ny }) => ny < -0.9));
  return { fields, halves, ends, upper, lower };
}

const pointsOf = (route: Route | null) => route!.legs.flatMap((leg) => leg.points);

describe('where a seam may end', () => {
  it('square to the outline, away from its corners, every few millimetres', () => {
    const { ends, upper, lower } = plank([]);
    expect(upper.length).toBeGreaterThan(25);
    expect(lower.length).toBeGreaterThan(25);
    for (const { x, y, nx, ny } of ends) {
      expect(Math.hypot(nx, ny)).toBeCloseTo(1, 9);
      const corner = Math.min(...[0, 400].flatMap((cx) => [0, 200].map((cy) => Math.hypot(x - cx, y - cy))));
      expect(corner).toBeGreaterThan(5);
    }
  });
});

describe('ways through a face', () => {
  it('follow the cover, and cross what shows where it is narrowest', () => {
    // A bent cover: from the upper side at x = 150 over the middle to the lower side at x = 250.
    const cover = [rectangle(130, -10, 40, 130), rectangle(130, 80, 140, 40), rectangle(230, 80, 40, 130)];
    const { fields, halves, upper, lower } = plank(cover);
    const route = cheapestRoute(fields, halves, 1, upper, lower);
    expect(route!.legs).toHaveLength(1);
    for (const { x, y } of pointsOf(route)) {
      const isCovered = cover.some(({ start }, k) => {
        const [w, h] = [
          [40, 130],
          [140, 40],
          [40, 130],
        ][k]!;
        return x >= start.x - 0.5 && x <= start.x + w! + 0.5 && y >= start.y - 0.5 && y <= start.y + h! + 0.5;
      });
      expect(isCovered, `${x} ${y}`).toBe(true);
    }
    const smooth = smoothRoute(fields, halves, route!.legs[0]!, 1, SIZES)!;
    const samples = spineSamples(smooth.spine, 1);
    const shown = Array.from({ length: samples.length / 3 }, (_, k) => [
      samples[3 * k + 1]!,
      samples[3 * k + 2]!,
    ]).filter(([x, y]) => (y! < 80 && (x! < 130 || x! > 170)) || (y! > 120 && (x! < 230 || x! > 270)));
    expect(shown).toEqual([]);
  });

  it('stay within both halves, and are not found where a wall stands right across', () => {
    const { fields, halves, upper, lower } = plank([]);
    for (const { x } of pointsOf(cheapestRoute(fields, halves, 1, upper, lower))) {
      expect(x).toBeGreaterThanOrEqual(121 - 1e-9);
      expect(x).toBeLessThanOrEqual(279 + 1e-9);
    }
    const walled = plank([], { keepOuts: [regionOf(rectangle(110, 95, 180, 10))] });
    expect(cheapestRoute(walled.fields, walled.halves, 1, walled.upper, walled.lower)).toBeNull();
    expect(cheapestRoute(fields, halves, 1, upper, lower, { limit: 1 })).toBeNull();
  });

  it('pass a point they are pinned to', () => {
    const { fields, halves, upper, lower } = plank([]);
    const pin = { x: 260, y: 100 };
    const route = routeVia(fields, halves, 1, upper, lower, pin)!;
    expect(Math.min(...pointsOf(route).map(({ x, y }) => Math.hypot(x - pin.x, y - pin.y)))).toBeLessThan(3);
    const smooth = smoothRoute(fields, halves, route.legs[0]!, 1, SIZES, [], pin)!;
    const samples = spineSamples(smooth.spine, 1);
    let near = Infinity;
    for (let k = 0; k < samples.length; k += 3)
      near = Math.min(near, Math.hypot(samples[k + 1]! - 260, samples[k + 2]! - 100));
    expect(near).toBeLessThan(4.1);
  });
});
