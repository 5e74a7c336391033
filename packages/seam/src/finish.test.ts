import { contourArea } from '@underlap/geometry/contour';
import type { Contour } from '@underlap/geometry/curve';
import { describe, expect, it } from 'vitest';
import { rectangle, regionOf, shapeOf, taskOf } from '../testing/fixtures.ts';
import type { CutEnd } from './arrangement.ts';
import { partFields, seamGround } from './fields.ts';
import { finishPlan, withPlates } from './finish.ts';
import { HeldMeasure } from './held.ts';
import { placeKnobs } from './place-knobs.ts';
import type { PlannedCut } from './search-ground.ts';
import { seamSizes } from './sizes.ts';
import { spineOf } from './spine.ts';
import type { SeamTask } from './task.ts';
import { CoverMeasure } from './visible.ts';

const SIZES = seamSizes(6, 0.2);

/** A plank of 400 x 200 and one straight cut down its middle. */
function halved(cover: readonly Contour[], more: Partial<SeamTask> = {}) {
  const task = taskOf(shapeOf(rectangle(0, 0, 400, 200)), cover, [260, 260], more);
  const edge = (segment: number): CutEnd => ({ kind: 'outline', contour: 0, segment, u: 0.5 });
  const spine = spineOf({ x: 200, y: 0 }, [{ kind: 'line', to: { x: 200, y: 200 } }]);
  const cut: PlannedCut = { spine, from: edge(0), to: edge(2) };
  const ground = seamGround(task);
  const fields = partFields(ground, SIZES, 2);
  return { task, cut, ground, fields };
}

function finished(...given: Parameters<typeof halved>) {
  const { task, cut, ground, fields } = halved(...given);
  const measures = { cover: new CoverMeasure(task.cover), glue: new HeldMeasure(task), lines: null };
  const cutPlan = { cuts: [cut], pieces: 2, cost: 1, bareMm: 0 };
  const plan = finishPlan(task, task.shape, ground, fields, SIZES, cutPlan, measures);
  return plan === null ? null : withPlates(task, plan, SIZES);
}

describe('knobs on a seam', () => {
  it('stand about a pitch apart on alternating sides, clear of its ends', () => {
    const { task, cut, ground, fields } = halved([rectangle(150, -10, 100, 220)]);
    const { knobs, bare } = placeKnobs(task, ground, fields, [cut], task.shape, SIZES, 0);
    const own = knobs[0]!;
    expect(bare).toEqual([]);
    expect(own.length).toBeGreaterThanOrEqual(3);
    own.forEach((knob, k) => {
      expect(knob.kind).toBe('round');
      expect(knob.from).toBeGreaterThanOrEqual(SIZES.endClear);
      expect(knob.to).toBeLessThanOrEqual(200 - SIZES.endClear);
      if (k > 0) {
        expect(knob.side).toBe(-own[k - 1]!.side);
        expect(knob.at - own[k - 1]!.at).toBeGreaterThan(0.5 * SIZES.pitch);
        expect(knob.at - own[k - 1]!.at).toBeLessThan(1.6 * SIZES.pitch);
      }
    });
  });

  it('stand on one side where the other piece has no room for them', () => {
    // Grown by the kerf the halves are 200.2 wide; a knob adds its reach to the piece that carries it.
    const { task, cut, ground, fields } = halved([]);
    const narrow = { ...task, limits: [{ name: 'bed' as const, width: 214, height: 214 }] };
    const shifted = { ...cut, spine: spineOf({ x: 187, y: 0 }, [{ kind: 'line', to: { x: 187, y: 200 } }]) };
    const at = (segment: number, u: number): CutEnd => ({ kind: 'outline', contour: 0, segment, u });
    const moved: PlannedCut = { ...shifted, from: at(0, 187 / 400), to: at(2, 1 - 187 / 400) };
    const { knobs } = placeKnobs(narrow, ground, fields, [moved], task.shape, SIZES, 0);
    expect(knobs[0]!.length).toBeGreaterThan(0);
    // The right piece is 213 wide already: every knob belongs to the left one.
    const sides = new Set(knobs[0]!.map(({ centre }) => Math.sign(centre.x - 187)));
    expect([...sides]).toEqual([1]);
  });

  it('keep clear of what no seam may touch', () => {
    const wall = regionOf(rectangle(203, 20, 30, 160));
    const { task, cut, ground, fields } = halved([], { keepOuts: [wall] });
    const { knobs } = placeKnobs(task, ground, fields, [cut], task.shape, SIZES, 0);
    for (const { centre } of knobs[0]!) expect(centre.x).toBeLessThan(200);
  });
});

describe('a finished plan', () => {
  it('has pieces that make up the part, one seam with its figures, and remarks on what shows', () => {
    const glue = [{ partId: 'banner', region: regionOf(rectangle(100, 50, 200, 100)) }];
    const { plan, bareSeams, chips } = finished([rectangle(100, 50, 200, 100)], { glue })!;
    expect(plan.pieces).toHaveLength(2);
    expect(plan.pieces.reduce((sum, { shape }) => sum + contourArea(shape.outer), 0)).toBeCloseTo(80_000, 6);
    const [seam, ...others] = plan.seams;
    expect(others).toEqual([]);
    expect([...seam!.between].sort()).toEqual(plan.pieces.map(({ id }) => id).sort());
    expect(seam!.lengthMm).toBeGreaterThan(200);
    expect(plan.hiddenLengthMm + plan.visibleLengthMm).toBeCloseTo(seam!.lengthMm, 6);
    // The cover is 100 high: 100 of the straight seam shows, and knobs add to what does not or does.
    expect(plan.visibleLengthMm).toBeGreaterThan(95);
    expect(plan.heldLengthMm).toBeLessThanOrEqual(plan.hiddenLengthMm);
    expect(plan.remarks.map(({ code }) => code)).toContain('visible');
    expect([bareSeams, chips]).toEqual([0, 0]);
  });

  it('says of a pin that no seam passes that it was missed', () => {
    const wishes = { prefer: 'fewest', morePieces: 0, forbidden: [], knob: 'auto' } as const;
    expect(finished([], { wishes: { ...wishes, pins: [{ x: 201, y: 90 }] } })!.missedPins).toBe(0);
    const missed = finished([], { wishes: { ...wishes, pins: [{ x: 240, y: 90 }] } })!;
    expect(missed.missedPins).toBe(1);
    expect(missed.plan.remarks.map(({ code }) => code)).toContain('pin-missed');
  });

  it('is none when its pieces do not go in', () => {
    expect(finished([], { limits: [{ name: 'bed', width: 199, height: 220 }] })).toBeNull();
  });

  it('leaves its knobs out, and says so, where the pieces go in without them alone', () => {
    const plan = finished([], { limits: [{ name: 'bed', width: 200.3, height: 200.3 }] })!;
    expect(plan.bareSeams).toBe(1);
    expect(plan.plan.remarks.map(({ code }) => code)).toContain('no-knob');
  });
});
