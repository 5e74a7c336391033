import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { ComparisonRow } from '@underlap/job/comparison';
import { describe, expect, it } from 'vitest';
import { fileWith, freshFolder, runCli, SMALL_SIGN } from '../support/run-cli.ts';

const MINUTES = 60_000;

describe('a comparison of 36 layouts of the sample sign', () => {
  it(
    'comes out whole, tells its progress, and more freedom or more signs never break it',
    async () => {
      const folder = freshFolder();
      const csv = join(folder, 'table.csv');
      const options = ['--boards', '508x305,610x305,406x305', '--turns', 'fixed,half,quarter,any', '--batch', '2,4,6'];
      const files = ['--csv', csv, '--out', folder];
      const run = await runCli(['compare', 'samples/harbour-sign.job.json', ...options, ...files, '--effort', 'quick']);
      expect(run.code).toBe(0);
      expect(run.stderr).toContain('36 of 36: 406x305, turns any, batch of 6');
      expect(run.stdout).toMatch(/waste least/);
      expect(readFileSync(csv, 'utf8').trimEnd().split('\r\n')).toHaveLength(37);
      expect(readFileSync(join(folder, 'compare.html'), 'utf8').match(/<figure>/g)).toHaveLength(36);
      const told = JSON.parse(readFileSync(join(folder, 'compare.json'), 'utf8'));
      expect(told.isComplete).toBe(true);
      const rows: ComparisonRow[] = told.rows;
      for (const row of rows) {
        expect(row.problem).toBeNull();
        expect(row.boardsLowerBound).toBeLessThanOrEqual(row.boards);
        const others = rows.filter((other) => other.board === row.board);
        const order = ['fixed', 'half', 'quarter', 'any'];
        const stricter = others.filter(
          (other) => other.batch === row.batch && order.indexOf(other.turns) < order.indexOf(row.turns),
        );
        expect(row.boards).toBeLessThanOrEqual(Math.min(...stricter.map((other) => other.boards), row.boards));
        const smaller = others.find((other) => other.turns === row.turns && other.batch === 2)!;
        expect(row.boards).toBeLessThanOrEqual((smaller.boards * row.batch) / 2);
      }
    },
    5 * MINUTES,
  );
});

describe('a table that is stopped', () => {
  it(
    'keeps the rows made so far',
    async () => {
      const sign = fileWith('sign.svg', SMALL_SIGN);
      const out = freshFolder();
      const machine = ['--bed', '520x320', '--board', '508x305'];
      const run = await runCli(['estimate', sign, ...machine, '--batch', '1..80', '--out', out], '2 of 80');
      expect(run.code).toBe(130);
      expect(run.stderr).toMatch(/stopped after \d+ of 80 layouts/);
      const { rows, isComplete } = JSON.parse(readFileSync(join(out, 'estimate.json'), 'utf8'));
      expect(isComplete).toBe(false);
      expect(rows.length).toBeGreaterThanOrEqual(2);
      expect(rows.length).toBeLessThan(80);
      expect(run.stdout.trimEnd().split('\n')).toHaveLength(rows.length + 2);
    },
    MINUTES,
  );

  it(
    'says that nothing was made when it is stopped before the first row',
    async () => {
      const sign = fileWith('sign.svg', SMALL_SIGN);
      const out = join(freshFolder(), 'none');
      const run = await runCli(['compare', sign, '--bed', '520x320', '--boards', '508x305', '--out', out], 1);
      expect([130, null]).toContain(run.code);
      expect(existsSync(out)).toBe(false);
    },
    MINUTES,
  );
});
