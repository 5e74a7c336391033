import { ringBounds } from '@underlap/geometry/ring';
import { describe, expect, it } from 'vitest';
import { studyBatches } from './batch-study.ts';
import { compareLayouts } from './comparison.ts';
import type { Job } from './document.ts';
import { jobFrom } from './parse-job.ts';
import { Pipeline } from './pipeline.ts';
import { planJob } from './plan-job.ts';

/** A long plate and a long plank, a thin board and a lamp on it, in layers of their own. */
const SIGN = `<svg xmlns="http://www.w3.org/2000/svg" width="300mm" height="160mm" viewBox="0 0 300 160">
<g id="ground"><rect id="plate" x="5" y="5" width="290" height="150" fill="#7fb2c8"/></g>
<g id="face"><rect id="plank" x="5" y="50" width="290" height="60" fill="#23395b"/></g>
<g id="lights"><circle id="lamp" cx="60" cy="80" r="12" fill="#ffd27f"/></g>
</svg>`;

function day(more: object = {}, thin: object = {}, designs: object[] = [{ id: 'pier' }]): Job {
  return jobFrom(
    {
      bed: '200x240',
      effort: 'quick',
      stocks: [
        { id: 'thick', thickness: 6, kerf: 0.3, fit: 0.1, boards: ['200x240'] },
        { id: 'thin', thickness: 3, kerf: 0.1, fit: -0.05, boards: ['200x240'], ...thin },
      ],
      stockOf: { layers: { face: 'thin', lights: 'thin' } },
      designs: designs.map((design) => ({ artwork: { text: SIGN, name: 'pier' }, ...design })),
      ...more,
    },
    'day',
  );
}

const pipeline = new Pipeline();
const plan = (job: Job) => planJob(job, { pipeline });

describe('what a stock is decides what is cut from it', { timeout: 300_000 }, () => {
  it('thickness, kerf and fit: knobs as strong as the board, outlines grown by its own kerf, edges by its own fit', async () => {
    const { designs, stocks } = await plan(day());
    const [{ split, pieces }] = designs as [(typeof designs)[number]];
    const necks = (partId: string) =>
      split.parts
        .find((part) => part.partId === partId)!
        .plan!.seams.flatMap(({ knobs }) => knobs.map(({ neck }) => neck));
    expect(Math.min(...necks('plate'))).toBeGreaterThanOrEqual(0.98 * 6);
    expect(Math.min(...necks('plank'))).toBeGreaterThanOrEqual(0.98 * 3);
    expect(Math.min(...necks('plank'))).toBeLessThan(Math.min(...necks('plate')));
    const grown = (id: string) => {
      const of = (ring: Float64Array) => ringBounds(ring).maxX - ringBounds(ring).minX;
      const piece = pieces.find((candidate) => candidate.id === id)!;
      return of(piece.cutRegion.outer) - of(piece.region.outer);
    };
    expect(grown('lamp')).toBeCloseTo(0.1, 2);
    expect(stocks!.map(({ stockId, job: { thickness, kerf, fit } }) => [stockId, thickness, kerf, fit])).toEqual([
      ['thick', 6, 0.3, 0.1],
      ['thin', 3, 0.1, -0.05],
    ]);
    const between = (partId: string) => {
      const [a, b] = pieces
        .filter((piece) => piece.partId === partId)
        .map(({ cutRegion }) => ringBounds(cutRegion.outer));
      return a!.maxX + b!.maxX - a!.minX - b!.minX;
    };
    const drawn = (partId: string) => {
      const [a, b] = pieces.filter((piece) => piece.partId === partId).map(({ region }) => ringBounds(region.outer));
      return a!.maxX + b!.maxX - a!.minX - b!.minX;
    };
    // Two outer edges and two mating edges: two halves of the kerf each, less the fit.
    expect(between('plate') - drawn('plate')).toBeCloseTo(2 * 0.3 - 0.1, 1);
    expect(between('plank') - drawn('plank')).toBeCloseTo(2 * 0.1 + 0.05, 1);
  });

  it('guides stand on boards of another stock, and plates come from the stock of the part that they join', async () => {
    const { designs } = await plan(day({ seams: { plates: true } }));
    const { pieces, split } = designs[0]!;
    const guided = (partId: string) =>
      new Set(
        pieces
          .filter((piece) => piece.partId === partId)
          .flatMap(({ marks }) => marks.filter(({ kind }) => kind === 'guide').map(({ label }) => label)),
      );
    expect(guided('plate')).toEqual(new Set(['plank']));
    expect(guided('plank')).toEqual(new Set(['lamp']));
    expect(split.plates.length).toBeGreaterThan(0);
    for (const { id, ofPartId } of split.plates)
      expect(pieces.find((piece) => piece.id === id)!.stockId).toBe(ofPartId === 'plate' ? 'thick' : 'thin');
  });

  it('a part goes to the stock told for it before that for its paint, and that before that for its layer', async () => {
    const stockOf = async (rules: object) => {
      const { report } = await plan(day({ stockOf: { layers: { lights: 'thin' }, ...rules } }));
      return report.parts.find(({ name }) => name === 'lamp')!.stock;
    };
    expect(await stockOf({})).toBe('thin');
    expect(await stockOf({ paints: { '#ffd27f': 'thick' } })).toBe('thick');
    expect(await stockOf({ paints: { '#ffd27f': 'thick' }, parts: { lamp: 'thin' } })).toBe('thin');
  });

  it('speeds count for its own sheets only', async () => {
    const secondsOf = async (thin: object) => {
      const { report } = await plan(day({}, thin));
      const sum = (id: string) =>
        report.sheets.filter(({ material }) => material === id).reduce((total, { seconds }) => total + seconds, 0);
      return { thick: sum('thick'), thin: sum('thin') };
    };
    const usual = await secondsOf({});
    const slow = await secondsOf({ speeds: { cut: 2 } });
    expect(slow.thick).toBeCloseTo(usual.thick, 6);
    expect(slow.thin).toBeGreaterThan(1.5 * usual.thin);
  });

  it('grain holds parts that keep it on its own boards, and only there', async () => {
    const { stocks } = await plan(day({ turns: { keepGrain: ['lamp', 'plate'] } }, { grain: true }));
    const turnsOf = (stockId: string, partId: string) =>
      stocks!
        .find((stock) => stock.stockId === stockId)!
        .layout.sheets.flatMap(({ placements }) => placements)
        .filter(({ pieceId }) => pieceId.startsWith(`pier/${partId}`))
        .map(({ turnDeg }) => ((turnDeg % 180) + 180) % 180);
    expect(turnsOf('thin', 'lamp')).toEqual([0]);
    expect(stocks!.find(({ stockId }) => stockId === 'thin')!.job.boards.map(({ grain }) => grain)).toEqual([true]);
    expect(stocks!.find(({ stockId }) => stockId === 'thick')!.job.boards.map(({ grain }) => grain)).toEqual([false]);
  });

  it('offcuts are those of its own stock', async () => {
    const rest = { id: 'rest-1', outline: 'M0 0H60V60H0Z' };
    const { report } = await plan(
      day({ aim: 'fewest-bought', stockOf: { layers: { lights: 'thin' } } }, { offcuts: [rest] }),
    );
    const [own] = report.sheets.filter(({ stock }) => stock.startsWith('rest-1'));
    expect(own).toMatchObject({ material: 'thin' });
    expect(own!.placements.map(({ piece }) => piece)).toEqual(['pier/lamp']);
    expect(report.sheets.filter(({ material }) => material === 'thick').map(({ stock }) => stock)).not.toContain(
      'rest-1',
    );
  });
});

