import { execFileSync } from 'node:child_process';
import { copyFileSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';

/** What others install: the packed files in an empty folder, without a TypeScript loader and without this repository. */

const root = join(import.meta.dirname, '..');
const folder = mkdtempSync(join(tmpdir(), 'underlap-packed-'));
const readmes = [
  ...readdirSync(join(root, 'packages')).map((name) => join(root, 'packages', name, 'README.md')),
  join(root, 'apps', 'cli', 'README.md'),
];

const run = (command: string, args: readonly string[], cwd: string) =>
  execFileSync(command, args, {
    cwd,
    encoding: 'utf8',
    stdio: ['ignore', 'pipe', 'pipe'],
    shell: process.platform === 'win32',
  });

beforeAll(() => {
  run('node', [join(root, '.config', 'pack.mjs')], root);
  const packs = join(root, 'out', 'packs');
  writeFileSync(
    join(folder, 'package.json'),
    JSON.stringify({ name: 'harbour-workshop', private: true, type: 'module' }),
  );
  run(
    'npm',
    [
      'install',
      '--silent',
      '--no-audit',
      '--no-fund',
      '--prefer-offline',
      ...readdirSync(packs).map((name) => join(packs, name)),
    ],
    folder,
  );
}, 300_000);

afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe('the packed files in an empty folder', () => {
  it('bring no TypeScript loader and no sources', () => {
    const installed = readdirSync(join(folder, 'node_modules'));
    expect(installed).toContain('underlap');
    expect(installed).not.toContain('tsx');
    const files = readdirSync(join(folder, 'node_modules', '@underlap', 'geometry'), { recursive: true }).map(String);
    expect(files).toEqual(
      expect.arrayContaining(['LICENSE', 'README.md', join('dist', 'ring.js'), join('dist', 'ring.d.ts')]),
    );
    expect(files.filter((file) => file.endsWith('.ts') && !file.endsWith('.d.ts'))).toEqual([]);
    expect(files.filter((file) => /test|soak|fuzz/.test(file))).toEqual([]);
  });

  it('plan a sample', () => {
    for (const name of ['round-sign.svg', 'round-sign.job.json'])
      copyFileSync(join(root, 'samples', name), join(folder, name));
    run('npx', ['underlap', 'plan', 'round-sign.job.json', '--effort', 'quick', '--out', 'cut'], folder);
    const report: unknown = JSON.parse(readFileSync(join(folder, 'cut', 'report.json'), 'utf8'));
    expect(report).toMatchObject({ check: { ok: true } });
  }, 120_000);

  it('have types that a strict compiler accepts, and that refuse a wrong use', () => {
    const use = (argument: string) =>
      `import { ringArea } from '@underlap/geometry/ring';\nimport { planJob } from '@underlap/job/plan-job';\n` +
      `export const area: number = ringArea(${argument});\nexport const plan: typeof planJob = planJob;\n`;
    writeFileSync(join(folder, 'right.mts'), use('Float64Array.of(0, 0, 1, 0, 1, 1)'));
    writeFileSync(join(folder, 'wrong.mts'), use("'ring'"));
    const compile = (file: string) =>
      run(
        join(root, 'node_modules', '.bin', 'tsc'),
        ['--noEmit', '--strict', '--skipLibCheck', '--target', 'es2022', '--module', 'nodenext', file],
        folder,
      );
    expect(compile('right.mts')).toBe('');
    expect(() => compile('wrong.mts')).toThrow();
  }, 120_000);

  it.each(readmes)(
    'do what the readme says: %s',
    (readme) => {
      const [, program, printed] = /```js\n(.*?)```\n\n```text\n(.*?)```/s.exec(readFileSync(readme, 'utf8')) ?? [];
      expect(program).toBeDefined();
      writeFileSync(join(folder, 'example.mjs'), program!);
      expect(run('node', ['example.mjs'], folder)).toBe(printed);
    },
    120_000,
  );
});
