import { spawn } from 'node:child_process';
import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import type { Plugin } from 'vite';

const NAME = 'virtual:ready-sample';

/**
 * The first sample with its results, made by the page's own stages before the page is built for the first time, so that it opens
 * with the result already there. A build in mode `plain` does without; the server for developing has it if a build made it.
 */
export function readySample(): Plugin {
  let root = '';
  let isBuild = false;
  return {
    name: 'ready-sample',
    configResolved(config) {
      root = config.root;
      isBuild = config.command === 'build' && config.mode !== 'plain';
    },
    resolveId: (id) => (id === NAME ? `\0${NAME}` : null),
    async load(id) {
      if (id !== `\0${NAME}`) return null;
      const kept = keptPlan(root);
      const text = isBuild ? await planOrRecall(root, kept) : existsSync(kept) ? readFileSync(kept, 'utf8') : null;
      return `export const readySample = ${text === null ? 'null' : JSON.stringify(text)};`;
    },
  };
}

/** What a plan is made from; views and pictures do not change it. */
const PLANNED_BY = [
  'packages',
  'samples',
  'apps/playground/src/ready',
  'apps/playground/src/workers',
  'apps/playground/src/workbench',
];

/** Where the plan made by these very sources is kept. */
function keptPlan(root: string): string {
  const repository = join(root, '../..');
  const hash = createHash('sha256');
  for (const folder of PLANNED_BY) hashFolder(join(repository, folder), hash);
  return join(repository, 'node_modules/.cache/underlap', `${hash.digest('hex').slice(0, 32)}.json`);
}

/** A sample planned by the very same sources before is not planned again. */
async function planOrRecall(root: string, kept: string): Promise<string> {
  if (existsSync(kept)) return readFileSync(kept, 'utf8');
  const text = await plan(root);
  mkdirSync(dirname(kept), { recursive: true });
  writeFileSync(kept, text);
  return text;
}

/** Sources and samples by name and content. */
function hashFolder(folder: string, hash: ReturnType<typeof createHash>): void {
  for (const entry of readdirSync(folder, { withFileTypes: true }).sort((a, b) => (a.name < b.name ? -1 : 1))) {
    const path = join(folder, entry.name);
    if (entry.isDirectory()) {
      if (entry.name !== 'node_modules') hashFolder(path, hash);
    } else if (/\.(ts|svg|json)$/.test(entry.name) && !/\.test\.ts$/.test(entry.name)) {
      hash.update(entry.name).update(readFileSync(path));
    }
  }
}

/** In a process of its own, with all cores. */
function plan(root: string): Promise<string> {
  console.log('Planning the sample, once, so that the page opens with its result ...');
  return new Promise((resolve, reject) => {
    const child = spawn(process.execPath, ['--import', 'tsx', join(root, 'build/plan-sample.ts')], {
      cwd: root,
      stdio: ['ignore', 'pipe', 'inherit'],
    });
    const end = (): void => void child.kill();
    process.once('exit', end);
    const chunks: Buffer[] = [];
    child.stdout.on('data', (chunk: Buffer) => chunks.push(chunk));
    child.once('error', reject);
    child.once('close', (code) => {
      process.removeListener('exit', end);
      if (code === 0) resolve(Buffer.concat(chunks).toString('utf8'));
      else reject(new Error(`planning the sample ended with code ${code}`));
    });
  });
}
