import { unionRegions } from '@underlap/geometry/boolean';
import { offsetRegions } from '@underlap/geometry/offset';
import { isInRegion } from '@underlap/geometry/region';
import { expect, it } from 'vitest';
import { rectangle, shapeOf, taskOf } from '../testing/fixtures.ts';
import { planSeams } from './plan-seams.ts';
import { splicePlates } from './plates.ts';
import { seamSizes } from './sizes.ts';

it('puts a plate behind a seam that shows, inside the outline and within the bed', async () => {
  const task = taskOf(shapeOf(rectangle(0, 0, 300, 240)), [], [310, 180]);
  const outcome = await planSeams(task, { seed: 1 }, 'quick');
  if (outcome.kind !== 'split') throw new Error('the sample must be split');
  const [plan] = outcome.plans;
  expect(plan!.plates.length).toBeGreaterThan(0);
  for (const plate of plan!.plates) {
    for (let i = 0; i < plate.outer.length; i += 2) {
      expect(plate.outer[i]!).toBeGreaterThan(7.9);
      expect(plate.outer[i]!).toBeLessThan(292.1);
    }
  }
  const knob = plan!.seams[0]!.knobs[0]!;
  expect(plan!.plates.some((plate) => isInRegion(plate, knob.centre.x, knob.centre.y))).toBe(true);
});

it('makes no plate where there is no room for one', async () => {
  const task = taskOf(shapeOf(rectangle(0, 0, 300, 60)), [], [200, 200]);
  const outcome = await planSeams(task, { seed: 1 }, 'quick');
  if (outcome.kind !== 'split') throw new Error('the sample must be split');
  const narrow = taskOf(shapeOf(rectangle(0, 0, 300, 15)), [], [200, 200]);
  expect(splicePlates(narrow, outcome.plans[0]!.seams, seamSizes(6, 0.2))).toEqual([]);
  expect(unionRegions(offsetRegions([], 1, 0.01))).toEqual([]);
});
