import type { Point } from '@underlap/geometry/point';
import { describe, expect, it } from 'vitest';
import { MOST_PINCH_MM, pinchOf } from './judge-knob.ts';
import { knobProfile } from './knob-profile.ts';
import { roundReach, seamSizes } from './sizes.ts';
import { roundedPolyline, spineSamples } from './spine.ts';

describe('pinchOf', () => {
  const { neck, fillet } = seamSizes(6, 0.2);
  const design = { kind: 'round' as const, neck, fillet, reach: roundReach(neck, fillet) };
  const pinch = (points: readonly Point[], at: number) => {
    const { spine } = roundedPolyline(points, 10, 3);
    const profile = knobProfile(spine, at, 1, design);
    if (profile === null) throw new Error('the knob must have a form');
    return pinchOf({ spine, samples: spineSamples(spine, 1) }, profile);
  };
  const start = { x: 0, y: 0 };
  const corner = { x: 60, y: 0 };

  it('is nothing on a straight seam and where the seam bends away from the knob', () => {
    expect(pinch([start, { x: 120, y: 0 }], 45)).toBeLessThan(1e-9);
    expect(pinch([start, corner, { x: 90, y: -50 }], 45)).toBeLessThan(1e-9);
  });

  it('is too much where the seam bends round the head', () => {
    expect(pinch([start, corner, { x: 66, y: 60 }], 42)).toBeGreaterThan(MOST_PINCH_MM);
  });
});
