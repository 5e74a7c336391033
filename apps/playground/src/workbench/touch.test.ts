import type { Region } from '@underlap/geometry/region';
import { describe, expect, it } from 'vitest';
import { type SheetGround, touchAt } from './touch.ts';

function rectangle(x: number, y: number, width: number, height: number): Region {
  return { outer: Float64Array.of(x, y, x + width, y, x + width, y + height, x, y + height), holes: [] };
}

const board = rectangle(0, 0, 200, 100);
function ground(others: SheetGround['others']): SheetGround {
  return { board, forbidden: [], others, spacing: 2, margin: 5 };
}

describe('a piece in the hand', () => {
  it('is free at exactly the margin and the spacing, and not a hair nearer', () => {
    const other = { id: 'other#1', region: rectangle(50, 5, 40, 40) };
    expect(touchAt(rectangle(5, 5, 43, 40), ground([other])).isFree).toBe(true);
    expect(touchAt(rectangle(5, 5, 43.01, 40), ground([other]))).toMatchObject({
      isFree: false,
      why: { kind: 'piece', id: 'other#1' },
    });
    expect(touchAt(rectangle(4.99, 5, 20, 20), ground([])).isFree).toBe(false);
  });

  it('is told when it lies wholly within another', () => {
    const other = { id: 'big#1', region: rectangle(20, 10, 120, 80) };
    expect(touchAt(rectangle(60, 40, 10, 10), ground([other])).isFree).toBe(false);
    expect(
      touchAt(rectangle(10, 6, 140, 88), { ...ground([{ id: 's#1', region: rectangle(60, 40, 10, 10) }]) }).isFree,
    ).toBe(false);
  });

  it('may lie in the hole of another', () => {
    const frame: Region = { ...rectangle(20, 10, 120, 80), holes: [Float64Array.of(40, 30, 40, 70, 120, 70, 120, 30)] };
    expect(touchAt(rectangle(42, 32, 76, 36), ground([{ id: 'frame#1', region: frame }])).isFree).toBe(true);
    expect(touchAt(rectangle(41, 32, 76, 36), ground([{ id: 'frame#1', region: frame }])).isFree).toBe(false);
  });

  it('finds the nearest free place, which is free', () => {
    const others = [{ id: 'other#1', region: rectangle(50, 5, 40, 40) }];
    const held = rectangle(55, 8, 20, 20);
    const { shift } = touchAt(held, ground(others));
    expect(shift).not.toBeNull();
    const { x, y } = shift ?? { x: 0, y: 0 };
    expect(touchAt(rectangle(55 + x, 8 + y, 20, 20), ground(others)).isFree).toBe(true);
    // to the left it would take 27 mm, which is the least
    expect(Math.hypot(x, y)).toBeGreaterThan(26.9);
    expect(Math.hypot(x, y)).toBeLessThan(27.3);
  });

  it('says so when there is no room', () => {
    const { isFree, shift } = touchAt(rectangle(0, 0, 195, 95), ground([]));
    expect(isFree).toBe(false);
    expect(shift).toBeNull();
  });
});
