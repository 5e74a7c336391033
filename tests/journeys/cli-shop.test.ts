import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { expect, it } from 'vitest';
import { fileWith, runWithin, SMALL_SIGN } from '../support/run-cli.ts';

const sign = fileWith('small.svg', SMALL_SIGN);
const out = join(dirname(sign), 'shop');
const MACHINE = ['--bed', '300x200', '--board', '300x200', '--effort', 'quick', '--out', out];

it('masks and bridges are asked for on the command line, and masks of an earlier run are taken away', async () => {
  const options = ['--masks', 'stencil', '--bridges', '2', '--bridge-width', '1'];
  const made = await runWithin(['plan', sign, ...MACHINE, ...options]);
  expect(made).toMatchObject({ code: 0, stderr: '' });
  const report = JSON.parse(readFileSync(join(out, 'report.json'), 'utf8'));
  const masks: string[] = report.paintPlan.bare.flatMap(({ files }: { files: string[] }) => files);
  expect(masks.length).toBeGreaterThan(0);
  for (const name of masks) expect(readFileSync(join(out, name), 'utf8')).toContain('data-process="cut-outer"');
  const sheet = readFileSync(join(out, report.sheets[0].file), 'utf8');
  const outer = /<g id="cut-outer[^>]*>(.*?)<\/g>/s.exec(sheet)![1]!;
  // The plate of 260 x 180 mm in two stretches, neither of which is closed.
  const plate = [...outer.matchAll(/data-piece="plate#1"[^>]* d="([^"]*)"/g)].map(([, d]) => d!);
  expect(plate).toHaveLength(2);
  for (const d of plate) expect(d).not.toMatch(/z\s*$/i);
  expect(report.messages.join(' ')).toContain('2 uncut bridges of 1 mm');

  expect((await runWithin(['plan', sign, ...MACHINE])).code).toBe(0);
  for (const name of masks) expect(existsSync(join(out, name))).toBe(false);
  expect(readdirSync(out)).toContain('build-guide.html');
  expect((await runWithin(['plan', sign, ...MACHINE, '--bridges', 'many'])).code).toBe(2);
});
