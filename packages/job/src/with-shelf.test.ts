import { describe, expect, it } from 'vitest';
import type { Job } from './document.ts';
import { jobFrom } from './parse-job.ts';
import { Pipeline } from './pipeline.ts';
import { planJob } from './plan-job.ts';
import type { KeptOffcut, Shelf } from './shelf.ts';
import { bookReport, restsIn } from './shelf-report.ts';
import { withShelf } from './with-shelf.ts';

/** Two planks that fill a board, and a block that needs a second one. */
const SIGN = `<svg xmlns="http://www.w3.org/2000/svg" width="300mm" height="300mm" viewBox="0 0 300 300">
<rect id="plank-1" x="0" y="0" width="280" height="88" fill="#7fb2c8"/>
<rect id="plank-2" x="0" y="100" width="280" height="88" fill="#7fb2c8"/>
<rect id="block" x="0" y="200" width="80" height="60" fill="#23395b"/>
</svg>`;

const job: Job = jobFrom(
  {
    artwork: { text: SIGN, name: 'pier' },
    bed: '300x200',
    boards: ['300x200'],
    material: 'fibreboard',
    effort: 'quick',
    shop: { restSide: 50 },
  },
  'pier',
);

const offcut = (id: string, width: number, height: number, over: Partial<KeptOffcut> = {}): KeptOffcut => ({
  id,
  outline: `M0 0H${width}V${height}H0Z`,
  areaMm2: width * height,
  rectangle: { x: 0, y: 0, width, height },
  material: 'fibreboard',
  thickness: 6,
  grain: false,
  from: '',
  since: '2026-05-31',
  ...over,
});
const shelf = (...offcuts: KeptOffcut[]): Shelf => ({ version: 1, offcuts, bookings: [] });
const pipeline = new Pipeline();

describe('the shelf in a job', () => {
  it('is used where that saves a board, oldest or best first, and every other offcut is told why not', async () => {
    const full = shelf(
      offcut('new', 150, 100, { since: '2026-06-02' }),
      offcut('old', 200, 120, { since: '2026-01-02' }),
      offcut('low', 110, 58),
      offcut('thin', 200, 150, { thickness: 3 }),
    );
    const oldest = await withShelf(job, full, 'oldest', pipeline);
    expect([oldest.boardsWithout, oldest.boardsWith, ...oldest.used]).toEqual([2, 1, 'old']);
    expect(oldest.left).toEqual([
      { id: 'thin', why: 'it is 3 mm thick, and 6 mm are needed' },
      { id: 'low', why: 'it would not save another board' },
      { id: 'new', why: 'it would not save another board' },
    ]);
    expect((await withShelf(job, full, 'best', pipeline)).used).toEqual(['new']);
  }, 60_000);

  it('is left alone where it saves nothing', async () => {
    const use = await withShelf(job, shelf(offcut('low', 110, 58)), 'oldest', pipeline);
    expect(use.used).toEqual([]);
    expect(use.job).toBe(job);
    expect(use.left).toEqual([{ id: 'low', why: 'it would not save a board' }]);
  }, 60_000);

  it('is booked from the report: what was used goes, what is left comes, once', async () => {
    const full = shelf(offcut('old', 200, 120));
    const use = await withShelf(job, full, 'oldest', pipeline);
    const { report } = await planJob(use.job, { pipeline });
    const rests = restsIn(report);
    // The offcut leaves what its block does not take; the board is full.
    expect(rests.length).toBe(1);
    expect(rests[0]!.thickness).toBe(6);
    expect(rests[0]!.areaMm2).toBeLessThan(200 * 120 - 80 * 60);
    expect(rests[0]!.areaMm2).toBeGreaterThan(200 * 120 - 120 * 120);
    const booked = bookReport(full, report, '2026-06-01');
    expect(booked.offcuts.map(({ id }) => id)).toEqual([rests[0]!.id]);
    expect(booked.bookings.map(({ what }) => what)).toEqual(['out', 'in']);
    expect(bookReport(booked, report, '2026-06-02')).toEqual(booked);
  }, 60_000);
});
