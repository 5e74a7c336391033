import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { jobFrom } from '@underlap/job/parse-job';
import { planJob } from '@underlap/job/plan-job';
import { expect, test } from 'vitest';
import { recheckSheet } from '../support/recheck-sheets.ts';

const samples = fileURLToPath(new URL('../../samples', import.meta.url));

/** Boards are larger than these beds, and some pieces fit a bed only askew: all of them must find a place in its reach. */
test.each([
  ['harbour-sign', 400, 400],
  ['round-sign', 300, 200],
])('%s on a bed of %i x %i: every piece lies in the reach of the bed', async (name, width, height) => {
  const document = JSON.parse(readFileSync(`${samples}/${name}.job.json`, 'utf8')) as Record<string, unknown>;
  const artwork = { text: readFileSync(`${samples}/${name}.svg`, 'utf8') };
  const job = jobFrom({ ...document, artwork, bed: { width, height }, batch: 1, effort: 'quick' }, name);
  const { report, files } = await planJob(job);
  expect(report.notFitting).toEqual([]);
  expect(report.check.piecesPlaced).toBe(report.check.piecesExpected);
  const sheets = [...files].filter(([file]) => file.endsWith('.svg'));
  expect(sheets).toHaveLength(report.loadings.length);
  let pieces = 0;
  for (const [, text] of sheets) {
    const found = recheckSheet(text as string);
    pieces += found.pieces.length;
    expect(found.leastGapMm).toBeGreaterThan(job.spacing - 0.004);
    // a file is what the bed reaches: it ends within the board, and its pieces keep within it
    expect(found.leastMarginMm).toBeGreaterThan(-0.004);
    expect(Math.max(found.widthMm, found.heightMm)).toBeLessThanOrEqual(Math.max(width, height));
    expect(Math.min(found.widthMm, found.heightMm)).toBeLessThanOrEqual(Math.min(width, height));
  }
  expect(pieces).toBe(report.check.piecesExpected);
  for (const [index, sheet] of report.sheets.entries()) {
    const own = report.loadings.filter((loading) => loading.sheets.includes(index + 1));
    const listed = own.flatMap((loading) => loading.pieces);
    expect([...listed].sort()).toEqual(sheet.placements.map((placement) => placement.id).sort());
  }
});
