import type { Contour, Shape } from '@underlap/geometry/curve';
import { shapeToRegion } from '@underlap/geometry/flatten';
import { describe, expect, it } from 'vitest';
import { polygon, rectangle, shapeOf, taskOf } from '../testing/fixtures.ts';
import { proveLock, proveNeck, proveSlivers } from './proof-strength.ts';
import type { Knob, Seam, SplitPiece, SplitPlan } from './task.ts';

const WHOLE = shapeOf(rectangle(0, 0, 300, 200));
const TASK = taskOf(WHOLE, [], [310, 210]);

function pieceOf(id: string, outer: Contour): SplitPiece {
  const shape: Shape = shapeOf(outer);
  return { id, shape, region: shapeToRegion(shape, 0.01), limitTurnDeg: { bed: 0, board: 0 }, edges: [] };
}

/** Two halves joined by a bridge of a given width. */
function dumbbell(width: number): Contour {
  const [low, high] = [50 - width / 2, 50 + width / 2];
  return polygon(
    [
      [0, 0],
      [100, 0],
      [100, low],
      [120, low],
      [120, 0],
      [220, 0],
      [220, 100],
      [120, 100],
      [120, high],
      [100, high],
      [100, 100],
      [0, 100],
    ].map(([x, y]) => ({ x: x!, y: y! })),
  );
}

describe('necks', () => {
  it('are told when they are narrower than the thickness, with the place', () => {
    expect(proveNeck(TASK, pieceOf('a', dumbbell(8)))).toEqual([]);
    const [found, ...others] = proveNeck(TASK, pieceOf('a', dumbbell(3)));
    expect(others).toEqual([]);
    expect(found!.code).toBe('neck');
    expect(Number(found!.message.match(/narrower than ([\d.]+)/)![1])).toBeGreaterThanOrEqual(3);
    expect(Number(found!.message.match(/narrower than ([\d.]+)/)![1])).toBeLessThan(3.9);
  });

  it('of the drawing itself are its own matter', () => {
    const own = shapeOf(dumbbell(3));
    expect(proveNeck(taskOf(own, [], [310, 210]), pieceOf('a', dumbbell(3)))).toEqual([]);
  });
});

describe('slivers', () => {
  const plan = { seams: [], pieces: [] } as unknown as SplitPlan;

  it('are told: a wedge along a seam', () => {
    const wedge = polygon([
      { x: 0, y: 0 },
      { x: 300, y: 0 },
      { x: 300, y: 1.5 },
      { x: 100, y: 100 },
      { x: 0, y: 100 },
    ]);
    expect(proveSlivers(TASK, plan, pieceOf('a', wedge)).map(({ code }) => code)).toEqual(['sliver']);
  });

  it('are not seen in plain corners', () => {
    expect(proveSlivers(TASK, plan, pieceOf('a', rectangle(0, 0, 150, 200)))).toEqual([]);
  });
});

describe('locks', () => {
  /** A left piece with a trapezium of a knob at the middle of its right side, and its neighbour with the very socket. */
  function joined(neck: number, head: number): { plan: SplitPlan; seam: Seam } {
    const knobOutline = [
      { x: 150, y: 100 - neck / 2 },
      { x: 160, y: 100 - head / 2 },
      { x: 160, y: 100 + head / 2 },
      { x: 150, y: 100 + neck / 2 },
    ];
    const left = polygon([{ x: 0, y: 0 }, { x: 150, y: 0 }, ...knobOutline, { x: 150, y: 200 }, { x: 0, y: 200 }]);
    const right = polygon([
      { x: 300, y: 0 },
      { x: 300, y: 200 },
      { x: 150, y: 200 },
      ...[...knobOutline].reverse(),
      { x: 150, y: 0 },
    ]);
    const knob: Knob = { at: 100, side: 1, kind: 'dovetail', neck, head, centre: { x: 155, y: 100 } };
    const seam = { id: 'seam', between: ['a', 'b'], knobs: [knob] } as unknown as Seam;
    const plan = { pieces: [pieceOf('a', left), pieceOf('b', right)], seams: [seam] } as unknown as SplitPlan;
    return { plan, seam };
  }

  it('hold when the head is wider than the neck', () => {
    const { plan, seam } = joined(8, 12);
    expect(proveLock(plan, seam)).toEqual([]);
  });

  it('are refused when a knob claims a head it does not have (faulty twin)', () => {
    const { plan, seam } = joined(8, 8);
    const knobs = seam.knobs.map((knob) => ({ ...knob, head: 12 }));
    expect(proveLock(plan, { ...seam, knobs }).map(({ code }) => code)).toEqual(['lock']);
  });

  it('are not asked of steps', () => {
    const { plan, seam } = joined(8, 8);
    const knobs = seam.knobs.map((knob) => ({ ...knob, kind: 'step' as const, head: 12 }));
    expect(proveLock(plan, { ...seam, knobs })).toEqual([]);
  });
});
