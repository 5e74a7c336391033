import { describe, expect, it } from 'vitest';
import { reachOf } from './limits.ts';
import { jobFrom } from './parse-job.ts';

const reach = (fields: object) => reachOf(jobFrom({ bed: '520x320', boards: ['508x305'], ...fields }, 'test'));

describe('what bed and board allow', () => {
  it('is bed and board less their margins', () => {
    const found = reach({ bed: { width: 520, height: 320, margin: 3 } });
    expect(found.limits).toEqual([
      { name: 'bed', width: 514, height: 314, margin: 3 },
      { name: 'board', width: 498, height: 295, margin: 5 },
    ]);
    expect(found.hasLoadings).toBe(false);
    expect(found.messages).toEqual([]);
  });

  it('takes a board that fits the bed only when turned as lying on it', () => {
    expect(reach({ boards: ['305x508'] }).hasLoadings).toBe(false);
  });

  it('says that a board is larger than the bed and limits pieces to what the bed reaches', () => {
    const found = reach({ bed: '300x200', boards: ['610x305'] });
    expect(found.hasLoadings).toBe(true);
    expect(found.limits[0]).toEqual({ name: 'bed', width: 300, height: 200 });
    expect(found.messages[0]).toMatch(/610 x 305 mm board is larger than the 300 x 200 mm bed/);
  });

  it('lays the bed across the board where that reaches more', () => {
    expect(reach({ bed: '200x300', boards: ['610x210'] }).limits[0]).toEqual({ name: 'bed', width: 300, height: 200 });
  });

  it('lets material pass through in one direction, without end or as far as told', () => {
    const open = reach({ bed: { width: 300, height: 320, passThrough: 'width' } });
    expect(open.hasLoadings).toBe(false);
    expect(open.limits[0]).toEqual({ name: 'bed', width: Number.POSITIVE_INFINITY, height: 320, margin: 0 });
    const told = reach({ bed: { width: 300, height: 320, passThrough: 'width', passLength: 400 } });
    expect(told.limits[0]).toEqual({ name: 'bed', width: 400, height: 295 });
  });

  it('refuses margins that leave nothing', () => {
    expect(() => reach({ margin: 160 })).toThrow(/margin of 160 mm leaves nothing of the 508 x 305 mm board/);
    expect(() => reach({ bed: { width: 60, height: 60, margin: 40 } })).toThrow(/bed's margin of 40 mm leaves nothing/);
  });

  it('speaks of the roomiest of several boards', () => {
    expect(reach({ boards: ['200x200', '508x305', '300x300'] }).board.width).toBe(508);
  });

  it('makes panels of the roomiest kind when boards are cut down first', () => {
    const found = reach({ bed: '300x200', boards: ['508x305'], margin: 5, loading: { way: 'cut-down' } });
    // two panels of 200 x 300 and one of 102 x 300, each less its margins
    expect(found.limits[0]).toEqual({ name: 'bed', width: 190, height: 290 });
    expect(found.messages[0]).toMatch(/cut down first/);
  });
});
