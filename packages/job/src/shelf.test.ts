import { describe, expect, it } from 'vitest';
import { bookIn, bookOut, type KeptOffcut, offcutsFor, parseShelf, type Shelf } from './shelf.ts';

const offcut = (id: string, over: Partial<KeptOffcut> = {}): KeptOffcut => ({
  id,
  outline: 'M0 0H200V100H0Z',
  areaMm2: 20_000,
  rectangle: { x: 0, y: 0, width: 200, height: 100 },
  material: 'fibreboard',
  thickness: 6,
  grain: false,
  from: 'pier, sheet 1',
  since: '2026-05-31',
  ...over,
});
const shelf = (...offcuts: KeptOffcut[]): Shelf => ({ version: 1, offcuts, bookings: [] });
const needs = { material: 'fibreboard', thickness: 6, leastPieceMm2: 600 };

describe('the shelf', () => {
  it('books offcuts in once and out for good', () => {
    const first = bookIn(shelf(), [offcut('A'), offcut('B')], 'pier', '2026-06-01');
    expect(first.offcuts.map(({ id, since }) => `${id} ${since}`)).toEqual(['A 2026-06-01', 'B 2026-06-01']);
    const used = bookOut(first, ['A', 'none'], 'boat', '2026-06-02');
    expect(used.offcuts.map(({ id }) => id)).toEqual(['B']);
    // The report of the first job is booked again: what it left is there already, or used up.
    expect(bookIn(used, [offcut('A'), offcut('B')], 'pier', '2026-06-03')).toEqual(used);
    expect(used.bookings.map(({ what, id, job }) => `${what} ${id} ${job}`)).toEqual([
      'in A pier',
      'in B pier',
      'out A boat',
    ]);
  });

  it('is tried oldest first or best first, and says what cannot serve', () => {
    const full = shelf(
      offcut('new-small', { since: '2026-06-02', areaMm2: 9000 }),
      offcut('old-large', { since: '2026-01-02', areaMm2: 40_000 }),
      offcut('thin', { thickness: 3 }),
      offcut('other', { material: 'birch plywood' }),
      offcut('chip', { areaMm2: 500 }),
      offcut('unnamed', { material: '', since: '2026-03-01' }),
    );
    expect(offcutsFor(full, needs, 'oldest').fit.map(({ id }) => id)).toEqual(['old-large', 'unnamed', 'new-small']);
    const { fit, left } = offcutsFor(full, needs, 'best');
    expect(fit.map(({ id }) => id)).toEqual(['new-small', 'unnamed', 'old-large']);
    expect(left.map(({ id, why }) => `${id}: ${why}`)).toEqual([
      'thin: it is 3 mm thick, and 6 mm are needed',
      'other: it is birch plywood, and fibreboard is needed',
      'chip: not even the smallest piece goes in',
    ]);
  });

  it('is read back as it was written, and refuses what is no shelf', () => {
    const full = shelf(offcut('A'));
    expect(parseShelf(JSON.stringify(full), 'shelf.json')).toEqual(full);
    expect(() => parseShelf('{', 'shelf.json')).toThrow(/shelf.json is no shelf file: it is not JSON/);
    expect(() => parseShelf('{"offcuts":[{"id":"A"}]}', 'shelf.json')).toThrow(/offcuts.0.outline/);
    expect(() => parseShelf(JSON.stringify(shelf(offcut('A'), offcut('A'))), 'shelf.json')).toThrow(
      /two offcuts are called "A"/,
    );
  });
});
