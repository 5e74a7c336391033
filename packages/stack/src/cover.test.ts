import { subtractRegions } from '@underlap/geometry/boolean';
import { type Region, regionsArea } from '@underlap/geometry/region';
import { expect, test } from 'vitest';
import { contactBetween } from './cover.ts';
import type { Part } from './sign.ts';

const square = (x: number, y: number, side: number): Float64Array =>
  Float64Array.of(x, y, x + side, y, x + side, y + side, x, y + side);
const part = (region: Region): Part => ({ region }) as Part;
const solid = (x: number, y: number, side: number): Part => part({ outer: square(x, y, side), holes: [] });
const frame = part({ outer: square(0, 0, 100), holes: [Float64Array.of(20, 20, 20, 80, 80, 80, 80, 20)] });

/** What they share by booleans alone. */
const shared = (a: Part, b: Part): number =>
  regionsArea([a.region]) - regionsArea(subtractRegions([a.region], [b.region]));

test('what lies wholly on another touches it all over, without a boolean', () => {
  const backer = solid(0, 0, 100);
  const letter = solid(10, 10, 20);
  expect(contactBetween(backer, letter)).toEqual([letter.region]);
  expect(contactBetween(backer, letter)[0]).toBe(letter.region);
  expect(contactBetween(letter, backer)[0]).toBe(letter.region);
});

test('a window counts, whichever of the two has it', () => {
  for (const other of [
    solid(30, 30, 20),
    solid(10, 10, 80),
    solid(2, 2, 10),
    solid(-10, -10, 120),
    solid(90, 90, 50),
    frame,
  ]) {
    expect(regionsArea(contactBetween(frame, other))).toBeCloseTo(shared(frame, other), 4);
    expect(regionsArea(contactBetween(other, frame))).toBeCloseTo(shared(other, frame), 4);
  }
});
