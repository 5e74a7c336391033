import { flattenContour } from '@underlap/geometry/flatten';
import type { Ring } from '@underlap/geometry/ring';
import { describe, expect, it } from 'vitest';
import { circle, rectangle, shapeOf, taskOf } from '../testing/fixtures.ts';
import { leadLines, linesToAvoid } from './lead-lines.ts';
import { planSeams } from './plan-seams.ts';
import { provePlan } from './proof.ts';
import type { SeamTask, SplitPlan } from './task.ts';

const line = (...points: number[]): Ring => Float64Array.from(points);

/** Planks along x, 60 high, scored to within 3 mm of the edges; the bed holds no more than 200 of the 360 mm. */
const PLANKS = [60, 123, 180, 241, 300].map((y) => line(3, y, 397, y));

function planks(alongLines: 'long' | 'all' | 'none'): SeamTask {
  const task = taskOf(shapeOf(rectangle(0, 0, 400, 360)), [], [420, 260], { marks: PLANKS });
  return { ...task, wishes: { ...task.wishes, alongLines } };
}

async function bestPlan(task: SeamTask): Promise<SplitPlan> {
  const outcome = await planSeams(task, { seed: 1 });
  if (outcome.kind !== 'split') throw new Error(outcome.kind);
  expect(provePlan(task, outcome.plans[0]!, 'full')).toEqual([]);
  return outcome.plans[0]!;
}

describe('drawn lines', () => {
  it('lead the seam of a plank sign: all but its knobs lies on one, to a tenth of a millimetre', async () => {
    const plan = await bestPlan(planks('long'));
    expect(plan.pieces).toHaveLength(2);
    const [seam] = plan.seams;
    const spine = flattenContour(seam!.spine, 0.01);
    const ys = Array.from({ length: spine.length / 2 }, (_, k) => spine[2 * k + 1]!);
    const nearest = Math.min(...PLANKS.map((mark) => Math.max(...ys.map((y) => Math.abs(y - mark[1]!)))));
    expect(nearest).toBeLessThan(0.1);
    // What is told as led is what was measured: the path less its knobs.
    const knobs = seam!.knobs.reduce((sum, knob) => sum + knob.neck, 0);
    expect(seam!.knobs.length).toBeGreaterThan(3);
    expect(plan.ledLengthMm).toBeGreaterThan(400 - 2.5 * knobs - 5);
    expect(plan.ledLengthMm).toBeLessThan(400 - 0.9 * knobs);
    expect(plan.visibleLengthMm).toBeCloseTo(seam!.lengthMm, 6);
  }, 60_000);

  it('lead nothing where that is not wished: the seam keeps away from them', async () => {
    const plan = await bestPlan(planks('none'));
    expect(plan.ledLengthMm).toBe(0);
  }, 60_000);

  it('are long straight runs unless all are wished', () => {
    const wave = flattenContour(circle(0, 0, 50), 0.05);
    const bent = line(0, 0, 80, 0, 80, 30);
    const task = { marks: [wave, bent, line(0, 0, 40, 0)], wishes: planks('long').wishes, avoid: [line(1, 1, 2, 2)] };
    expect(leadLines(task)).toEqual([line(0, 0, 80, 0)]);
    // What does not lead as a whole is kept away from, like the seams of the layer below.
    expect(linesToAvoid(task)).toHaveLength(4);
    const all = { ...task, wishes: planks('all').wishes };
    expect(leadLines(all)).toHaveLength(3);
    expect(linesToAvoid(all)).toHaveLength(1);
    expect(leadLines({ ...task, wishes: planks('none').wishes })).toEqual([]);
  });
});
