import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { type Report, reportSchema } from '@underlap/job/report-schema';
import { beforeAll, describe, expect, it } from 'vitest';
import { recheckSheet, type SheetFindings } from '../support/recheck-sheets.ts';
import { freshFolder, ROOT, runCli } from '../support/run-cli.ts';

/** How far an outsider's measurement may differ from what was asked, mm: his chords and the file's last digits. */
const MEASURED_MM = 0.002;

const SAMPLES = [
  { name: 'harbour-sign', parts: 18, batch: 4, hiddenShare: 1 },
  { name: 'round-sign', parts: 12, batch: 2, hiddenShare: 1 },
  { name: 'wide-sign', parts: 18, batch: 1, hiddenShare: null },
] as const;

describe.each(SAMPLES)('planning $name from the command line', ({ name, parts, batch, hiddenShare }) => {
  const out = join(freshFolder(), 'files');
  let report: Report;
  let sheets: { file: string; text: string; found: SheetFindings }[];

  beforeAll(async () => {
    const job = join('samples', `${name}.job.json`);
    const run = await runCli(['plan', job, '--out', out, '--batch', String(batch), '--effort', 'quick', '--json']);
    expect(run.stderr).toBe('');
    expect(run.code).toBe(0);
    // One object on stdout and nothing else, the same that lies in the folder.
    expect(JSON.parse(run.stdout)).toEqual(JSON.parse(readFileSync(join(out, 'report.json'), 'utf8')));
    report = reportSchema.parse(JSON.parse(run.stdout));
    // equal boards are cut from one file
    const cut = report.sheets.filter((sheet) => sheet.sameAs === null);
    sheets = cut.map((sheet) => {
      const text = readFileSync(join(out, sheet.file!), 'utf8');
      return { file: sheet.file!, text, found: recheckSheet(text) };
    });
  }, 240_000);

  it('writes the sheets, the report and its page, and nothing else', () => {
    expect(readdirSync(out).sort()).toEqual(
      [...sheets.map((sheet) => sheet.file), 'build-guide.html', 'report.html', 'report.json'].sort(),
    );
    expect(readdirSync(join(out, '..'))).toEqual(['files']);
    const page = readFileSync(join(out, 'report.html'), 'utf8');
    expect(page).not.toMatch(/<script|<link|src=|@import|url\(|https?:(?!\/\/www\.w3\.org\/2000\/svg)/);
  });

  it('has every piece of every sign once, on sheets of true size', () => {
    expect(report.artwork.parts).toBe(parts);
    const pieces = report.parts.reduce((sum, part) => sum + part.pieces, 0);
    const written = sheets.flatMap((sheet) => sheet.found.pieces.map((piece) => piece.id));
    const times = report.loadings.map((loading) => loading.times * loading.pieces.length);
    expect(times.reduce((sum, count) => sum + count, 0)).toBe(pieces * batch);
    expect(new Set(written).size).toBe(written.length);
    const cut = report.sheets.filter((sheet) => sheet.sameAs === null);
    expect(written.sort()).toEqual(cut.flatMap((sheet) => sheet.placements.map((entry) => entry.id)).sort());
    const all = report.sheets.flatMap((sheet) => sheet.placements.map((entry) => entry.id));
    expect(new Set(all).size).toBe(pieces * batch);
    for (const { found } of sheets) expect([found.widthMm, found.heightMm]).toEqual([508, 305]);
  });

  it('keeps spacing and margin, as an outsider measures them', () => {
    for (const { found } of sheets) {
      expect(found.leastGapMm).toBeGreaterThanOrEqual(2 - MEASURED_MM);
      expect(found.leastMarginMm).toBeGreaterThanOrEqual(5 - MEASURED_MM);
    }
    const least = Math.min(...sheets.map((sheet) => sheet.found.leastGapMm));
    if (Number.isFinite(least)) expect(report.check.smallestGapMm).toBeCloseTo(least, 2);
  });

  it('says no more and no less than it wrote', () => {
    expect(report.check.ok).toBe(true);
    expect(report.boards).toBe(report.loadings.reduce((sum, loading) => sum + loading.times, 0));
    expect(report.boardsLowerBound).toBeGreaterThan(0);
    expect(report.boardsLowerBound).toBeLessThanOrEqual(report.boards);
    const nominal = report.parts.reduce((sum, part) => sum + part.areaMm2, 0) * batch;
    expect(report.yield).toBeCloseTo(nominal / (report.boards * 508 * 305), 4);
    expect(report.cautions.length).toBeGreaterThan(3);
  });

  it('splits what does not fit, locked and hidden as far as can be', () => {
    expect(report.seams.length).toBeGreaterThan(0);
    for (const seam of report.seams) {
      expect(seam.knobs).toBeGreaterThan(0);
      expect(seam.neckMm).toBeGreaterThanOrEqual(6 * 0.98);
      if (hiddenShare !== null) expect(seam.hiddenShare).toBeGreaterThanOrEqual(hiddenShare - 1e-6);
    }
    for (const split of report.splits) {
      const whole = report.parts.find((part) => part.id === split.part)!.areaMm2;
      const sum = report.pieces
        .filter((piece) => piece.part === split.part)
        .reduce((area, piece) => area + piece.areaMm2, 0);
      expect(Math.abs(sum / whole - 1)).toBeLessThan(1e-9);
      expect(split.pieces).toBeGreaterThanOrEqual(split.piecesLowerBound);
    }
  });

  it('groups processes in cutting order and says that the kerf is in', () => {
    for (const { text } of sheets) {
      const order = [...text.matchAll(/<g [^>]*data-process="([^"]+)"/g)].map((match) => match[1]!);
      const ranks = order.map((process) =>
        ['engrave', 'score', 'deep-score', 'cut-inner', 'cut-outer'].indexOf(process),
      );
      expect(ranks).toEqual([...ranks].sort((a, b) => a - b));
      expect(ranks).not.toContain(-1);
      expect(text).toContain('data-kerf="compensated"');
    }
  });
});

describe('curves stay curves', () => {
  it('writes uncompensated parts with the arcs and Beziers of the drawing', async () => {
    const out = join(freshFolder(), 'files');
    const options = ['--batch', '1', '--effort', 'quick', '--compensate', 'none'];
    const run = await runCli(['plan', 'samples/harbour-sign.job.json', '--out', out, ...options]);
    expect(run.code).toBe(0);
    const text = readdirSync(out)
      .filter((file) => file.endsWith('.svg'))
      .map((file) => readFileSync(join(out, file), 'utf8'))
      .join('');
    const sun = /data-piece="sun#1" d="([^"]+)"/.exec(text);
    expect(sun![1]).toMatch(/^M[^LC]*A[^LC]*Z$/);
    const drawn = readFileSync(join(ROOT, 'samples/harbour-sign.svg'), 'utf8');
    const wave = /id="wave-low"[^>]* d="([^"]+)"/.exec(drawn)![1]!;
    const cut = /data-piece="wave-low#1" d="([^"]+)"/.exec(text)![1]!;
    expect(cut.match(/C/g)).toHaveLength(wave.match(/C/g)!.length);
    expect(text).toContain('data-kerf="nominal"');
  }, 240_000);

  it('leaves no folder behind when it is stopped', async () => {
    const folder = freshFolder();
    const run = await runCli(
      ['plan', 'samples/harbour-sign.job.json', '--out', join(folder, 'files'), '--effort', 'thorough'],
      6000,
    );
    expect(run.code).toBe(130);
    expect(existsSync(join(folder, 'files'))).toBe(false);
    expect(readdirSync(folder)).toEqual([]);
  }, 240_000);
});
