import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { loadImage } from '@napi-rs/canvas';
import { describe, expect, it } from 'vitest';
import { fileWith, runWithin, SMALL_SIGN } from '../support/run-cli.ts';

const sign = fileWith('small.svg', SMALL_SIGN);
const folder = dirname(sign);
const MACHINE = ['--bed', '300x200', '--board', '300x200', '--effort', 'quick'];

describe('inspect', () => {
  it('prints one object of the published shape, and draws the parts', async () => {
    const picture = join(folder, 'picture.svg');
    const run = await runWithin(['inspect', sign, '--json', '--picture', picture]);
    expect(run).toMatchObject({ code: 0, stderr: '' });
    const found = JSON.parse(run.stdout);
    expect(found).toMatchObject({ units: 'mm', widthMm: 280, heightMm: 200, mode: 'stacked', repairs: [] });
    expect(found).not.toHaveProperty('sizeChoices');
    expect(found.parts.map((part: { id: string }) => part.id)).toEqual(['plate', 'strip', 'ring-1', 'leaf']);
    // Plate 260 x 180; ring of radii 20 and 8: pi (20^2 - 8^2).
    expect(found.parts[0]).toMatchObject({
      areaMm2: 46800,
      widthMm: 260,
      heightMm: 180,
      holes: 0,
      paint: '#7fb2c8',
      process: 'cut',
    });
    expect(found.parts[2].areaMm2).toBeCloseTo(Math.PI * (400 - 64), 6);
    expect(found.parts[2].holes).toBe(1);
    expect(readFileSync(picture, 'utf8')).toMatch(/<title>leaf<\/title>/);
  });

  it('offers both readings while the size is open, and takes either answer', async () => {
    const open = fileWith('open.svg', SMALL_SIGN.replace('width="280mm" height="200mm"', ''));
    const found = JSON.parse((await runWithin(['inspect', open, '--json'])).stdout);
    expect(found).toMatchObject({ widthMm: null, heightMm: null });
    // CSS: 96 px to the inch; 72 points to the inch.
    expect(found.sizeChoices.map((entry: { perInch: number }) => entry.perInch).sort()).toEqual([72, 96]);
    for (const { perInch, widthMm } of found.sizeChoices) expect(widthMm).toBeCloseTo((280 / perInch) * 25.4, 6);
    const told = JSON.parse((await runWithin(['inspect', open, '--json', '--width', '28cm'])).stdout);
    expect(told.widthMm).toBeCloseTo(280, 9);
    const inches = JSON.parse((await runWithin(['inspect', open, '--json', '--per-inch', '25.4'])).stdout);
    expect(inches.widthMm).toBeCloseTo(280, 9);
  });
});

describe('estimate and compare', () => {
  it('counts boards for a range of batches, never fewer than proven, never fewer for more signs', async () => {
    const run = await runWithin([
      'estimate',
      sign,
      ...MACHINE,
      '--batch',
      '1..4',
      '--out',
      join(folder, 'estimate'),
      '--json',
    ]);
    expect(run).toMatchObject({ code: 0, stderr: '' });
    const { rows } = JSON.parse(run.stdout);
    expect(rows.map((row: { batch: number }) => row.batch)).toEqual([1, 2, 3, 4]);
    for (const [index, row] of rows.entries()) {
      expect(row.boardsLowerBound).toBeLessThanOrEqual(row.boards);
      expect(row.yield + row.waste).toBeCloseTo(1, 9);
      // Without hand minutes and rates a sign costs nothing but machine minutes.
      expect(row.minutesPerSign).toBeGreaterThan(0);
      expect(row.minutesPerSign).toBeCloseTo(row.machineMinutesPerSign + row.handMinutesPerSign, 9);
      expect(row.price - row.costPerSign).toBeCloseTo(row.profit, 9);
      if (index > 0) expect(row.boards).toBeGreaterThanOrEqual(rows[index - 1].boards);
    }
    expect(rows.some((row: { isSweetSpot: boolean }) => row.isSweetSpot)).toBe(true);
    expect(readFileSync(join(folder, 'estimate', 'estimate.html'), 'utf8')).toContain('<svg');
  });

  it('sets layouts side by side, as table, page and CSV', async () => {
    const csv = join(folder, 'compare.csv');
    const options = [
      '--boards',
      '300x200,20x12in',
      '--turns',
      'fixed,quarter',
      '--batch',
      '2',
      '--csv',
      csv,
      '--out',
      join(folder, 'compare'),
    ];
    const run = await runWithin(['compare', sign, '--bed', '520x320', '--effort', 'quick', ...options, '--json']);
    expect(run).toMatchObject({ code: 0, stderr: '' });
    const { rows, conclusion } = JSON.parse(run.stdout);
    expect(rows).toHaveLength(4);
    expect(rows.map((row: { board: string }) => row.board)).toEqual(['300x200', '300x200', '508x304.8', '508x304.8']);
    expect(conclusion).toMatch(/\d boards/);
    const lines = readFileSync(csv, 'utf8').trimEnd().split('\r\n');
    expect(lines).toHaveLength(5);
    expect(lines[0]).toMatch(/^board_mm,turns,batch,boards/);
    expect(existsSync(join(folder, 'compare', 'compare.html'))).toBe(true);
  });

  it('tells what a joint more saves, as table and CSV', { timeout: 300_000 }, async () => {
    const csv = join(folder, 'seams.csv');
    const run = await runWithin(['compare', sign, ...MACHINE, '--batch', '2', '--seams', '--csv', csv]);
    expect(run.code).toBe(0);
    expect(run.stdout).toMatch(/^way +boards +at least +saved/);
    expect(run.stdout).toContain('as it is');
    expect(run.stdout).toMatch(/ in [234] pieces /);
    const lines = readFileSync(csv, 'utf8').trimEnd().split('\r\n');
    expect(lines[0]).toMatch(/^way,part,pieces,boards/);
    expect(lines.length).toBeGreaterThan(2);
  });
});

