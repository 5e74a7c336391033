import type { Contour } from '@underlap/geometry/curve';
import { describe, expect, it } from 'vitest';
import { circle, rectangle, regionOf, shapeOf, taskOf } from '../testing/fixtures.ts';
import { arrange } from './arrangement.ts';
import { faceFields, facePlace, partFields, seamGround } from './fields.ts';
import { cellAt, sampleField } from './grid.ts';
import { seamSizes } from './sizes.ts';
import type { SeamTask } from './task.ts';

const SIZES = seamSizes(6, 0.2);
const BANNER = rectangle(-10, 80, 420, 40);

function costsOf(cover: readonly Contour[], more: Partial<SeamTask> = {}, holes: readonly Contour[] = []) {
  const task = taskOf(shapeOf(rectangle(0, 0, 400, 200), holes), cover, [500, 300], more);
  const ground = seamGround(task);
  const fields = partFields(ground, SIZES, 2);
  return { ground, at: (x: number, y: number) => fields.cost[cellAt(fields.grid, x, y)]!, fields, task };
}

describe('what a seam costs', () => {
  it('little below the cover, twenty times as much where it shows', () => {
    const { at } = costsOf([BANNER], { landing: 4 });
    expect(at(200, 100)).toBeLessThan(3);
    expect(at(200, 40)).toBe(20);
    // Covered, but nearer to the cover's edge than the landing.
    expect(at(200, 82)).toBe(12);
  });

  it('more where nothing glued holds it, though it is hidden', () => {
    const glue = [{ partId: 'banner', region: regionOf(rectangle(0, 80, 200, 40)) }];
    const { at } = costsOf([BANNER], { glue });
    expect(at(300, 100) - at(100, 100)).toBeCloseTo(1, 5);
  });

  it('is barred at small holes and in zones where no seam may run, and dearer beside marks', () => {
    const plain = costsOf([BANNER]);
    const { at, ground } = costsOf(
      [BANNER],
      { keepOuts: [regionOf(rectangle(300, 85, 20, 30))], avoid: [Float64Array.of(200, 60, 200, 140)] },
      [circle(100, 100, 4), circle(40, 150, 25)],
    );
    expect(at(100, 100)).toBe(Infinity);
    expect(at(310, 100)).toBe(Infinity);
    expect(at(200, 100)).toBeGreaterThan(2 * plain.at(200, 100));
    // The large hole is a place to end on, no obstacle.
    expect(ground.openings).toHaveLength(1);
    expect(ground.part.holes).toHaveLength(2);
  });

  it('takes a cover flush with the edge for whole', () => {
    const { ground } = costsOf([rectangle(0.02, 0.02, 399.96, 199.96)]);
    expect(ground.bare).toEqual([]);
  });

  it('on a face: no way outside, and none along its edge', () => {
    const { fields, task } = costsOf([BANNER]);
    const [face] = arrange(task.shape, []);
    const own = faceFields(facePlace(fields, face!), SIZES, 8);
    const cost = (x: number, y: number) => own.cost[cellAt(own.grid, x, y)]!;
    expect(cost(200, 4)).toBe(Infinity);
    expect(cost(200, -2)).toBe(Infinity);
    expect(cost(200, 100)).toBeCloseTo(fields.cost[cellAt(fields.grid, 200, 100)]!, 5);
    expect(sampleField(own.grid, own.edge, 200, 30)).toBeCloseTo(30, 1);
  });
});
