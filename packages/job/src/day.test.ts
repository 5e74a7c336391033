import { describe, expect, it } from 'vitest';
import type { Job } from './document.ts';
import { doneSheets } from './done-sheets.ts';
import { jobFrom } from './parse-job.ts';
import { Pipeline } from './pipeline.ts';
import { planJob } from './plan-job.ts';
import type { Report } from './report-schema.ts';

/** A plate with a plank and a lamp on it, of a size of its own. */
const sign = (
  width: number,
) => `<svg xmlns="http://www.w3.org/2000/svg" width="${width}mm" height="100mm" viewBox="0 0 ${width} 100">
<rect id="plate" x="5" y="5" width="${width - 10}" height="90" fill="#7fb2c8"/>
<rect id="plank" x="20" y="20" width="${width - 40}" height="30" fill="#23395b"/>
<circle id="lamp" cx="40" cy="72" r="12" fill="#ffffff"/>
</svg>`;

const design = (id: string, width: number, count: number, order: string, more: object = {}) => ({
  id,
  order,
  count,
  artwork: { text: sign(width), name: id },
  ...more,
});

const CONDITIONS = {
  name: 'harbour day',
  bed: '320x220',
  effort: 'quick',
  stocks: [
    { id: 'board-6', thickness: 6, kerf: 0.2, boards: ['320x220'] },
    { id: 'white-3', thickness: 3, measured: 2.8, kerf: 0.1, colour: '#ffffff', boards: ['200x200'] },
  ],
};

function day(designs: object[], more: object = {}): Job {
  return jobFrom({ ...CONDITIONS, designs, ...more }, 'day');
}

/** How often every piece of every order is cut from every stock. */
function counted(report: Report): Map<string, number> {
  const counts = new Map<string, number>();
  for (const { material, placements } of report.sheets)
    for (const { order, piece } of placements) {
      const key = `${order}|${material}|${piece}`;
      counts.set(key, (counts.get(key) ?? 0) + 1);
    }
  return counts;
}

const TWO = [design('pier', 150, 2, 'cafe'), design('quay', 200, 3, 'office')];

