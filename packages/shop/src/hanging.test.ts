import { contourArea, contourBounds } from '@underlap/geometry/contour';
import { describe, expect, it } from 'vitest';
import { hangFrom } from './hanging.ts';
import { bearingOf, placeSlots, type SlotKind, slotContour, slotFaults } from './slots.ts';

const SLOT: SlotKind = { kind: 'slot', width: 20, height: 6, clear: 8 };
const KEYHOLE: SlotKind = { kind: 'keyhole', width: 9, height: 4, clear: 8 };
const box = (x: number, y: number, w: number, h: number) => ({
  outer: Float64Array.of(x, y, x + w, y, x + w, y + h, x, y + h),
  holes: [],
});

describe('hanging', () => {
  it('from one nail brings the centre of mass below it', () => {
    const hang = hangFrom([{ x: 0, y: 0 }], { x: 10, y: 100 });
    // Textbook: atan(10 / 100).
    expect(hang.leanDeg).toBeCloseTo(5.7106, 4);
    expect(hang.isStraight).toBe(false);
    expect(hang.words[0]).toContain('5.7 degrees clockwise: its centre of mass lies 10.0 mm to the right of');
    expect(hangFrom([{ x: 10, y: 0 }], { x: 10, y: 100 }).isStraight).toBe(true);
  });

  it('from two shares the weight by the lever', () => {
    const nails = [
      { x: 0, y: 0 },
      { x: 100, y: 0 },
    ];
    const hang = hangFrom(nails, { x: 25, y: 60 });
    expect(hang.loads).toEqual([0.75, 0.25]);
    expect(hang.isStraight).toBe(true);
    // Beyond both, one lets go and the sign swings about the other.
    const swung = hangFrom(nails, { x: 120, y: 60 });
    expect(swung.leanDeg).toBeCloseTo((Math.atan2(20, 60) * 180) / Math.PI, 9);
    expect(swung.words[0]).toContain('only the right one carries');
  });

  it('leans when one slot is higher, and turns over when it is top-heavy', () => {
    const hang = hangFrom(
      [
        { x: 0, y: 0 },
        { x: 100, y: 5 },
      ],
      { x: 50, y: 80 },
    );
    // The right slot is lower on the sign: on level nails the sign turns anticlockwise until they are level.
    expect(hang.leanDeg).toBeCloseTo(-2.8624, 4);
    expect(hangFrom([{ x: 0, y: 50 }], { x: 0, y: 10 }).leanDeg).toBeNull();
    expect(hangFrom([], { x: 0, y: 0 }).leanDeg).toBeNull();
  });
});

describe('slots', () => {
  it('are holes of the size asked for', () => {
    const slot = slotContour(SLOT, { x: 50, y: 20 });
    expect(contourArea(slot)).toBeCloseTo(-(14 * 6 + Math.PI * 9), 9);
    expect(contourBounds(slot)).toEqual({ minX: 40, minY: 17, maxX: 60, maxY: 23 });
    const keyhole = contourBounds(slotContour(KEYHOLE, { x: 0, y: 0 }));
    expect(keyhole.maxX - keyhole.minX).toBeCloseTo(9, 9);
    expect(bearingOf(KEYHOLE, { x: 0, y: 0 }).y).toBeCloseTo(-2.25 - 2, 9);
    // Circle and slit together: less than the circle and the whole slit, more than the circle.
    const area = -contourArea(slotContour(KEYHOLE, { x: 0, y: 0 }));
    expect(area).toBeGreaterThan(Math.PI * 4.5 ** 2);
    expect(area).toBeLessThan(Math.PI * 4.5 ** 2 + 4 * 4.5 + (Math.PI * 4) / 2);
  });

  it('go high and wide, evenly about the centre of mass, clear of edges and of what lies on top', () => {
    const ground = box(0, 0, 300, 200);
    const banner = box(0, 30, 300, 60);
    const placed = placeSlots(ground, [banner], SLOT, 2, { x: 140, y: 120 });
    expect(placed.length).toBe(2);
    const [left, right] = placed.map(({ at }) => at);
    expect((left!.x + right!.x) / 2).toBeCloseTo(140, 9);
    expect(left!.y).toBe(right!.y);
    for (const { at } of placed) expect(slotFaults(ground, [banner], SLOT, at)).toEqual([]);
    // As wide as the nearer edge lets it: 140 - 8 - 10, less a step of the search.
    expect(right!.x - left!.x).toBeGreaterThan(2 * (140 - 18 - 2));
    expect(
      hangFrom(
        placed.map(({ bearing }) => bearing),
        { x: 140, y: 120 },
      ).isStraight,
    ).toBe(true);
  });

  it('are refused below a part, at an edge, and where no room is left', () => {
    const ground = box(0, 0, 300, 200);
    const banner = box(0, 30, 300, 60);
    expect(slotFaults(ground, [banner], SLOT, { x: 100, y: 50 })[0]).toContain('covered by a part');
    expect(slotFaults(ground, [banner], SLOT, { x: 100, y: 10 })[0]).toContain('nearer than 8 mm to an edge');
    expect(slotFaults(ground, [banner], SLOT, { x: 100, y: 24 })[0]).toContain('nearer than 8 mm to a part on top');
    expect(slotFaults(ground, [banner], SLOT, { x: 100, y: 1 })[0]).toContain('beyond the part');
    expect(placeSlots(ground, [box(0, 0, 300, 120)], SLOT, 2, { x: 150, y: 100 })).toEqual([]);
  });
});
