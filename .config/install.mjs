// Installs the dependencies when they are missing or older than the lock file, so that one command is enough.
import { spawnSync } from 'node:child_process';
import { existsSync, statSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

const root = join(dirname(fileURLToPath(import.meta.url)), '..');
const installed = join(root, 'node_modules', '.package-lock.json');
const lock = join(root, 'package-lock.json');

const isCurrent = existsSync(installed) && existsSync(lock) && statSync(installed).mtimeMs >= statSync(lock).mtimeMs;
if (!isCurrent) {
  console.log('Installing what is missing (once) ...');
  const npm = process.platform === 'win32' ? 'npm.cmd' : 'npm';
  const run = spawnSync(npm, [existsSync(lock) ? 'ci' : 'install'], {
    cwd: root,
    stdio: 'inherit',
    shell: process.platform === 'win32',
  });
  if (run.status !== 0) {
    console.error('npm could not install the dependencies: see its message above. Node 20.19 or newer is needed.');
    process.exit(run.status ?? 1);
  }
}