describe('a day of several designs in several stocks', () => {
  it('cuts every piece of every order once a sign, each from its own stock, under names of its own', async () => {
    const { report, files } = await planJob(day(TWO));
    expect(Object.fromEntries(counted(report))).toEqual({
      'cafe|board-6|pier/plate': 2,
      'cafe|board-6|pier/plank': 2,
      'cafe|white-3|pier/lamp': 2,
      'office|board-6|quay/plate': 3,
      'office|board-6|quay/plank': 3,
      'office|white-3|quay/lamp': 3,
    });
    expect(report.check).toMatchObject({ ok: true, piecesExpected: 15, piecesPlaced: 15 });
    const numbers = report.sheets.flatMap(({ placements }) =>
      placements.map(({ piece, number }) => `${piece} ${number}`),
    );
    expect([...new Set(numbers)].sort()).toEqual([
      'pier/lamp 1-3',
      'pier/plank 1-2',
      'pier/plate 1-1',
      'quay/lamp 2-3',
      'quay/plank 2-2',
      'quay/plate 2-1',
    ]);
    expect(report.orders.map(({ order, signs, pieces }) => [order, signs, pieces])).toEqual([
      ['cafe', 2, 6],
      ['office', 3, 9],
    ]);
    expect(report.stocks.map(({ id, thickness }) => [id, thickness])).toEqual([
      ['board-6', 6],
      ['white-3', 2.8],
    ]);
    const white = report.paint.filter(({ parts }) => parts.some((part) => part.endsWith('lamp')));
    expect(white.map(({ colour }) => colour)).toEqual([null, null]);
    expect([...files.keys()].filter((name) => name.includes('white-3-sheet-01'))).toHaveLength(1);
  });

  it('leaves finished sheets alone when a design is added, and cuts nothing of them again', async () => {
    const pipeline = new Pipeline();
    const before = await planJob(day(TWO), { pipeline });
    const sheet = before.report.sheets[0]!;
    const done = [
      {
        sheet: sheet.id,
        stock: sheet.material,
        board: sheet.stock,
        number: sheet.number,
        pieces: sheet.placements.map(({ piece, sign: copy, shape }) => ({ piece, copy, shape })),
      },
    ];
    const more = [...TWO, design('mole', 180, 1, 'cafe')];
    const { report } = await planJob(day(more, { done }), { pipeline });
    const cut = report.sheets.flatMap(({ placements }) => placements.map(({ id }) => id));
    const finished = sheet.placements.map(({ id }) => id);
    expect(finished.filter((id) => cut.includes(id))).toEqual([]);
    expect([...cut, ...finished]).toHaveLength(18);
    expect(report.check.ok).toBe(true);
    expect(
      report.sheets.filter(({ material }) => material === sheet.material).map(({ number }) => number),
    ).not.toContain(sheet.number);
    // Numbers follow the list: pieces that are cut would be called otherwise than what is burnt on them.
    const numbered = doneSheets(before.report, [sheet.file!]);
    const first = [design('mole', 180, 1, 'cafe'), ...TWO];
    await expect(planJob(day(first, { done: numbered }), { pipeline })).rejects.toThrow(
      /carries the number .* end of the list/,
    );
    await planJob(day(more, { done: numbered }), { pipeline });
    const changed = [design('pier', 151, 2, 'cafe'), TWO[1]!];
    await expect(planJob(day(changed, { done }), { pipeline })).rejects.toThrow(/has another outline now/);
  });

  it('makes nothing again of a design when another one is added', async () => {
    const pipeline = new Pipeline();
    const before = await pipeline.designs(day(TWO));
    const after = await pipeline.designs(day([...TWO, design('mole', 180, 1, 'cafe')]));
    expect(after.slice(0, 2).map(({ split }) => split)).toEqual(before.map(({ split }) => split));
    for (const [at, { split, pieces }] of before.entries()) {
      expect(after[at]!.split).toBe(split);
      expect(after[at]!.pieces).toBe(pieces);
    }
  });

  it('keeps the pieces of an order on one sheet where that is asked', async () => {
    const { report } = await planJob(
      day([design('pier', 150, 1, 'cafe'), design('quay', 140, 1, 'cafe')], { together: 'order' }),
    );
    for (const { order } of report.orders) {
      const holding = report.sheets.filter(
        ({ material, placements }) => material === 'board-6' && placements.some((one) => one.order === order),
      );
      expect(holding).toHaveLength(1);
    }
  });

  it('takes rules for parts that only some of its designs have, and refuses those that none has', async () => {
    const buoy = {
      ...design('buoy', 120, 1, 'office'),
      artwork: { text: sign(120).replaceAll('plank', 'rope'), name: 'buoy' },
    };
    const rules = {
      turns: { parts: { plank: 'fixed' }, keepGrain: ['buoy/plate', 'pier/plank'] },
      stockOf: { parts: { rope: 'white-3' } },
    };
    const { stocks } = await planJob(day([TWO[0]!, buoy], rules));
    const turnsOf = (id: string) =>
      stocks!.flatMap(({ nested }) => nested.problem.pieces).find((piece) => piece.id === id);
    expect(turnsOf('pier/plank')).toMatchObject({ turns: 'fixed', keepsGrain: true });
    expect(turnsOf('pier/plate')).toMatchObject({ turns: 'quarter', keepsGrain: false });
    expect(turnsOf('buoy/plate')).toMatchObject({ keepsGrain: true });
    expect(stocks!.find(({ stockId }) => stockId === 'white-3')!.pieces.map(({ id }) => id)).toContain('buoy/rope');
    await expect(planJob(day([TWO[0]!, buoy], { turns: { parts: { planck: 'fixed' } } }))).rejects.toThrow(
      /turns.parts names the part "planck", which no design of the job has, did you mean "plank/,
    );
  });

  it.each<[string, object[], object, RegExp]>([
    ['two designs of one name', [TWO[0]!, design('pier', 200, 1, 'office')], {}, /two designs are called "pier"/],
    [
      'one design twice in an order',
      [TWO[0]!, { ...TWO[0]!, id: 'pier 2', artwork: TWO[0]!.artwork }],
      {},
      /are the same design for the order "cafe"/,
    ],
    [
      'a stock that is not there',
      TWO,
      { stockOf: { rest: 'bord-6' } },
      /names a stock "bord-6".*did you mean "board-6"/,
    ],
    [
      'a pinned piece of no design',
      TWO,
      { pinned: [{ piece: 'pear/plate#1', sheet: 0, stock: 'x', x: 0, y: 0, turnDeg: 0 }] },
      /no design "pear" in the job, did you mean "pier"/,
    ],
    ['a stock without boards', TWO, { stocks: [{ id: 'bare' }] }, /the stock "bare" needs at least one board/],
  ])('refuses %s', (_, designs, more, message) => {
    expect(() => day(designs, more)).toThrow(message);
  });
});
