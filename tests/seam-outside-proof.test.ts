import { transformShape } from '@underlap/geometry/contour';
import { placementMatrix } from '@underlap/geometry/matrix';
import { planSeams } from '@underlap/seam/plan-seams';
import type { SeamTask, SplitPlan } from '@underlap/seam/task';
import { beforeAll, describe, expect, it } from 'vitest';
import { proveOutside } from './support/outside-seam-proof.ts';
import { corpusTask } from './support/seam-corpus.ts';

/** Every check of the second proof is shown to fail on a plan that was spoilt on purpose. */
describe('proveOutside', () => {
  const task = corpusTask('door', '520x320');
  let plan: SplitPlan;

  beforeAll(async () => {
    const outcome = await planSeams(task, { seed: 1 });
    if (outcome.kind !== 'split') throw new Error('the door must be split');
    plan = outcome.plans[0]!;
  });

  const faultsOf = (spoilt: Partial<SplitPlan>, of: SeamTask = task) =>
    proveOutside(of, { ...plan, ...spoilt }).join('; ');

  it('accepts the plan as it is', () => {
    expect(faultsOf({})).toBe('');
  });

  it('sees a piece that is missing, moved, or too large', () => {
    const [first, ...rest] = plan.pieces;
    expect(faultsOf({ pieces: rest, seams: [] })).toContain('pieces make');
    const shifted = { ...first!, shape: transformShape(first!.shape, placementMatrix(0.1, 0.2, 0)) };
    expect(faultsOf({ pieces: [shifted, ...rest] })).toContain('overlap');
    expect(faultsOf({}, { ...task, limits: [{ name: 'bed', width: 380, height: 320 }] })).toContain('of a bed');
  });

  it('sees lengths that are not true', () => {
    const seams = (change: object) => ({ seams: plan.seams.map((seam) => ({ ...seam, ...change })) });
    expect(faultsOf(seams({ hiddenLengthMm: 400 }))).toContain('told as hidden');
    expect(faultsOf(seams({ heldLengthMm: 100 }))).toContain('told as held');
    expect(faultsOf(seams({ lengthMm: 100 }))).toContain('mm long');
    expect(faultsOf(seams({ ledLengthMm: 1 }))).toContain('told as along drawn lines');
    // Four tenths of a millimetre are seen, of some 600.
    const [seam] = plan.seams;
    expect(faultsOf(seams({ heldLengthMm: seam!.heldLengthMm - 0.4 }))).toContain('told as held');
  });

  it('sees a knob that does not lock', () => {
    // A knob told to stand where the seam is plain: nothing there keeps the sides together along it.
    const seams = plan.seams.map((seam) => {
      const { start } = seam.path;
      return { ...seam, knobs: [{ ...seam.knobs[0]!, centre: { x: start.x + 4, y: start.y } }] };
    });
    expect(faultsOf({ seams })).toContain('gives way');
  });
});
