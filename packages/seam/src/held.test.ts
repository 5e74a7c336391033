import type { Contour } from '@underlap/geometry/curve';
import { describe, expect, it } from 'vitest';
import { rectangle, regionOf, shapeOf, taskOf } from '../testing/fixtures.ts';
import { HeldMeasure } from './held.ts';
import { planSeams } from './plan-seams.ts';
import { provePlan } from './proof.ts';
import type { GlueFace } from './task.ts';
import { stretchesLength } from './visible.ts';

const face = (partId: string, contour: Contour): GlueFace => ({ partId, region: regionOf(contour) });
const line = (x0: number, y0: number, x1: number, y1: number): Contour => ({
  start: { x: x0, y: y0 },
  segments: [{ kind: 'line', to: { x: x1, y: y1 } }],
  closed: false,
});

describe('HeldMeasure', () => {
  const part = regionOf(rectangle(0, 0, 300, 240));
  const heldOf = (glue: readonly GlueFace[], path: Contour, landing = 3) =>
    new HeldMeasure({ region: part, glue, landing }).stretches(path);

  it('counts what lies the landing deep in one face, and nothing without glue', () => {
    expect(heldOf([], line(0, 100, 300, 100))).toEqual([]);
    const stretches = heldOf([face('boat', rectangle(50, 60, 100, 80))], line(0, 100, 300, 100));
    expect(stretches).toHaveLength(1);
    expect(stretches[0]![0]).toBeCloseTo(53, 6);
    expect(stretches[0]![1]).toBeCloseTo(147, 6);
  });

  it('asks for the landing on both sides of the seam', () => {
    const glue = [face('boat', rectangle(50, 60, 100, 80))];
    expect(stretchesLength(heldOf(glue, line(0, 62.9, 300, 62.9)))).toBe(0);
    expect(stretchesLength(heldOf(glue, line(0, 63.1, 300, 63.1)))).toBeCloseTo(94, 3);
  });

  it('loses nothing at the edge of the part: there is no wood beyond it', () => {
    const glue = [face('banner', rectangle(0, 80, 300, 40))];
    expect(stretchesLength(heldOf(glue, line(0, 100, 300, 100)))).toBeCloseTo(300, 3);
  });

  it('does not let two neighbours bridge a seam between them', () => {
    const left = rectangle(0, 0, 150, 240);
    const right = rectangle(150, 0, 150, 240);
    const between = line(150, 0, 150, 240);
    expect(heldOf([face('left', left), face('right', right)], between)).toEqual([]);
    // Across the two, only the landing on either side of the joint is lost.
    const across = stretchesLength(heldOf([face('left', left), face('right', right)], line(0, 100, 300, 100)));
    expect(across).toBeCloseTo(294, 3);
    expect(stretchesLength(heldOf([face('both', rectangle(0, 0, 300, 240))], between))).toBeCloseTo(240, 3);
  });
});

describe('plans', () => {
  const backer = shapeOf(rectangle(0, 0, 480, 410));
  const banners = [rectangle(-10, 130, 500, 60), rectangle(-10, 220, 500, 60)];

  it('runs below the part that holds, of two that hide alike', async () => {
    for (const [glued, y] of [
      [rectangle(0, 130, 480, 60), 160],
      [rectangle(0, 220, 480, 60), 250],
    ] as const) {
      const task = { ...taskOf(backer, banners, [520, 320]), glue: [face('banner', glued)] };
      const outcome = await planSeams(task, { seed: 1 });
      if (outcome.kind !== 'split') throw new Error('the sample must be split');
      const [plan] = outcome.plans;
      expect(plan!.visibleLengthMm).toBe(0);
      expect(plan!.hiddenLengthMm).toBeCloseTo(plan!.seams[0]!.lengthMm, 6);
      expect(Math.abs(plan!.seams[0]!.path.start.y - y)).toBeLessThan(30);
      expect(plan!.heldLengthMm).toBeGreaterThan(0.95 * plan!.hiddenLengthMm);
      expect(provePlan(task, plan!)).toEqual([]);
      const seams = plan!.seams.map((seam) => ({ ...seam, heldLengthMm: seam.heldLengthMm - 5 }));
      expect(provePlan(task, { ...plan!, seams }).map(({ code }) => code)).toContain('held');
    }
  });
});