describe('variants', () => {
  it('makes a pack for every bed from one master; what fits stays the same', async () => {
    const out = join(folder, 'packs');
    const options = [
      '--board',
      '300x200',
      '--effort',
      'quick',
      '--numbers',
      'off',
      '--no-guides',
      '--licence',
      'Ask me.',
    ];
    const run = await runWithin(['variants', sign, '--beds', '300x200,200x200', '--out', out, ...options, '--json']);
    expect(run).toMatchObject({ code: 0, stderr: '' });
    const { variants } = JSON.parse(readFileSync(join(out, 'variants.json'), 'utf8'));
    expect(variants.map((variant: { bed: string }) => variant.bed)).toEqual(['300x200', '200x200']);
    expect(variants[0]).toMatchObject({ pieces: 4, seamLengthMm: 0, hiddenShare: 1 });
    expect(variants[1].pieces).toBeGreaterThan(4);
    const reports = variants.map((variant: { folder: string }) =>
      JSON.parse(readFileSync(join(out, variant.folder, 'report.json'), 'utf8')),
    );
    for (const id of ['ring-1', 'leaf']) {
      const outlines = reports.map(
        (report: { parts: { id: string; outline: string }[] }) => report.parts.find((part) => part.id === id)!.outline,
      );
      expect(outlines[1]).toBe(outlines[0]);
    }
    for (const { folder: pack, boards, pieces } of variants) {
      const names = readdirSync(join(out, pack));
      for (const format of ['svg', 'dxf', 'pdf']) {
        expect(names.filter((name) => name.includes('-sheet-') && name.endsWith(`.${format}`)).length).toBeGreaterThan(
          0,
        );
      }
      const words = readFileSync(join(out, pack, 'read-me.txt'), 'utf8');
      for (const told of [
        `For a bed of ${pack.slice(4).replace('x', ' x ')} mm`,
        `Pieces of one sign: ${pieces}, from 4 parts.`,
        `Boards for one sign: ${boards} of 300 x 200 mm`,
        pieces === 4 ? 'No part is split.' : 'hidden below other parts',
        'Licence\n-------\nAsk me.\n',
        'Never leave a running laser',
      ])
        expect(words).toContain(told);
      // The finished sign on white, 1600 pixels along its longer side: colours of parts inside, white in the corner.
      const picture = await loadImage(readFileSync(join(out, pack, 'finished.png')));
      expect(Math.max(picture.width, picture.height)).toBe(1600);
    }
    const beds = await loadImage(readFileSync(join(out, 'beds.png')));
    expect(readFileSync(join(out, 'beds.svg'), 'utf8')).toContain(`width="${beds.width}" height="${beds.height}"`);
    expect(readFileSync(join(out, 'variants.html'), 'utf8')).toContain('beds compared');
  });
});

describe('coupon', () => {
  it('is written with its instructions and read back', async () => {
    const out = join(folder, 'coupon');
    const made = await runWithin(['coupon', '--out', out, '--kerf', '0.2']);
    expect(made).toMatchObject({ code: 0, stderr: '' });
    expect(readFileSync(join(out, 'coupon.svg'), 'utf8')).toContain('data-process="cut-outer"');
    expect(readFileSync(join(out, 'coupon.txt'), 'utf8')).toMatch(/Never leave a running laser/);
    const read = JSON.parse((await runWithin(['coupon', '--gap', '2.2,2.42', '--liked', '0.05', '--json'])).stdout);
    // The comb's gap is eleven kerfs.
    expect(read.kerf).toBeCloseTo(0.21, 9);
    expect(read.fit).toBeCloseTo(0.06, 9);
  });
});
