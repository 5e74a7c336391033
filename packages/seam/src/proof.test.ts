import { transformShape } from '@underlap/geometry/contour';
import { placementMatrix } from '@underlap/geometry/matrix';
import { transformRegion } from '@underlap/geometry/transform-region';
import { beforeAll, describe, expect, it } from 'vitest';
import { polygon, rectangle, regionOf, shapeOf, slot, taskOf } from '../testing/fixtures.ts';
import { planSeams } from './plan-seams.ts';
import { provePlan } from './proof.ts';
import type { SeamViolation } from './seam-violation.ts';
import type { SeamTask, SplitPiece, SplitPlan } from './task.ts';

/** Every check is shown to fail on a plan that was spoilt on purpose. */
describe('provePlan', () => {
  const part = shapeOf(rectangle(0, 0, 300, 240), [slot(150, 40, 30, 8)]);
  const task = taskOf(part, [rectangle(-10, 90, 320, 60)], [310, 180]);
  let plan: SplitPlan;

  beforeAll(async () => {
    const outcome = await planSeams(task, { seed: 1 }, 'quick');
    if (outcome.kind !== 'split') throw new Error('the sample must be split');
    plan = outcome.plans[0]!;
  });

  const codes = (violations: readonly SeamViolation[]) => violations.map((violation) => violation.code);
  const withPiece = (change: (piece: SplitPiece) => Partial<SplitPiece>): SplitPlan => {
    const [first, ...rest] = plan.pieces;
    return { ...plan, pieces: [{ ...first!, ...change(first!) }, ...rest] };
  };

  it('accepts the plan as it is', () => {
    expect(provePlan(task, plan, 'full')).toEqual([]);
  });

  it('sees wood lost or made', () => {
    const grown = placementMatrix(0, 0, 0);
    const scale = { ...grown, a: 1 + 1e-8, d: 1 };
    expect(
      codes(
        provePlan(
          task,
          withPiece((piece) => ({ shape: transformShape(piece.shape, scale) })),
        ),
      ),
    ).toContain('area');
  });

  it('sees pieces that overlap', () => {
    const shift = placementMatrix(0, 0.1, 0);
    const shifted = withPiece((piece) => ({ region: transformRegion(piece.region, shift) }));
    expect(codes(provePlan(task, shifted))).toContain('overlap');
  });

  it('sees a piece in two parts, or crossing itself', () => {
    const bow = { outer: Float64Array.of(0, 0, 40, 40, 40, 0, 0, 60), holes: [] };
    const found = codes(
      provePlan(
        task,
        withPiece(() => ({ region: bow })),
      ),
    );
    expect(found.includes('parts') || found.includes('self-crossing')).toBe(true);
  });

  it('sees a piece that leaves its bed', () => {
    const turned = withPiece(() => ({ limitTurnDeg: { bed: 45, board: 0 } }));
    expect(codes(provePlan(task, turned))).toContain('fit');
    const kerf: SeamTask = { ...task, kerf: 20 };
    expect(codes(provePlan(kerf, plan))).toContain('fit');
  });

  it('sees a neck that is too narrow for the stock', () => {
    expect(codes(provePlan({ ...task, thickness: 12 }, plan, 'full'))).toContain('neck');
  });

  it('sees a seam that does not lock', async () => {
    const stepped = await planSeams({ ...task, wishes: { ...task.wishes, knob: 'step' } }, { seed: 1 }, 'quick');
    if (stepped.kind !== 'split') throw new Error('the sample must be split');
    const lie = stepped.plans[0]!;
    const seams = lie.seams.map((seam) => ({
      ...seam,
      knobs: seam.knobs.map((knob) => ({ ...knob, kind: 'round' as const, head: knob.neck + 3 })),
    }));
    expect(codes(provePlan(task, { ...lie, seams }, 'full'))).toContain('lock');
  });

  it('sees a long seam without a knob, unless the plan says so', () => {
    const seams = plan.seams.map((seam) => ({ ...seam, knobs: [] }));
    expect(codes(provePlan(task, { ...plan, seams }))).toContain('no-knob');
    const said = { code: 'no-knob', message: `Seam ${seams[0]!.id} is plain`, at: null };
    expect(codes(provePlan(task, { ...plan, seams, remarks: [said] }))).not.toContain('no-knob');
  });

  it('sees a seam in a keep-out, near a hole, and near the outline', () => {
    const knob = plan.seams[0]!.knobs[0]!;
    const zone = regionOf(rectangle(knob.centre.x - 2, knob.centre.y - 2, 20, 20));
    expect(codes(provePlan({ ...task, keepOuts: [zone] }, plan))).toContain('keep-out');
    const hole = slot(knob.centre.x, knob.centre.y + 14, 20, 8);
    const bored = shapeOf(rectangle(0, 0, 300, 240), [hole]);
    expect(codes(provePlan({ ...taskOf(bored, [], [310, 180]), cover: task.cover }, plan))).toContain('keep-out');
    const narrow = regionOf(rectangle(0, 0, 300, knob.centre.y + 4));
    expect(codes(provePlan({ ...task, region: narrow }, plan))).toContain('keep-out');
  });

  it('sees a hidden length that is not true', () => {
    const seams = plan.seams.map((seam) => ({ ...seam, hiddenLengthMm: seam.hiddenLengthMm - 1 }));
    expect(codes(provePlan(task, { ...plan, seams }))).toContain('visible');
    expect(codes(provePlan({ ...task, cover: [] }, plan))).toContain('visible');
  });

  it('sees a sharp corner, a sliver, and ends too close together', () => {
    const wedge = polygon([
      { x: 0, y: 0 },
      { x: 100, y: 0 },
      { x: 100, y: 40 },
    ]);
    const sharp: Partial<SplitPiece> = {
      shape: shapeOf(wedge),
      region: regionOf(wedge),
      edges: [['seam', null, null]],
    };
    expect(
      codes(
        provePlan(
          task,
          withPiece(() => sharp),
        ),
      ),
    ).toContain('angle');
    const spike = polygon([
      { x: 0, y: 0 },
      { x: 60, y: 0 },
      { x: 60, y: 28 },
      { x: 120, y: 29 },
      { x: 60, y: 30 },
      { x: 60, y: 60 },
      { x: 0, y: 60 },
    ]);
    const thin: Partial<SplitPiece> = {
      shape: shapeOf(spike),
      region: regionOf(spike),
      edges: [['a', null, null, null, null, null, null]],
    };
    expect(
      codes(
        provePlan(
          task,
          withPiece(() => thin),
          'full',
        ),
      ),
    ).toContain('sliver');
    const [seam] = plan.seams;
    const near = {
      ...seam!,
      id: 'near',
      path: { ...seam!.path, start: { x: seam!.path.start.x, y: seam!.path.start.y + 3 } },
    };
    expect(codes(provePlan(task, { ...plan, seams: [seam!, near] }))).toContain('junction');
  });
});
