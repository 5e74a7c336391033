import { copyName } from '@underlap/nest/copy';
import type { Layout } from '@underlap/nest/problem';
import { describe, expect, it } from 'vitest';
import { layoutFrom } from './known-layouts.ts';

const layoutOn = (boards: number, batch: number): Layout => ({
  sheets: Array.from({ length: boards }, (_, sheet) => ({
    stockId: 'board',
    width: 500,
    height: 300,
    placements:
      sheet === 0
        ? Array.from({ length: batch }, (_, copy) => ({
            pieceId: 'disc',
            copy: copy + 1,
            x: 10 * copy,
            y: 0,
            turnDeg: 0,
            mirrored: false,
          }))
        : [],
    windows: sheet === 0 ? [{ x: 0, y: 0, width: 300, height: 200, copies: [{ pieceId: 'disc', copy: 1 }] }] : [],
    yield: 0.5,
    offcut: null,
  })),
  unplaced: [],
  yield: 0.5,
});
const boards = (layout: Layout) => layout.sheets.length;

describe('layouts that follow from known ones', () => {
  it('puts two smaller batches one after the other, every piece once', () => {
    const both = layoutFrom(
      [
        { batch: 1, layout: layoutOn(1, 1) },
        { batch: 2, layout: layoutOn(3, 2) },
      ],
      3,
      boards,
    );
    const ids = both?.sheets.flatMap((sheet) => sheet.placements.map(copyName));
    expect(ids?.sort()).toEqual(['disc#1', 'disc#2', 'disc#3']);
    expect(both?.sheets).toHaveLength(4);
    expect(both?.sheets.flatMap((sheet) => sheet.windows.flatMap((window) => window.copies.map(copyName)))).toEqual([
      'disc#1',
      'disc#3',
    ]);
  });

  it('takes the fewest boards, and the latest layout of the batch itself among equals', () => {
    const latest = layoutOn(2, 2);
    const known = [
      { batch: 1, layout: layoutOn(1, 1) },
      { batch: 2, layout: layoutOn(2, 2) },
      { batch: 2, layout: latest },
      { batch: 2, layout: layoutOn(3, 2) },
    ];
    expect(layoutFrom(known, 2, boards)).toBe(latest);
    expect(boards(layoutFrom(known, 4, boards)!)).toBe(4);
  });

  it('has nothing where nothing adds up, and leaves out layouts that miss pieces', () => {
    expect(layoutFrom([{ batch: 2, layout: layoutOn(2, 2) }], 3, boards)).toBeNull();
    const short = { ...layoutOn(2, 2), unplaced: [{ pieceId: 'disc', copy: 2, why: 'no board' }] };
    expect(layoutFrom([{ batch: 2, layout: short }], 2, boards)).toBeNull();
  });
});
