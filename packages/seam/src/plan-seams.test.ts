import { shapeArea } from '@underlap/geometry/contour';
import { describe, expect, it } from 'vitest';
import { circle, rectangle, regionOf, shapeOf, slot, taskOf } from '../testing/fixtures.ts';
import { planSeams } from './plan-seams.ts';
import { provePlan } from './proof.ts';
import type { SeamOutcome, SeamTask, SplitPlan } from './task.ts';

const context = { seed: 1 };
const backer = shapeOf(rectangle(0, 0, 480, 410), [slot(200, 30, 30, 9), slot(280, 30, 30, 9)]);
const banner = rectangle(-10, 170, 500, 60);

function plansOf(outcome: SeamOutcome): readonly SplitPlan[] {
  if (outcome.kind !== 'split') throw new Error(`expected a split, got ${outcome.kind}`);
  return outcome.plans;
}

const wish = (more: Partial<SeamTask['wishes']>): Partial<SeamTask> => ({
  wishes: { prefer: 'fewest', morePieces: 0, pins: [], forbidden: [], knob: 'auto', ...more },
});

describe('planSeams', () => {
  it('leaves a part alone that fits under some turn', async () => {
    const outcome = await planSeams(taskOf(backer, [], [410.2, 480.2]), context);
    expect(outcome).toEqual({ kind: 'fits', limitTurnDeg: { bed: 90, board: 0 } });
  });

  it('splits a backer in two below its banner, fully hidden and locked', async () => {
    const task = taskOf(backer, [banner], [520, 320]);
    const outcome = await planSeams(task, context);
    const [plan] = plansOf(outcome);
    expect(plan!.pieces).toHaveLength(2);
    expect(plan!.visibleLengthMm).toBe(0);
    expect(plan!.seams[0]!.hiddenLengthMm).toBeCloseTo(plan!.seams[0]!.lengthMm, 9);
    expect(plan!.seams[0]!.knobs.length).toBeGreaterThanOrEqual(6);
    expect(plan!.leastNeckMm).toBeGreaterThanOrEqual(6);
    expect(outcome).toMatchObject({ piecesLowerBound: 2 });
    expect(plan!.provenFewest).toBe(true);
    expect(provePlan(task, plan!, 'full')).toEqual([]);
    const sum = plan!.pieces.reduce((total, piece) => total + shapeArea(piece.shape), 0);
    expect(Math.abs(sum / shapeArea(backer) - 1)).toBeLessThan(1e-12);
  });

  it('gives both sides of a seam the same lines and arcs', async () => {
    const task = taskOf(backer, [banner], [520, 320]);
    const [plan] = plansOf(await planSeams(task, context));
    const [a, b] = plan!.pieces.map((piece) =>
      piece.shape.outer.segments.filter((_, index) => piece.edges[0]![index] !== null),
    );
    expect(a!.map((segment) => segment.kind)).toEqual(b!.map((segment) => segment.kind).reverse());
    const arcs = (list: typeof a) => list!.flatMap((segment) => (segment.kind === 'arc' ? [segment] : []));
    const mirrored = arcs(b).reverse();
    arcs(a).forEach((arc, index) => {
      expect(arc.centre).toEqual(mirrored[index]!.centre);
      expect(arc.radius).toBe(mirrored[index]!.radius);
      expect(arc.sweep).toBe(-mirrored[index]!.sweep);
    });
  });

  it('is the same for the same task', async () => {
    const task = taskOf(backer, [banner], [520, 320]);
    const [first, second] = [await planSeams(task, context), await planSeams(task, { seed: 2 })];
    expect(plansOf(second)[0]!.seams).toEqual(plansOf(first)[0]!.seams);
  });

  it('keeps out of a forbidden zone and passes a pin', async () => {
    const forbidden = [regionOf(rectangle(190, 160, 60, 80))];
    const barred = taskOf(backer, [banner], [520, 320], wish({ forbidden }));
    const [around] = plansOf(await planSeams(barred, context));
    expect(provePlan(barred, around!)).toEqual([]);

    const pinned = taskOf(backer, [], [520, 320], wish({ pins: [{ x: 240, y: 150 }] }));
    const [through] = plansOf(await planSeams(pinned, context));
    expect(through!.remarks.map((remark) => remark.code)).not.toContain('pin-missed');
  });

  it('cuts one piece more when asked to', async () => {
    const task = taskOf(backer, [banner], [520, 320], wish({ morePieces: 1 }));
    const [plan] = plansOf(await planSeams(task, context));
    expect(plan!.pieces).toHaveLength(3);
    expect(provePlan(task, plan!)).toEqual([]);
  });

  it('lets material pass through', async () => {
    const limits = [{ name: 'bed' as const, width: Number.POSITIVE_INFINITY, height: 200 }];
    const task = taskOf(shapeOf(rectangle(0, 0, 900, 300)), [], [1, 1], { limits });
    const [plan] = plansOf(await planSeams(task, context));
    expect(plan!.pieces).toHaveLength(2);
    expect(provePlan(task, plan!)).toEqual([]);
  });

  it('hides lower knobs below a thin cover, and thick and thin stock alike', async () => {
    for (const [thickness, height] of [
      [3, 30],
      [6, 22],
      [12, 60],
    ] as const) {
      const task = taskOf(backer, [rectangle(-10, 200 - height / 2, 500, height)], [520, 320], { thickness });
      const [plan] = plansOf(await planSeams(task, context));
      expect(plan!.visibleLengthMm).toBe(0);
      expect(plan!.seams[0]!.knobs.some((knob) => knob.kind !== 'step')).toBe(true);
      expect(plan!.leastNeckMm).toBeGreaterThanOrEqual(thickness);
    }
  });

  it('says that no lock is possible, that the bed is too small, that slots block the way', async () => {
    const loose = await planSeams(taskOf(backer, [banner], [520, 320], { fit: 2 }), context);
    expect(loose).toMatchObject({ kind: 'cannot', why: { code: 'no-lock' } });
    const tiny = await planSeams(taskOf(backer, [banner], [30, 30]), context);
    expect(tiny).toMatchObject({ kind: 'cannot', why: { code: 'bed-too-small' } });
    const sieve = shapeOf(
      rectangle(0, 0, 300, 60),
      Array.from({ length: 15 }, (_, k) => slot(24 + 18 * k, 30, 50, 9, Math.PI / 2)),
    );
    const blocked = await planSeams(taskOf(sieve, [], [210, 210]), context);
    expect(blocked).toMatchObject({ kind: 'cannot', why: { code: 'blocked' } });
  });

  it('cuts a ring through its opening, and says so', async () => {
    const task = taskOf(shapeOf(circle(0, 0, 203), [circle(0, 0, 160)]), [], [300, 300]);
    const [plan] = plansOf(await planSeams(task, context));
    expect(plan!.remarks.map((remark) => remark.code)).toContain('through-opening');
    expect(plan!.seams.every((seam) => seam.knobs.length > 0)).toBe(true);
    expect(provePlan(task, plan!)).toEqual([]);
  });

  it('refuses numbers that make no sense', async () => {
    await expect(planSeams(taskOf(backer, [], [520, 320], { thickness: 0 }), context)).rejects.toMatchObject({
      code: 'bad-task',
    });
    await expect(planSeams(taskOf(backer, [], [Number.NaN, 320]), context)).rejects.toMatchObject({ code: 'bad-task' });
  });

  it('stops when told to, and its progress never goes back', async () => {
    const stop = new AbortController();
    stop.abort();
    const task = taskOf(shapeOf(circle(0, 0, 203)), [], [520, 320]);
    await expect(planSeams(task, { seed: 1, signal: stop.signal })).rejects.toMatchObject({ code: 'cancelled' });
    const seen: number[] = [];
    await planSeams(task, { seed: 1, onProgress: ({ done }) => seen.push(done) });
    expect(seen).toEqual([...seen].sort((a, b) => a - b));
    expect(seen.at(-1)).toBe(1);
  });

  it('stops half way, too', async () => {
    const stop = new AbortController();
    const run = planSeams(taskOf(shapeOf(rectangle(0, 0, 900, 600)), [], [300, 200]), { seed: 1, signal: stop.signal });
    setTimeout(() => stop.abort(), 100);
    await expect(run).rejects.toMatchObject({ code: 'cancelled' });
  });
});
