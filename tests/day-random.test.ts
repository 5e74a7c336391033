import type { Job } from '@underlap/job/document';
import { jobFrom } from '@underlap/job/parse-job';
import { Pipeline } from '@underlap/job/pipeline';
import { planJob } from '@underlap/job/plan-job';
import type { Report } from '@underlap/job/report-schema';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';

/** A small sign: a plate, a plank on it in one of two colours, and discs. */
interface RandomDesign {
  readonly width: number;
  readonly height: number;
  readonly discs: number;
  readonly paint: string;
  readonly count: number;
  readonly order: string;
}

const drawn = ({ width, height, discs, paint }: RandomDesign): string =>
  `<svg xmlns="http://www.w3.org/2000/svg" width="${width}mm" height="${height}mm" viewBox="0 0 ${width} ${height}">
<rect id="plate" x="2" y="2" width="${width - 4}" height="${height - 4}" fill="#7fb2c8"/>
<rect id="plank" x="8" y="8" width="${width - 16}" height="18" fill="${paint}"/>
${Array.from({ length: discs }, (_, at) => `<circle id="disc-${at}" cx="${14 + 18 * at}" cy="${height - 16}" r="7" fill="#ffffff"/>`).join('')}
</svg>`;

const design = fc.record<RandomDesign>({
  width: fc.integer({ min: 70, max: 150 }),
  height: fc.integer({ min: 60, max: 100 }),
  discs: fc.integer({ min: 0, max: 3 }),
  paint: fc.constantFrom('#23395b', '#c0392b'),
  count: fc.integer({ min: 1, max: 3 }),
  order: fc.constantFrom('quay', 'mole', 'pier'),
});

const day = fc.record({
  designs: fc.array(design, { minLength: 2, maxLength: 4 }),
  late: design,
  together: fc.constantFrom('free', 'sign', 'order'),
  finished: fc.nat(),
});

function jobOf(designs: readonly RandomDesign[], together: string, done: object[] = []): Job {
  return jobFrom(
    {
      name: 'day',
      bed: '320x220',
      effort: 'quick',
      together,
      done,
      stocks: [
        { id: 'thick', thickness: 6, boards: ['320x220'] },
        { id: 'thin', thickness: 3, kerf: 0.1, boards: ['200x160'] },
      ],
      stockOf: { paints: { '#c0392b': 'thin', '#ffffff': 'thin' } },
      designs: designs.map((one, at) => ({
        id: `sign ${at + 1}`,
        order: one.order,
        count: one.count,
        artwork: { text: drawn(one), name: `sign ${at + 1}` },
      })),
    },
    'day',
  );
}

/** How many pieces of every order are to come from every stock, counted from the drawings alone. */
function wanted(designs: readonly RandomDesign[]): Record<string, number> {
  const counts: Record<string, number> = {};
  const add = (key: string, count: number) => {
    if (count > 0) counts[key] = (counts[key] ?? 0) + count;
  };
  for (const { order, discs, paint, count } of designs) {
    add(`${order} thick`, count * (paint === '#c0392b' ? 1 : 2));
    add(`${order} thin`, count * (discs + (paint === '#c0392b' ? 1 : 0)));
  }
  return counts;
}

function made({ sheets }: Pick<Report, 'sheets'>): Record<string, number> {
  const counts: Record<string, number> = {};
  for (const { material, placements } of sheets)
    for (const { order } of placements) counts[`${order} ${material}`] = (counts[`${order} ${material}`] ?? 0) + 1;
  return counts;
}

describe('random days', { timeout: 300_000 }, () => {
  it('lose no piece of any order in any stock, mix no stocks, and leave finished sheets alone', async () => {
    const pipeline = new Pipeline();
    await fc.assert(
      fc.asyncProperty(day, async ({ designs, late, together, finished }) => {
        const { report } = await planJob(jobOf(designs, together), { pipeline });
        expect(made(report)).toEqual(wanted(designs));
        expect(report.check.ok).toBe(true);
        const stockOf = new Map(report.parts.map(({ id, stock }) => [id, stock]));
        for (const { material, placements } of report.sheets)
          expect(new Set([material, ...placements.map(({ part }) => stockOf.get(part))]).size).toBe(1);
        const ids = report.sheets.flatMap(({ placements }) => placements.map(({ id }) => id));
        expect(new Set(ids).size).toBe(ids.length);

        const sheet = report.sheets[finished % report.sheets.length]!;
        const pieces = sheet.placements.map(({ piece, sign, shape }) => ({ piece, copy: sign, shape }));
        const done = { sheet: sheet.id, stock: sheet.material, board: sheet.stock, number: sheet.number, pieces };
        const next = (await planJob(jobOf([...designs, late], together, [done]), { pipeline })).report;
        expect(next.check.ok).toBe(true);
        expect(made({ sheets: [...next.sheets, sheet] })).toEqual(wanted([...designs, late]));
        const again = new Set(next.sheets.flatMap(({ placements }) => placements.map(({ id }) => id)));
        expect(sheet.placements.filter(({ id }) => again.has(id))).toEqual([]);
        const own = next.sheets.filter(({ material }) => material === sheet.material);
        expect(own.map(({ number }) => number)).not.toContain(sheet.number);
      }),
      { numRuns: 6, seed: 1931 },
    );
  });
});
