import type { Contour } from '@underlap/geometry/curve';
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

  it('tell what a margin of 0 would do, as planned: whole, fewer pieces, more hidden, or nothing', async () => {
    const remarkOn = async (width: number, height: number, cover: readonly Contour[], limit: Partial<Limit>) => {
      const limits: Limit[] = [{ name: 'board', width: 300, height: 220, margin: 10, ...limit }];
      const task = { ...taskOf(shapeOf(rectangle(0, 0, width, height)), cover, [1, 1]), limits };
      const outcome = await planSeams(task, { seed: 1 });
      if (outcome.kind !== 'split') throw new Error(outcome.kind);
      const without = await planSeams(
        { ...task, limits: [{ name: 'board', width: 320, height: 240 }] },
        { seed: 1 },
        'quick',
      );
      const told = outcome.plans[0]!.remarks.find(({ code }) => code === 'limited-by-margin');
      return { told: told?.message ?? '', without };
    };
    const whole = await remarkOn(315, 200, [], {});
    expect(whole.without.kind).toBe('fits');
    expect(whole.told).toContain('With a margin of 0 it fits whole.');
    const fewer = await remarkOn(610, 190, [], {});
    const plan = fewer.without.kind === 'split' ? fewer.without.plans[0]! : null;
    expect(fewer.told).toContain(`With a margin of 0 it goes in ${plan?.pieces.length} pieces`);
    expect((await remarkOn(315, 200, [], { margin: 0 })).told).toBe('');
    expect((await remarkOn(400, 190, [], {})).told).toBe('');
  }, 60_000);
});
