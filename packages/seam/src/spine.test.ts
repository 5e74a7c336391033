import { contourArea, contourLength, reversedContour, segmentTangent } from '@underlap/geometry/contour';
import { describe, expect, it } from 'vitest';
import { type KnobDesign, knobProfile, lockOf } from './knob-profile.ts';
import { roundReach } from './sizes.ts';
import { roundedPolyline, spineAt, spineContour, spineOf, spineStretch } from './spine.ts';

const bent = roundedPolyline(
  [
    { x: 0, y: 0 },
    { x: 100, y: 0 },
    { x: 160, y: 60 },
    { x: 260, y: 60 },
  ],
  40,
  3,
).spine;

describe('spine', () => {
  it('rounds corners with arcs that meet the legs with equal tangents', () => {
    let from = bent.start;
    bent.segments.forEach((segment, index) => {
      const next = bent.segments[index + 1];
      if (next !== undefined) {
        const out = segmentTangent(from, segment, 1);
        const into = segmentTangent(segment.to, next, 0);
        expect(Math.hypot(out.x - into.x, out.y - into.y)).toBeLessThan(1e-12);
      }
      from = segment.to;
    });
    expect(contourLength(spineContour(bent))).toBeCloseTo(bent.length, 9);
  });

  it('gives stretches that join up to the whole', () => {
    const stops = [0, 33, 101.5, 180, bent.length];
    let length = 0;
    for (let i = 0; i + 1 < stops.length; i++) {
      const { start, segments } = spineStretch(bent, stops[i]!, stops[i + 1]!);
      const at = spineAt(bent, stops[i]!);
      expect(Math.hypot(start.x - at.x, start.y - at.y)).toBeLessThan(1e-12);
      length += contourLength({ start, segments, closed: false });
    }
    expect(length).toBeCloseTo(bent.length, 9);
  });
});

describe('knob profile', () => {
  const designs: KnobDesign[] = [
    { kind: 'round', neck: 9.6, fillet: 1.8, reach: roundReach(9.6, 1.8) },
    { kind: 'dovetail', neck: 9.6, fillet: 1.8, reach: 6 },
    { kind: 'step', neck: 14, fillet: 1.8, reach: 4.1 },
  ];

  for (const design of designs) {
    it(`a ${design.kind} knob is tangent to its spine at both feet and everywhere inside, straight or bent`, () => {
      for (const at of [30, 95, 118, 150, 220]) {
        for (const side of [1, -1] as const) {
          const knob = knobProfile(bent, at, side, design);
          if (knob === null) continue;
          const before = spineAt(bent, knob.from);
          const after = spineAt(bent, knob.to);
          let from = knob.start;
          let direction = { x: before.tx, y: before.ty };
          expect(Math.hypot(from.x - before.x, from.y - before.y)).toBeLessThan(1e-9);
          for (const segment of knob.segments) {
            const into = segmentTangent(from, segment, 0);
            expect(Math.hypot(into.x - direction.x, into.y - direction.y)).toBeLessThan(1e-8);
            direction = segmentTangent(from, segment, 1);
            from = segment.to;
          }
          expect(Math.hypot(from.x - after.x, from.y - after.y)).toBeLessThan(1e-9);
          expect(Math.hypot(direction.x - after.tx, direction.y - after.ty)).toBeLessThan(1e-8);
          expect(knob.neck).toBeCloseTo(design.neck, 4);
        }
      }
    });
  }

  it('stands off a straight spine as far as its reach says, to the side asked', () => {
    const straight = spineOf({ x: 0, y: 0 }, [{ kind: 'line', to: { x: 100, y: 0 } }]);
    for (const side of [1, -1] as const) {
      const knob = knobProfile(straight, 50, side, designs[0]!)!;
      expect(knob.centre.y * side + knob.head / 2).toBeCloseTo(designs[0]!.reach, 9);
      const closed = {
        start: knob.start,
        segments: [...knob.segments, { kind: 'line' as const, to: knob.start }],
        closed: true,
      };
      expect(Math.sign(contourArea(closed))).toBe(-side);
      expect(contourArea(reversedContour(closed))).toBeCloseTo(-contourArea(closed), 9);
    }
  });

  it('locks when its head is wider than its neck, and a step never does', () => {
    expect(lockOf(designs[0]!)).toBeCloseTo(0.35 * 4.8, 9);
    expect(lockOf(designs[1]!)).toBeGreaterThan(0.4);
    expect(lockOf(designs[2]!)).toBe(0);
  });

  it('is refused where the spine ends too soon', () => {
    expect(knobProfile(bent, 3, 1, designs[0]!)).toBeNull();
  });
});