describe('studies of a list of designs in two stocks', { timeout: 300_000 }, () => {
  const two = () => day({}, {}, [{ id: 'pier' }, { id: 'quay', count: 2, order: 'office' }]);

  it('estimate tells the boards of all designs and stocks together', async () => {
    const { report } = await plan(two());
    const rows = await studyBatches(two(), [1, 2], {}, { pipeline });
    expect(rows.map(({ batch }) => batch)).toEqual([1, 2]);
    expect(rows[0]!.boards).toBe(report.boards);
    expect(rows[0]!.boardsPerSign).toBeCloseTo(report.boards / 3, 9);
    expect(rows[1]!.boards).toBeGreaterThan(rows[0]!.boards);
    expect(rows[1]!.boards).toBeLessThanOrEqual(2 * rows[0]!.boards);
    for (const { boards, boardsLowerBound, unplaced } of rows) {
      expect(boardsLowerBound).toBeLessThanOrEqual(boards);
      expect(unplaced).toBe(0);
    }
    // One design less takes fewer boards: the others count.
    const [less] = await studyBatches(day(), [1], {}, { pipeline });
    expect(less!.boards).toBeLessThan(rows[0]!.boards);
  });

  it('compare lays all of them out on every board and by every rule', async () => {
    const axes = {
      boards: [
        { width: 200, height: 240 },
        { width: 400, height: 240 },
      ],
      turns: ['fixed', 'quarter'] as const,
      batches: [1],
    };
    const made = await compareLayouts(two(), axes, {}, { pipeline });
    expect(made.map(({ row }) => `${row.board} ${row.turns}`)).toEqual([
      '200x240 fixed',
      '200x240 quarter',
      '400x240 fixed',
      '400x240 quarter',
    ]);
    for (const { row, stocks } of made) {
      expect(row.problem).toBeNull();
      expect(stocks!.map(({ stockId }) => stockId)).toEqual(['thick', 'thin']);
      const copies = stocks!.flatMap(({ layout }) => layout.sheets.flatMap(({ placements }) => placements));
      // Three signs of two halves, two halves and a lamp.
      expect(copies.length % 3).toBe(0);
      expect(copies.length).toBeGreaterThanOrEqual(15);
    }
    expect(made[1]!.row.boards).toBeLessThanOrEqual(made[0]!.row.boards);
  });
});
