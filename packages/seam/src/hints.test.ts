import { describe, expect, it } from 'vitest';
import { rectangle, regionOf } from '../testing/fixtures.ts';
import { hintsFor } from './hints.ts';
import type { Seam } from './task.ts';

describe('hintsFor', () => {
  const path = { start: { x: 0, y: 50 }, segments: [{ kind: 'line' as const, to: { x: 100, y: 50 } }], closed: false };
  const seam: Seam = {
    id: 'seam-1',
    between: ['a', 'b'],
    path,
    spine: path,
    lengthMm: 100,
    ledLengthMm: 0,
    hiddenLengthMm: 94,
    visible: [[60, 66]],
    heldLengthMm: 0,
    held: [],
    knobs: [],
    neckMm: 0,
  };
  const left = { id: 'banner', name: 'banner', region: regionOf(rectangle(-10, 30, 70, 40)) };

  const messages = (of: Seam, parts: Parameters<typeof hintsFor>[1]) =>
    hintsFor(of, parts).map(({ message }) => message);

  it('names the part and the smallest move that hides the rest', () => {
    const gull = { id: 'gull', name: 'gull', region: regionOf(rectangle(66, 30, 60, 40)) };
    expect(messages(seam, [left, gull])).toEqual(['Moving banner 6 mm right hides the 6 mm of seam seam-1 that show.']);
  });

  it('enlarges a part where every move would bare something else', () => {
    const tight = { id: 'gull', name: 'gull', region: regionOf(rectangle(66, 30, 34, 40)) };
    const pinned = { ...left, region: regionOf(rectangle(0, 30, 60, 40)) };
    expect(messages(seam, [pinned, tight])).toEqual([
      'Enlarging banner by 6 mm all round hides the 6 mm of seam seam-1 that show.',
    ]);
  });

  it('has a hint for every stretch, with its place', () => {
    const parts = [
      { id: 'a', name: 'boat', region: regionOf(rectangle(-10, 30, 40, 40)) },
      { id: 'b', name: 'gull', region: regionOf(rectangle(34, 30, 30, 40)) },
      { id: 'c', name: 'wave', region: regionOf(rectangle(72, 30, 60, 40)) },
    ];
    const twice: Seam = {
      ...seam,
      hiddenLengthMm: 88,
      visible: [
        [30, 34],
        [64, 72],
      ],
    };
    expect(messages(twice, parts)).toEqual([
      'Moving boat 4 mm right hides the 4 mm of seam seam-1 that show at 33, 50.',
      'Moving wave 8 mm left hides the 8 mm of seam seam-1 that show at 69, 50.',
    ]);
  });

  it('is silent when no small change will do, when nothing shows, and when measuring says otherwise', () => {
    const far = { id: 'gull', name: 'gull', region: regionOf(rectangle(66, 30, 34, 40)) };
    const away = { ...left, region: regionOf(rectangle(0, 70, 60, 40)) };
    expect(messages(seam, [away, far])).toEqual([]);
    expect(messages({ ...seam, hiddenLengthMm: 100, visible: [] }, [left])).toEqual([]);
    // Without the gull the rest of the seam lies bare, though the seam says otherwise.
    expect(messages(seam, [left])).toEqual([]);
  });
});
