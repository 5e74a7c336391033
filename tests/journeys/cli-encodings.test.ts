import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { binaryDxfBytes } from '../../packages/artwork/testing/binary-dxf-bytes.ts';
import { type CliRun, freshFolder, runWithin } from '../support/run-cli.ts';

const SVG =
  '<svg xmlns="http://www.w3.org/2000/svg" width="50mm" height="40mm" viewBox="0 0 50 40"><rect id="möwe" width="50" height="40"/></svg>';
const ESC = '\u001b';

/** A file of these bytes, inspected. */
async function inspected(name: string, bytes: Uint8Array): Promise<CliRun> {
  const path = join(freshFolder(), name);
  writeFileSync(path, bytes);
  return runWithin(['inspect', path]);
}

it('names in Latin-1 and UTF-16 reach the table as they were meant', async () => {
  const latin = Uint8Array.from(SVG, (letter) => letter.charCodeAt(0));
  const wide = new Uint8Array(new Uint16Array([0xfeff, ...Array.from(SVG, (letter) => letter.charCodeAt(0))]).buffer);
  for (const bytes of [latin, wide]) expect((await inspected('gull.svg', bytes)).stdout).toContain('möwe');
});

it('a job file with a byte-order mark is read', async () => {
  const folder = freshFolder();
  writeFileSync(join(folder, 'gull.svg'), SVG);
  const job = {
    artwork: { file: 'gull.svg' },
    bed: { width: 520, height: 320 },
    boards: [{ width: 508, height: 305 }],
  };
  writeFileSync(join(folder, 'sign.job.json'), `\ufeff${JSON.stringify(job)}`);
  const { code, stdout, stderr } = await runWithin(['inspect', join(folder, 'sign.job.json')]);
  expect(stderr).toBe('');
  expect(stdout).toContain('möwe');
  expect(code).toBe(0);
});

it('a binary DXF is read, and a name in it cannot steer the terminal', async () => {
  const name = `pier${ESC}[2J on the quay`;
  const bytes = binaryDxfBytes(
    [
      ...[0, 'SECTION', 2, 'HEADER', 9, '$INSUNITS', 70, 4, 0, 'ENDSEC', 0, 'SECTION', 2, 'ENTITIES'],
      ...[0, 'CIRCLE', 5, name, 8, name, 10, 0, 20, 0, 40, 25],
      ...[0, 'TEXT', 8, name, 10, 0, 20, 0, 1, name, 0, 'ENDSEC', 0, 'EOF'],
    ],
    false,
  );
  const { code, stdout, stderr } = await inspected('pier.dxf', bytes);
  expect(code).toBe(0);
  expect(stdout).toContain('pier\ufffd[2J');
  expect(stdout + stderr).not.toContain(ESC);
});

it('a file name cannot steer the terminal either', async () => {
  const { stdout, stderr } = await runWithin(['inspect', `no${ESC}[2Jsuch.svg`]);
  expect(stderr).toContain('no\ufffd[2Jsuch.svg');
  expect(stdout + stderr).not.toContain(ESC);
});
