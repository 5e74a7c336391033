import { intersectRegions } from '@underlap/geometry/boolean';
import type { Region } from '@underlap/geometry/region';
import { describe, expect, it } from 'vitest';
import { restsOf } from './rests.ts';

const box = (x: number, y: number, w: number, h: number): Region => ({
  outer: Float64Array.of(x, y, x + w, y, x + w, y + h, x, y + h),
  holes: [],
});

describe('rests of a board', () => {
  it('are all that is left, each in its true outline', () => {
    // A bar across the middle parts the board; a piece in the corner takes a bite out of the lower rest.
    const cut = [box(0, 100, 400, 40), box(0, 260, 100, 40)];
    const rests = restsOf(box(0, 0, 400, 300), cut, 50);
    expect(rests.length).toBe(2);
    const [first, second] = rests;
    // Above: 400 x 98. Below: beside the bite, 298 x 158, or above it, 400 x 116.
    expect(first!.rectangle.maxX - first!.rectangle.minX).toBeGreaterThan(295);
    expect(second!.areaMm2).toBeCloseTo(400 * 98, -2);
    expect(first!.areaMm2).toBeCloseTo(400 * 158 - 102 * 42, -2);
    for (const { region } of rests) expect(intersectRegions([region], cut)).toEqual([]);
  });

  it('leave out strips too narrow to use, and what is too small', () => {
    const rests = restsOf(box(0, 0, 400, 300), [box(0, 60, 380, 240)], 50);
    // Above the piece 400 x 58; beside it a strip of 18 that belongs to no rectangle of 50.
    expect(rests.length).toBe(1);
    expect(rests[0]!.rectangle.maxY).toBeLessThanOrEqual(58);
    expect(restsOf(box(0, 0, 400, 300), [box(0, 45, 400, 255)], 50)).toEqual([]);
  });

  it('keep a hole where something was cut out of their middle', () => {
    const [rest] = restsOf(box(0, 0, 400, 300), [box(190, 140, 20, 20)], 50);
    expect(rest!.region.holes.length).toBe(1);
    // Beside the hole, whole height: 188 x 300.
    expect(
      (rest!.rectangle.maxX - rest!.rectangle.minX) * (rest!.rectangle.maxY - rest!.rectangle.minY),
    ).toBeGreaterThan(187 * 299);
  });
});
