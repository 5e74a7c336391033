import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Report } from '@underlap/job/report-schema';
import { describe, expect, it } from 'vitest';
import { freshFolder, ROOT, runWithin } from '../support/run-cli.ts';

const FOLDER = join(ROOT, 'samples/harbour-day');
const DAY = join(FOLDER, 'day.job.json');

/** The sample's job with its files named from anywhere, and with changes. */
function dayWith(change: (job: string) => string): string {
  const text = readFileSync(DAY, 'utf8')
    .replaceAll(/"([a-z-]+\.(?:svg|csv))"/g, (_, file) => JSON.stringify(join(FOLDER, file)))
    .replace('../../node_modules', join(ROOT, 'node_modules'));
  const path = join(freshFolder(), 'day.job.json');
  writeFileSync(path, change(text));
  return path;
}

async function plan(job: string, out: string): Promise<Report> {
  const run = await runWithin(['plan', job, '--out', out, '--json']);
  expect(run.stderr.split('\n').filter((line) => line.startsWith('underlap:'))).toEqual([]);
  expect(run.code).toBe(0);
  return JSON.parse(run.stdout) as Report;
}

describe('a day of work on the command line', { timeout: 400_000 }, () => {
  it('lays several designs, names and stocks out, tells them by order, and leaves finished sheets alone', async () => {
    const out = freshFolder();
    const report = await plan(
      dayWith((job) => job),
      out,
    );
    expect(report.designs.map(({ id, order, count }) => [id, order, count])).toEqual([
      ['door round', 'Gull Street 4', 3],
      ['plaque Holm', 'Gull Street 4', 1],
      ['plaque Petersen', 'Quay 12', 2],
      ['gull', 'the shop on the quay', 4],
    ]);
    expect(report.stocks.map(({ id, thickness }) => [id, thickness])).toEqual([
      ['board-6', 5.9],
      ['white-3', 3],
    ]);
    // White parts and letters come from the white board and need no paint; no sheet has parts of both stocks.
    const stockOf = new Map(report.parts.map((part) => [part.id, part.stock]));
    const paintOf = new Map(report.parts.map((part) => [part.id, part.paint]));
    for (const { material, placements } of report.sheets)
      for (const { part } of placements) {
        expect(stockOf.get(part)).toBe(material);
        expect(material === 'white-3').toBe(paintOf.get(part) === '#ffffff');
      }
    expect(report.paint.some(({ colour }) => colour === '#ffffff')).toBe(false);
    const letters = report.parts.filter(({ design, paint }) => design === 'plaque Petersen' && paint === '#ffffff');
    expect(letters.map(({ name }) => name).join('')).toBe('Petersen');
    expect(report.orders.map(({ order, signs }) => [order, signs])).toEqual([
      ['Gull Street 4', 4],
      ['Quay 12', 2],
      ['the shop on the quay', 4],
    ]);
    expect(report.orders.every(({ cost, price, kit }) => cost > 0 && price > cost && kit.length > 0)).toBe(true);
    for (const { files } of report.sheets) for (const file of files) expect(existsSync(join(out, file))).toBe(true);

    const cut = report.sheets.find(({ sameAs, material }) => sameAs === null && material === 'board-6')!;
    const before = readFileSync(join(out, cut.file!), 'utf8');
    const later = dayWith((job) =>
      job.replace(
        '"together": "sign" }',
        `"together": "sign" },\n// in the afternoon\n{ "id": "late", "artwork": ${JSON.stringify(join(FOLDER, 'gull.svg'))}, "order": "Mole 1" }`,
      ),
    );
    const finish = (sheet: string) => runWithin(['done', later, join(out, 'report.json'), sheet]);
    const wrong = await finish(cut.file!.replace('sheet', 'shet'));
    expect(wrong.code).toBe(1);
    expect(wrong.stderr).toMatch(/has no sheet ".*", did you mean/);
    const told = await finish(cut.file!.replace('.svg', ''));
    expect(told.code).toBe(0);
    expect(told.stdout).toContain(`with ${cut.placements.length} pieces`);
    expect(readFileSync(later, 'utf8')).toContain('// in the afternoon');
    expect((await finish(cut.file!)).stdout).toContain('already');
    const next = await plan(later, out);
    expect(next.finished).toHaveLength(1);
    expect(readFileSync(join(out, cut.file!), 'utf8')).toBe(before);
    const again = next.sheets.flatMap(({ placements }) => placements.map(({ id }) => id));
    expect(again.filter((id) => cut.placements.some((placement) => placement.id === id))).toEqual([]);
    const names = (told: Report) => told.sheets.flatMap(({ placements }) => placements.map(({ id }) => id));
    expect([...again, ...cut.placements.map(({ id }) => id)].filter((id) => !id.startsWith('late/')).sort()).toEqual(
      names(report).sort(),
    );
    expect(next.sheets.flatMap(({ files }) => files)).not.toContain(cut.file);
  });

  it.each<[string, (job: string) => string, RegExp]>([
    [
      'a stock that is not there',
      (job) => job.replace('"id": "gull",', '"id": "gull", "stockOf": { "rest": "bord-6" },'),
      /names a stock "bord-6".*did you mean "board-6"/,
    ],
    [
      'a font that is not there',
      (job) => job.replace('DejaVuSans-Bold', 'Seaside'),
      /There is no file .*Seaside\.ttf \(lettering\.fonts\[0\]/,
    ],
    [
      'words without a font',
      (job) => job.replace(/"fonts": \[.*?\],/, ''),
      /Design "plaque Holm": .*no font was given/,
    ],
    [
      'an order listed twice',
      (job) =>
        job.replace(
          '{ "id": "gull"',
          '{ "id": "gulls", "artwork": "x.svg" }, { "id": "gull 2", "artwork": "x.svg" }, { "id": "gull"',
        ),
      /"gulls" and "gull 2" are the same design/,
    ],
  ])('refuses %s with one sentence', async (_, change, message) => {
    const run = await runWithin(['plan', dayWith(change), '--out', freshFolder()]);
    expect(run.code).toBe(1);
    expect(run.stderr).toMatch(message);
    expect(run.stdout).toBe('');
  });
});
