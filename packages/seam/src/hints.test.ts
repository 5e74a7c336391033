import { describe, expect, it } from 'vitest';
import { rectangle, regionOf } from './fixtures.ts';
import { hintFor } from './hints.ts';
import type { Seam } from './task.ts';

describe('hintFor', () => {
  const path = { start: { x: 0, y: 50 }, segments: [{ kind: 'line' as const, to: { x: 100, y: 50 } }], closed: false };
  const seam: Seam = {
    id: 'seam-1',
    between: ['a', 'b'],
    path,
    spine: path,
    lengthMm: 100,
    hiddenLengthMm: 94,
    visible: [[60, 66]],
    knobs: [],
    neckMm: 0,
  };
  const left = { id: 'banner', name: 'banner', region: regionOf(rectangle(-10, 30, 70, 40)) };

  it('names the part and the smallest move that hides the rest', () => {
    const gull = { id: 'gull', name: 'gull', region: regionOf(rectangle(66, 30, 60, 40)) };
    expect(hintFor(seam, [left, gull])?.message).toBe(
      'Moving banner 6 mm right hides the 6 mm of seam seam-1 that show.',
    );
  });

  it('is silent when a move would bare something else, or nothing shows', () => {
    const tight = { id: 'gull', name: 'gull', region: regionOf(rectangle(66, 30, 34, 40)) };
    const pinned = { ...left, region: regionOf(rectangle(0, 30, 60, 40)) };
    expect(hintFor(seam, [pinned, tight])).toBeNull();
    expect(hintFor({ ...seam, hiddenLengthMm: 100 }, [left])).toBeNull();
  });
});
