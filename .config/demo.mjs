// The main job on the first sample: a harbour sign too large for the bed, four of them, cut files in out/demo.
import { spawnSync } from 'node:child_process';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

const root = join(dirname(fileURLToPath(import.meta.url)), '..');
const run = spawnSync(
  process.execPath,
  [
    join(root, 'apps', 'cli', 'bin', 'underlap.js'),
    'plan',
    join('samples', 'harbour-sign.job.json'),
    '--out',
    join('out', 'demo'),
    ...process.argv.slice(2),
  ],
  { cwd: root, stdio: 'inherit' },
);
process.exitCode = run.status ?? 1;
