import { describe, expect, it } from 'vitest';
import { circle, rectangle, shapeOf, taskOf } from '../testing/fixtures.ts';
import { planSeams } from './plan-seams.ts';
import { provePlan } from './proof.ts';
import type { SeamTask } from './task.ts';

const least = (task: SeamTask, leastPieces: number): SeamTask => ({ ...task, wishes: { ...task.wishes, leastPieces } });

describe('parts cut on demand', () => {
  const hoop = taskOf(shapeOf(circle(0, 0, 203), [circle(0, 0, 160)]), [], [500, 500]);

  it('cuts a hoop that fits in halves, thirds and quarters of much the same size', async () => {
    expect((await planSeams(hoop, { seed: 1 })).kind).toBe('fits');
    expect((await planSeams(least(hoop, 1), { seed: 1 })).kind).toBe('fits');
    for (const pieces of [2, 3, 4]) {
      const task = least(hoop, pieces);
      const outcome = await planSeams(task, { seed: 1 });
      if (outcome.kind !== 'split') throw new Error(`expected a split in ${pieces}, got ${outcome.kind}`);
      const [plan] = outcome.plans;
      expect(plan!.pieces).toHaveLength(pieces);
      expect(plan!.balance).toBeGreaterThan(0.6);
      expect(outcome.piecesLowerBound).toBe(1);
      expect(plan!.provenFewest).toBe(false);
      expect(provePlan(task, plan!, 'full')).toEqual([]);
    }
  });

  it('adds what is missing where fewer pieces would do', async () => {
    const board = taskOf(shapeOf(rectangle(0, 0, 480, 410)), [rectangle(-10, 170, 500, 60)], [520, 320]);
    const outcome = await planSeams(least(board, 4), { seed: 1 });
    if (outcome.kind !== 'split') throw new Error(`expected a split, got ${outcome.kind}`);
    expect(outcome.plans[0]!.pieces).toHaveLength(4);
    expect(outcome.plans[0]!.provenFewest).toBe(false);
    const codes = outcome.plans[0]!.remarks.map(({ code }) => code);
    expect(codes).not.toContain('not-proven');
  });

  it('leaves a part whole that no seam can part', async () => {
    const strip = taskOf(shapeOf(rectangle(0, 0, 40, 9)), [], [500, 500]);
    expect((await planSeams(least(strip, 3), { seed: 1 })).kind).toBe('fits');
  });
});
