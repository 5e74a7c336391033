import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { type Report, reportSchema } from '@underlap/job/report-schema';
import { beforeAll, describe, expect, it } from 'vitest';
import { gapBetween, geometryOf, recheckSheet } from '../support/recheck-sheets.ts';
import { freshFolder, runWithin, SMALL_SIGN } from '../support/run-cli.ts';

const FLAW = { x: 300, y: 250, width: 30, height: 30 };
const FLAW_OUTLINE = 'M300 250H330V280H300Z';
/** What the offcut lacks of its bounding box. */
const BAY = 'M300 120H340V280H300Z';

/** Everything a maker may ask of the layout at once: an odd offcut, a flaw, grain, turns and mirrors, signs kept together, a pin. */
const JOB = {
  artwork: { text: SMALL_SIGN, name: 'small' },
  bed: '400x320',
  boards: [{ width: 340, height: 290, forbidden: [FLAW], grain: true }],
  offcuts: [{ id: 'left over', outline: 'M0 0H340V120H300V280H0Z', count: 1 }],
  turns: { default: 'quarter', mirror: ['leaf'], parts: { leaf: { stepDeg: 30 } }, keepGrain: ['strip'] },
  together: 'sign',
  batch: 2,
  effort: 'quick',
  pinned: [{ piece: 'ring-1#2', sheet: 0, stock: '340x290', x: 240, y: 150, turnDeg: 0, mirrored: false }],
};

describe('wishes for the layout, through the command line', () => {
  const out = join(freshFolder(), 'files');
  let report: Report;

  beforeAll(async () => {
    const job = join(freshFolder(), 'wishes.job.json');
    writeFileSync(job, JSON.stringify(JOB));
    const run = await runWithin(['plan', job, '--out', out, '--json']);
    expect(run).toMatchObject({ code: 0, stderr: '' });
    report = reportSchema.parse(JSON.parse(run.stdout));
  }, 120_000);

  const placements = () =>
    report.sheets.flatMap((sheet, index) => sheet.placements.map((p) => ({ ...p, index, sheet })));

  it('leaves the pinned piece where it is and lays the rest around it', () => {
    const [pin] = JOB.pinned;
    const found = placements().find((p) => p.id === pin!.piece)!;
    expect(found.sheet.stock).toBe(pin!.stock);
    expect([found.x, found.y, found.turnDeg]).toEqual([pin!.x, pin!.y, pin!.turnDeg]);
    expect(placements()).toHaveLength(8);
    expect(report.check).toMatchObject({ ok: true, piecesPlaced: 8 });
  });

  it('keeps each sign on one sheet and uses the offcut on hand', () => {
    for (const sign of [1, 2]) {
      expect(
        new Set(
          placements()
            .filter((p) => p.sign === sign)
            .map((p) => p.index),
        ).size,
      ).toBe(1);
    }
    expect(report.sheets.map((sheet) => sheet.stock).sort()).toEqual(['340x290', 'left over']);
  });

  it('turns and mirrors only what may be, and keeps the grain', () => {
    for (const p of placements()) {
      expect(p.mirrored && p.part !== 'leaf').toBe(false);
      if (p.part === 'leaf') expect(Math.abs(p.turnDeg / 30 - Math.round(p.turnDeg / 30))).toBeLessThan(1e-9);
      if (p.part === 'strip' && p.sheet.stock === '340x290') expect(p.turnDeg % 180).toBe(0);
    }
  });

  it('keeps spacing, margin, the flaw and the bay of the offcut clear, as an outsider measures', () => {
    for (const sheet of report.sheets) {
      const found = recheckSheet(readFileSync(join(out, sheet.file!), 'utf8'));
      expect(found.leastGapMm).toBeGreaterThanOrEqual(2 - 0.002);
      expect(found.leastMarginMm).toBeGreaterThanOrEqual(5 - 0.002);
      const [zone, gap] = sheet.stock === 'left over' ? [BAY, 5] : [FLAW_OUTLINE, 2];
      for (const { id, geometry } of found.pieces) {
        expect(gapBetween(geometry, geometryOf(zone, [])), id).toBeGreaterThanOrEqual(gap - 0.002);
      }
    }
  });
});
