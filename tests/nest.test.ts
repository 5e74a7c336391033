import { checkLayout } from '@underlap/nest/check/check-layout';
import { copyName } from '@underlap/nest/copy';
import { type BestSoFar, nest } from '@underlap/nest/nest';
import { nodePool } from '@underlap/nest/node-pool';
import type { Layout, NestProblem, NestResult } from '@underlap/nest/problem';
import { describe, expect, it } from 'vitest';
import {
  boardStock,
  boxRegion,
  nestPart,
  nestProblem,
  randomNestProblem,
  wavyProblem,
} from './support/nest-problems.ts';

function assertValid(problem: NestProblem, layout: Layout, note: string): void {
  const verdict = checkLayout(problem, layout);
  expect(verdict.violations, note).toEqual([]);
  const wanted = problem.pieces.reduce((sum, part) => sum + part.quantity, 0);
  const placed = layout.sheets.reduce((sum, sheet) => sum + sheet.placements.length, 0);
  expect(placed + layout.unplaced.length, note).toBe(wanted);
}

function placements(result: NestResult): string {
  return JSON.stringify(result.layout.sheets.map((sheet) => [sheet.stockId, sheet.placements]));
}

describe('nesting', () => {
  it('never gives an invalid layout, whatever parts and rules', async () => {
    for (let i = 0; i < 36; i++) {
      const problem = randomNestProblem(`nest ${i}`);
      const result = await nest(problem, 'quick', { seed: 1 });
      assertValid(problem, result.layout, `seed ${i}`);
      if (result.layout.unplaced.length === 0)
        expect(result.lowerBound.boards).toBeLessThanOrEqual(result.layout.sheets.length);
    }
  });

  it('stays valid while it searches, and a longer search is never worse', async () => {
    for (let i = 0; i < 6; i++) {
      const problem = randomNestProblem(`search ${i}`);
      const quick = await nest(problem, 'quick', { seed: 1 });
      const seen: BestSoFar[] = [];
      const searched = await nest(problem, 0.1, { seed: i, onBest: (best) => seen.push(best) });
      assertValid(problem, searched.layout, `seed ${i}`);
      for (const best of seen) assertValid(problem, best.layout, `seed ${i}, on the way`);
      expect(searched.layout.unplaced.length).toBeLessThanOrEqual(quick.layout.unplaced.length);
      if (searched.layout.unplaced.length === quick.layout.unplaced.length)
        expect(costOf(problem, searched)).toBeLessThanOrEqual(costOf(problem, quick));
    }
  });

  it('shows a layout of many different parts at once, then better ones, all valid', async () => {
    const problem = wavyProblem('many kinds', 60, 60, 'quarter');
    const seen: BestSoFar[] = [];
    await nest(problem, 'quick', { seed: 1, onBest: (best) => seen.push(best) });
    for (const best of seen) assertValid(problem, best.layout, 'on the way');
    const turns = new Set(seen[0]!.layout.sheets.flatMap((sheet) => sheet.placements.map((p) => p.turnDeg)));
    expect(turns).toEqual(new Set([0]));
    expect(seen.length).toBeGreaterThan(1);
  });

  it('gives the same layout for any number of threads', async () => {
    const problem = wavyProblem('threads', 3, 16);
    const alone = await nest(problem, 0.2, { seed: 3 });
    for (const size of [1, 2]) {
      const pool = nodePool(size);
      try {
        expect(placements(await nest(problem, 0.2, { seed: 3, pool }))).toBe(placements(alone));
      } finally {
        await pool.close();
      }
    }
  });

  it('keeps the best so far when it is cancelled, at any moment', async () => {
    const problem = wavyProblem('cancel', 3, 16);
    for (const after of [0, 1, 2, 4]) {
      const stop = new AbortController();
      if (after === 0) stop.abort();
      let calls = 0;
      const result = await nest(problem, 4, {
        seed: 1,
        signal: stop.signal,
        onProgress: () => {
          if (++calls >= after) stop.abort();
        },
      });
      expect(result.endedBy).toBe('cancelled');
      assertValid(problem, result.layout, `after ${after}`);
    }
  });

  it('stops threads on cancel and keeps what they told', async () => {
    const problem = wavyProblem('cancel threads', 5, 30);
    const pool = nodePool(2);
    try {
      const stop = new AbortController();
      const running = nest(problem, 1000, { seed: 1, signal: stop.signal, pool });
      setTimeout(() => stop.abort(), 600);
      const result = await running;
      expect(result.endedBy).toBe('cancelled');
      assertValid(problem, result.layout, 'cancelled');
    } finally {
      await pool.close();
    }
  });

  it('reports progress that never goes back and ends at 1', async () => {
    const done: number[] = [];
    await nest(wavyProblem('progress', 3, 12), 0.4, { seed: 1, onProgress: (progress) => done.push(progress.done) });
    expect(done).toEqual(done.slice().sort((a, b) => a - b));
    expect(done.at(-1)).toBe(1);
  });

  it('uses holes, exact fits and both aims', async () => {
    // four columns of 120 + 3 x 2 fill 498 less the margin exactly, two rows of 146 + 2 + 147 the height
    const exact = nestProblem(
      [nestPart('a', boxRegion(123, 146.5), { quantity: 8, turns: 'fixed' })],
      [boardStock(508, 305)],
    );
    const filled = await nest(exact, 'quick', { seed: 1 });
    expect(filled.layout.sheets).toHaveLength(1);
    expect(filled.isProvedMinimal).toBe(true);
    const frame = { ...boxRegion(100, 100), holes: [Float64Array.of(10, 10, 10, 90, 90, 90, 90, 10)] };
    const holed = nestProblem([nestPart('frame', frame), nestPart('core', boxRegion(74, 74))], [boardStock(112, 112)]);
    expect((await nest(holed, 'quick', { seed: 1 })).layout.sheets).toHaveLength(1);
    const parts = [nestPart('a', boxRegion(80, 80), { quantity: 4, turns: 'fixed' })];
    const kinds = [boardStock(200, 200, { price: 10 }), boardStock(95, 95, { price: 1 })];
    const fewest = await nest(nestProblem(parts, kinds, { aim: 'fewest-boards' }), 'quick', { seed: 1 });
    expect(fewest.layout.sheets.map((sheet) => sheet.stockId)).toEqual(['200x200']);
    const cheapest = await nest(nestProblem(parts, kinds, { aim: 'cheapest' }), 'quick', { seed: 1 });
    expect(cheapest.layout.sheets.map((sheet) => sheet.stockId)).toEqual(['95x95', '95x95', '95x95', '95x95']);
  });

  it('says why pieces have no place', async () => {
    const problem = nestProblem(
      [nestPart('giant', boxRegion(400, 400)), nestPart('a', boxRegion(80, 80), { quantity: 3 })],
      [boardStock(100, 100, { count: 2 })],
    );
    const { layout } = await nest(problem, 'quick', { seed: 1 });
    expect(layout.unplaced.map(copyName)).toEqual(['giant#1', 'a#3']);
    expect(layout.unplaced[0]!.why).toContain('400 x 400 mm');
    expect(layout.unplaced[1]!.why).toContain('used up');
    assertValid(problem, layout, 'unplaced');
    const kit = nestProblem(
      [nestPart('a', boxRegion(80, 80), { quantity: 2, groups: ['kit', 'kit'] })],
      [boardStock(100, 100)],
    );
    const split = await nest(kit, 'quick', { seed: 1 });
    expect(split.layout.unplaced[0]!.why).toContain('group kit');
  });

  it('nests around pinned pieces and goes on from a layout', async () => {
    const base = wavyProblem('pins', 3, 12);
    const pinned = [
      { pieceId: 'p0', copy: 1, sheet: 0, stockId: '508x305', x: 250, y: 150, turnDeg: 90, mirrored: false },
    ];
    const problem = { ...base, pinned };
    const result = await nest(problem, 0.4, { seed: 1 });
    assertValid(problem, result.layout, 'pinned');
    // going on from a layout never loses it: a quick nest from a searched one keeps what the search found
    const searched = await nest(base, 1, { seed: 1 });
    const again = await nest(base, 'quick', { seed: 9, start: searched.layout });
    expect(again.layout.sheets.length).toBeLessThanOrEqual(searched.layout.sheets.length);
    expect(again.layout.sheets.at(-1)!.yield).toBeLessThanOrEqual(searched.layout.sheets.at(-1)!.yield + 1e-9);
    assertValid(base, again.layout, 'again');
  });

  it('keeps the group of a pinned piece on its sheet, or says why it cannot', async () => {
    const kit = ['kit 1', 'kit 2', 'kit 3'];
    const parts = [
      nestPart('large', boxRegion(180, 120), { quantity: 3, groups: kit }),
      nestPart('small', boxRegion(60, 50), { quantity: 3, groups: kit }),
    ];
    const base = nestProblem(parts, [boardStock(300, 200)]);
    const pin = { stockId: '300x200', turnDeg: 0, mirrored: false };
    const pinned = [
      { ...pin, pieceId: 'small', copy: 3, sheet: 0, x: 230, y: 140 },
      { ...pin, pieceId: 'small', copy: 1, sheet: 1, x: 5, y: 5 },
    ];
    for (const effort of ['quick', 0.2] as const) {
      const { layout } = await nest({ ...base, pinned }, effort, { seed: 1 });
      assertValid({ ...base, pinned }, layout, `effort ${effort}`);
      expect(layout.unplaced).toEqual([]);
    }
    // in the middle of its board the pinned piece leaves no room for its large mate
    const blocking = [{ ...pin, pieceId: 'small', copy: 3, sheet: 0, x: 120, y: 75 }];
    const stuck = await nest({ ...base, pinned: blocking }, 0.2, { seed: 1 });
    assertValid({ ...base, pinned: blocking }, stuck.layout, 'blocked');
    expect(stuck.layout.unplaced).toEqual([{ pieceId: 'large', copy: 3, why: expect.stringContaining('small#3') }]);
    const apart = [pinned[0]!, { ...pin, pieceId: 'large', copy: 3, sheet: 1, x: 5, y: 5 }];
    await expect(nest({ ...base, pinned: apart }, 'quick', { seed: 1 })).rejects.toThrow('share a sheet');
  });

  it('lays a board that is larger than the bed out in windows', async () => {
    const problem = nestProblem(
      [nestPart('a', boxRegion(90, 140), { quantity: 10, turns: 'fixed' })],
      [
        {
          ...boardStock(610, 305),
          reach: {
            columns: [
              { from: 5, to: 325 },
              { from: 285, to: 605 },
            ],
            rows: [{ from: 0, to: 305 }],
          },
        },
      ],
    );
    const { layout } = await nest(problem, 'quick', { seed: 1 });
    assertValid(problem, layout, 'windows');
    expect(layout.sheets).toHaveLength(1);
    expect(layout.sheets[0]!.windows.map((window) => window.x)).toEqual([5, 285]);
  });

  it('searches across the windows of a small bed', async () => {
    const wavy = wavyProblem('w107', 3, 44, 'half');
    const rows = [
      { from: 5, to: 165 },
      { from: 140, to: 300 },
    ];
    const problem = {
      ...wavy,
      stock: wavy.stock.map((board) => ({ ...board, reach: { columns: [{ from: 0, to: 508 }], rows } })),
    };
    const quick = await nest(problem, 'quick', { seed: 1 });
    const searched = await nest(problem, 2, { seed: 1 });
    assertValid(problem, searched.layout, 'searched');
    expect(searched.layout.sheets.length).toBeLessThan(quick.layout.sheets.length);
  });

  it('names what cannot be used', async () => {
    const bad = nestProblem([nestPart('a', boxRegion(10, 10))], [boardStock(100, 100)], { spacing: -1 });
    await expect(nest(bad, 'quick', { seed: 1 })).rejects.toMatchObject({ code: 'bad-rule', place: 'spacing' });
    const flat = nestProblem([nestPart('a', boxRegion(10, 0))], [boardStock(100, 100)]);
    await expect(nest(flat, 'quick', { seed: 1 })).rejects.toMatchObject({ code: 'bad-piece', place: 'a' });
    const fine = nestProblem([nestPart('a', boxRegion(10, 10))], [boardStock(100, 100)]);
    await expect(nest(fine, -3, { seed: 1 })).rejects.toMatchObject({ code: 'bad-effort' });
  });
});

function costOf(problem: NestProblem, { layout }: NestResult): number {
  const price = new Map(problem.stock.map((stock) => [stock.id, stock.price]));
  return problem.rules.aim === 'fewest-boards'
    ? layout.sheets.length
    : layout.sheets.reduce((sum, sheet) => sum + price.get(sheet.stockId)!, 0);
}
