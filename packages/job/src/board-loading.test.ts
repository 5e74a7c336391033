import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { boardLoading, goesIn, isTurnedOn, usableBed } from './board-loading.ts';
import { jobFrom } from './parse-job.ts';

const side = fc.integer({ min: 120, max: 900 });
const setting = fc.record({
  bed: fc.record({ width: side, height: side, margin: fc.integer({ min: 0, max: 12 }) }),
  board: fc.record({ width: side, height: side }),
  margin: fc.integer({ min: 0, max: 8 }),
  sawKerf: fc.integer({ min: 0, max: 4 }),
});

const jobOf = (
  { bed, board, margin, sawKerf }: typeof setting extends fc.Arbitrary<infer T> ? T : never,
  way: string,
) => jobFrom({ bed, boards: [board], margin, loading: { way, sawKerf } }, 'test');

describe('how a board gets under the beam', () => {
  it('every loading lies within the bed, as it is or turned, and together they reach all of the board but its margin', () => {
    fc.assert(
      fc.property(setting, (given) => {
        const job = jobOf(given, 'move-board');
        const { kind, pages } = boardLoading(job, given.board);
        const bed = usableBed(job.bed);
        for (const column of pages.columns) {
          for (const row of pages.rows) {
            const page = { width: column.to - column.from, height: row.to - row.from };
            expect(goesIn(bed, page) || isTurnedOn(bed, page)).toBe(true);
          }
        }
        for (const [spans, length] of [
          [pages.columns, given.board.width],
          [pages.rows, given.board.height],
        ] as const) {
          expect(spans[0]!.from).toBeLessThanOrEqual(given.margin + 1e-9);
          expect(spans.at(-1)!.to).toBeGreaterThanOrEqual(length - given.margin - 1e-9);
          for (let k = 1; k < spans.length; k++) expect(spans[k]!.from).toBeLessThanOrEqual(spans[k - 1]!.to + 1e-9);
        }
        if (kind === 'whole') expect([pages.columns.length, pages.rows.length]).toEqual([1, 1]);
      }),
      { numRuns: 300, seed: 5 },
    );
  });

  it('panels lie apart by the saw kerf, within board and bed, and pieces keep the margin of every one', () => {
    fc.assert(
      fc.property(setting, (given) => {
        const job = jobOf(given, 'cut-down');
        const { kind, pages, reach } = boardLoading(job, given.board);
        if (kind === 'whole') return;
        expect(kind).toBe('panels');
        const bed = usableBed(job.bed);
        for (const [spans, inner, length] of [
          [pages.columns, reach.columns, given.board.width],
          [pages.rows, reach.rows, given.board.height],
        ] as const) {
          spans.forEach((span, k) => {
            if (k > 0) expect(span.from - spans[k - 1]!.to).toBeCloseTo(given.sawKerf, 9);
            expect(span.to).toBeLessThanOrEqual(length + 1e-9);
            expect(inner[k]!.from - span.from).toBeCloseTo(given.margin, 9);
            expect(span.to - inner[k]!.to).toBeCloseTo(given.margin, 9);
          });
        }
        for (const column of pages.columns) {
          for (const row of pages.rows) {
            const page = { width: column.to - column.from, height: row.to - row.from };
            expect(goesIn(bed, page) || isTurnedOn(bed, page)).toBe(true);
          }
        }
      }),
      { numRuns: 300, seed: 6 },
    );
  });

  it('takes no more panels than the board has room for, whichever way the bed lies', () => {
    const job = jobFrom(
      { bed: '300x200', boards: ['610x305'], margin: 2, loading: { way: 'cut-down', sawKerf: 0 } },
      'test',
    );
    const { pages } = boardLoading(job, job.boards[0]!);
    expect(pages.columns.length * pages.rows.length).toBeLessThanOrEqual(6);
  });

  it('pass-through makes one direction as long as the material may be', () => {
    const bed = { width: 600, height: 300, passThrough: 'width', passLength: 1200 };
    const job = jobFrom({ bed, boards: ['1100x290', '1300x290'] }, 'test');
    expect(boardLoading(job, job.boards[0]!).kind).toBe('whole');
    expect(boardLoading(job, job.boards[1]!).kind).toBe('moved');
  });
});
