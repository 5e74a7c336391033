import { expect, it } from 'vitest';
import { rectangle, shapeOf, taskOf } from '../testing/fixtures.ts';
import type { CutEnd } from './arrangement.ts';
import { chipsIn, withoutNeedlessCuts } from './mend.ts';
import type { CutPlan, PlannedCut, SearchGround } from './search-ground.ts';
import { spineOf } from './spine.ts';

it('calls a piece a chip when it is far below an even share', () => {
  expect(chipsIn([100, 100, 100])).toBe(0);
  expect(chipsIn([100, 100, 10])).toBe(1);
});

it('drops the cuts that nothing needs, and only those', () => {
  const task = taskOf(shapeOf(rectangle(0, 0, 400, 100)), [], [210, 150]);
  const edge = (segment: number, u: number): CutEnd => ({ kind: 'outline', contour: 0, segment, u });
  // Straight down at x: the upper side is segment 0, the lower one segment 2, which runs back.
  const down = (x: number): PlannedCut => ({
    spine: spineOf({ x, y: 0 }, [{ kind: 'line', to: { x, y: 100 } }]),
    from: edge(0, x / 400),
    to: edge(2, 1 - x / 400),
  });
  const ground = { task, shape: task.shape } as SearchGround;
  const plan: CutPlan = { cuts: [down(200), down(20), down(380)], pieces: 4, cost: 1, bareMm: 0 };
  const mended = withoutNeedlessCuts(ground, plan);
  expect(mended.pieces).toBe(2);
  expect(mended.cuts.map(({ spine }) => spine.start.x)).toEqual([200]);
});
