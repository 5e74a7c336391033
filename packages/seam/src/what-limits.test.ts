import { describe, expect, it } from 'vitest';
import { rectangle, shapeOf, taskOf } from '../testing/fixtures.ts';
import { planSeams } from './plan-seams.ts';
import type { Limit } from './task.ts';
import { whatLimits } from './what-limits.ts';

describe('whatLimits', () => {
  const part = shapeOf(rectangle(0, 0, 480, 300));
  const codeFor = (limits: readonly Limit[]) => whatLimits({ ...taskOf(part, [], [1, 1]), limits })?.code;
  const bed: Limit = { name: 'bed', width: 500, height: 320 };
  const board: Limit = { name: 'board', width: 500, height: 320 };

  it('names the bed or the board, whichever has to give way', () => {
    expect(codeFor([{ ...bed, width: 400 }, board])).toBe('limited-by-bed');
    expect(codeFor([bed, { ...board, width: 400 }])).toBe('limited-by-board');
    expect(codeFor([{ ...bed, width: 400 }])).toBe('limited-by-bed');
  });

  it('names the margin where the part would do without it', () => {
    expect(codeFor([bed, { ...board, width: 476, margin: 10 }])).toBe('limited-by-margin');
    expect(codeFor([bed, { ...board, width: 400, margin: 10 }])).toBe('limited-by-board');
  });

  it('says nothing where bed and board limit alike', () => {
    const narrow = { width: 400, height: 320 };
    expect(
      codeFor([
        { name: 'bed', ...narrow },
        { name: 'board', ...narrow },
      ]),
    ).toBeUndefined();
  });
});

describe('remarks of a plan', () => {
  it('tell what limits, and every weak joint with its place', async () => {
    const task = taskOf(shapeOf(rectangle(0, 0, 300, 48)), [], [200, 200]);
    const outcome = await planSeams(task, { seed: 1 });
    if (outcome.kind !== 'split') throw new Error(`expected a split, got ${outcome.kind}`);
    const [plan] = outcome.plans;
    const codes = plan!.remarks.map(({ code }) => code);
    expect(codes).toContain('limited-by-bed');
    expect(plan!.seams[0]!.knobs).toHaveLength(1);
    const weak = plan!.remarks.find(({ code }) => code === 'one-knob');
    expect(weak?.at).toEqual(plan!.seams[0]!.knobs[0]!.centre);
  });
});
