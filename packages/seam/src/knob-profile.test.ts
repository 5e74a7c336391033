import type { Point } from '@underlap/geometry/point';
import { describe, expect, it } from 'vitest';
import { type KnobDesign, type KnobProfile, knobProfile, lockOf } from './knob-profile.ts';
import { roundReach, seamSizes } from './sizes.ts';
import { type SeamSegment, type Spine, spineAt, spineOf } from './spine.ts';

const SIZES = seamSizes(6, 0.2);
const DESIGNS: KnobDesign[] = [
  { kind: 'round', neck: SIZES.neck, fillet: SIZES.fillet, reach: 0 },
  { kind: 'dovetail', neck: SIZES.neck, fillet: SIZES.fillet, reach: 9 },
  { kind: 'step', neck: SIZES.neck, fillet: SIZES.fillet, reach: 8 },
];
const STRAIGHT = spineOf({ x: 0, y: 0 }, [{ kind: 'line', to: { x: 200, y: 0 } }]);
const BENT = spineOf({ x: 120, y: 0 }, [
  { kind: 'arc', to: { x: 0, y: 120 }, centre: { x: 0, y: 0 }, radius: 120, sweep: Math.PI / 2 },
]);

/** Unit directions of a segment at its start and its end. */
function waysOf(from: Point, segment: SeamSegment): [Point, Point] {
  if (segment.kind === 'line') {
    const length = Math.hypot(segment.to.x - from.x, segment.to.y - from.y);
    const way = { x: (segment.to.x - from.x) / length, y: (segment.to.y - from.y) / length };
    return [way, way];
  }
  const side = Math.sign(segment.sweep) / segment.radius;
  const at = ({ x, y }: Point) => ({ x: -side * (y - segment.centre.y), y: side * (x - segment.centre.x) });
  return [at(from), at(segment.to)];
}

/** Largest turn between neighbours from the spine into the knob and back, as a sine. */
function worstKink(spine: Spine, profile: KnobProfile): number {
  const into = spineAt(spine, profile.from);
  const out = spineAt(spine, profile.to);
  let [at, way, worst]: [Point, Point, number] = [profile.start, { x: into.tx, y: into.ty }, 0];
  for (const segment of profile.segments) {
    const [first, last] = waysOf(at, segment);
    worst = Math.max(worst, Math.abs(way.x * first.y - way.y * first.x), -Math.sign(way.x * first.x + way.y * first.y));
    [at, way] = [segment.to, last];
  }
  expect(Math.hypot(at.x - out.x, at.y - out.y)).toBeLessThan(1e-6);
  return Math.max(worst, Math.abs(way.x * out.ty - way.y * out.tx));
}

describe.each(DESIGNS)('a $kind knob', (design) => {
  it.each([
    ['straight', STRAIGHT, 1],
    ['straight', STRAIGHT, -1],
    ['bent', BENT, 1],
    ['bent', BENT, -1],
  ] as const)('leaves a %s seam and comes back to it without a kink', (_, spine, side) => {
    const profile = knobProfile(spine, spine.length / 2, side, design)!;
    expect(worstKink(spine, profile)).toBeLessThan(1e-6);
    expect(profile.from).toBeLessThan(spine.length / 2);
    expect(profile.to).toBeGreaterThan(spine.length / 2);
    expect(profile.neck).toBeCloseTo(design.neck, 5);
  });

  it('stands on the side it was asked for', () => {
    for (const side of [1, -1] as const) {
      const { centre } = knobProfile(STRAIGHT, 100, side, design)!;
      expect(Math.sign(centre.y)).toBe(side);
    }
  });

  it('is refused where the seam ends too soon', () => {
    expect(knobProfile(STRAIGHT, 3, 1, design)).toBeNull();
  });
});

describe('what locks', () => {
  it('round heads and dovetails are wider than their neck, steps are not', () => {
    const [round, dovetail, step] = DESIGNS as [KnobDesign, KnobDesign, KnobDesign];
    expect(lockOf(round)).toBeCloseTo((0.35 * SIZES.neck) / 2, 9);
    expect(lockOf(dovetail)).toBeGreaterThan(0.5);
    expect(lockOf(step)).toBe(0);
    const profile = knobProfile(STRAIGHT, 100, 1, round)!;
    expect(profile.head).toBeCloseTo(1.35 * SIZES.neck, 5);
  });

  it('a round knob reaches as far as its size says', () => {
    const profile = knobProfile(STRAIGHT, 100, 1, DESIGNS[0]!)!;
    const head = profile.segments[1]!;
    if (head.kind !== 'arc') throw new Error('the head is no arc');
    expect(head.centre.y + head.radius).toBeCloseTo(roundReach(SIZES.neck, SIZES.fillet), 5);
  });
});
