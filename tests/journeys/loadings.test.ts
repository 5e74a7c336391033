import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Report } from '@underlap/job/report-schema';
import { describe, expect, it } from 'vitest';
import { readWithDxfParser, sheetDxfLimits } from '../support/dxf-outsiders.ts';
import { pdfPicture } from '../support/pdf-picture.ts';
import { recheckSheet } from '../support/recheck-sheets.ts';
import { fileWith, freshFolder, runWithin } from '../support/run-cli.ts';

/** A jetty sign: an oval of 440 x 260 mm, a banner across it, four boats. No part may be turned, so that every bed tells. */
const JETTY_SIGN = `<svg xmlns="http://www.w3.org/2000/svg" width="460mm" height="280mm" viewBox="0 0 460 280">
<ellipse id="plate" cx="230" cy="140" rx="220" ry="130" fill="#7fb2c8"/>
<rect id="banner" x="20" y="100" width="420" height="80" fill="#23395b"/>
<path id="boat-1" d="M120 40L200 40L180 70L140 70Z" fill="#f2b632"/>
<path id="boat-2" d="M250 40L330 40L310 70L270 70Z" fill="#f2b632"/>
<path id="wave" d="M150 200C190 180 210 240 250 205C260 240 200 240 150 230Z" fill="#c8452f"/>
</svg>
`;

interface Case {
  readonly name: string;
  readonly options: readonly string[];
  /** Longest sides that a file may have, as it lies on the bed. */
  readonly width: number;
  readonly height: number;
}

const CASES: readonly Case[] = [
  { name: '300 x 200', options: ['--bed', '300x200'], width: 300, height: 200 },
  {
    name: '600 x 300 with pass-through',
    options: ['--bed', '600x300', '--pass-through', 'width'],
    width: 20_000,
    height: 300,
  },
  { name: '305 x 508', options: ['--bed', '305x508'], width: 305, height: 508 },
  { name: '400 x 400', options: ['--bed', '400x400'], width: 400, height: 400 },
  {
    name: '300 x 200, boards cut down',
    options: ['--bed', '300x200', '--loading', 'cut-down'],
    width: 300,
    height: 200,
  },
];

describe.each(CASES)('boards of 508 x 305 mm on a bed of $name', ({ options, width, height }) => {
  it.each([1, 4])('batch %i: every file is what one loading cuts, and all of them are the batch', async (batch) => {
    const art = fileWith('jetty.svg', JETTY_SIGN);
    const out = freshFolder();
    const fixed = ['--board', '508x305', '--formats', 'svg,dxf,pdf', '--effort', 'quick', '--batch', String(batch)];
    const run = await runWithin(['plan', art, '--out', out, ...options, ...fixed]);
    expect(run.stderr).not.toMatch(/underlap:/);
    expect(run.code).toBe(0);
    const report = JSON.parse(readFileSync(join(out, 'report.json'), 'utf8')) as Report;
    const files = readdirSync(out).filter((name) => /\.(svg|dxf|pdf)$/.test(name));
    expect(files.sort()).toEqual(report.loadings.flatMap((loading) => loading.files).sort());

    const cut = new Map<string, number>();
    for (const loading of report.loadings) {
      const [svgName, dxfName, pdfName] = loading.files as [string, string, string];
      const svg = recheckSheet(readFileSync(join(out, svgName), 'utf8'));
      expect(svg.widthMm).toBeLessThanOrEqual(width);
      expect(svg.heightMm).toBeLessThanOrEqual(height);
      // what is cut lies within the file, and the pieces are those of the report, whole
      expect(svg.leastMarginMm).toBeGreaterThan(-0.001);
      expect(svg.pieces.map((piece) => piece.id).sort()).toEqual([...loading.pieces].sort());
      for (const { id } of svg.pieces) {
        const kind = id.slice(0, id.lastIndexOf('#'));
        cut.set(kind, (cut.get(kind) ?? 0) + loading.times);
      }
      const dxf = readFileSync(join(out, dxfName), 'utf8');
      expect(readWithDxfParser(dxf).filter(({ layer }) => layer === 'cut-outer')).toHaveLength(svg.pieces.length);
      const limits = sheetDxfLimits(dxf);
      expect(limits.width).toBeCloseTo(svg.widthMm, 4);
      expect(limits.height).toBeCloseTo(svg.heightMm, 4);
      expect(limits.beyond).toBeLessThan(0.001);
      const page = await pdfPicture(readFileSync(join(out, pdfName)), 0.1);
      expect((page.widthPt * 25.4) / 72).toBeCloseTo(svg.widthMm, 3);
      expect((page.heightPt * 25.4) / 72).toBeCloseTo(svg.heightMm, 3);
    }
    const kinds = new Set(report.sheets.flatMap((sheet) => sheet.placements.map((place) => place.piece)));
    expect(cut).toEqual(new Map([...kinds].map((kind) => [kind, batch])));
    // every loading says where it lies on the board
    for (const { kind, words, x, y, isTurned } of report.loadings) {
      if (kind !== 'whole' || isTurned) expect(words.length).toBeGreaterThan(0);
      expect(Math.min(x, y)).toBeGreaterThanOrEqual(0);
    }
  });
});

describe('equal boards', () => {
  it('are one file that is cut several times', async () => {
    const art = fileWith(
      'tile.svg',
      '<svg xmlns="http://www.w3.org/2000/svg" width="200mm" height="120mm" viewBox="0 0 200 120"><rect id="tile" x="5" y="5" width="190" height="110" fill="#7fb2c8"/></svg>',
    );
    const out = freshFolder();
    const run = await runWithin(
      ['plan', art, '--out', out, '--bed', '320x220', '--board', '215x130', '--batch', '8'].concat('--effort', 'quick'),
    );
    expect(run.code).toBe(0);
    const report = JSON.parse(readFileSync(join(out, 'report.json'), 'utf8')) as Report;
    expect(report.boards).toBe(8);
    expect(report.loadings.map(({ times, sheets }) => [times, sheets])).toEqual([[8, [1, 2, 3, 4, 5, 6, 7, 8]]]);
    expect(readdirSync(out).filter((name) => name.endsWith('.svg'))).toEqual(['tile-sheet-01-x8.svg']);
    expect(readFileSync(join(out, 'tile-sheet-01-x8.svg'), 'utf8')).toContain('cut 8 times');
    expect(run.stdout).toContain('x 8');
  });
});
