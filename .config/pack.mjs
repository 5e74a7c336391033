// Builds every package and the command line to plain JavaScript with types and packs them: out/packs/*.tgz, which an empty
// folder can install and Node run without a TypeScript loader. The sources stay as they are; what is packed is staged in out/staged.
import { spawnSync } from 'node:child_process';
import { cpSync, existsSync, mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

const root = join(dirname(fileURLToPath(import.meta.url)), '..');
const out = join(root, 'out');
const built = join(out, 'built');
const staged = join(out, 'staged');
const packs = join(out, 'packs');

for (const folder of [built, staged, packs]) rmSync(folder, { recursive: true, force: true });
mkdirSync(packs, { recursive: true });
run(join(root, 'node_modules', '.bin', 'tsc'), ['-p', join(root, '.config', 'tsconfig.build.json')], root);

const folders = [...readdirSync(join(root, 'packages')).map((name) => `packages/${name}`), 'apps/cli'];
for (const folder of folders) {
  const stage = join(staged, basename(folder));
  cpSync(join(built, folder, 'src'), join(stage, 'dist'), { recursive: true });
  for (const file of readdirSync(join(stage, 'dist'), { recursive: true })) {
    if (file.endsWith('.d.ts')) useBuiltNames(join(stage, 'dist', file));
  }
  for (const extra of ['README.md', 'bin', 'schema']) {
    if (existsSync(join(root, folder, extra)))
      cpSync(join(root, folder, extra), join(stage, extra), { recursive: true });
  }
  cpSync(join(root, 'LICENSE'), join(stage, 'LICENSE'));
  writeFileSync(join(stage, 'package.json'), `${JSON.stringify(publishable(folder), null, 2)}\n`);
  run('npm', ['pack', '--silent', '--pack-destination', packs], stage);
}
console.log(readdirSync(packs).join('\n'));

/** The package's description for those who install it: built files instead of sources, no loader, exact siblings. */
function publishable(folder) {
  const { private: _private, ...described } = JSON.parse(readFileSync(join(root, folder, 'package.json'), 'utf8'));
  const { tsx: _loader, ...dependencies } = described.dependencies ?? {};
  for (const name of Object.keys(dependencies)) {
    if (name.startsWith('@underlap/')) dependencies[name] = described.version;
  }
  return {
    ...described,
    ...(described.exports === undefined
      ? {}
      : { exports: { './*': { types: './dist/*.d.ts', default: './dist/*.js' }, './package.json': './package.json' } }),
    files: ['dist', 'bin', 'schema'],
    engines: { node: '>=20.19' },
    dependencies,
  };
}

/** Declarations keep the names of the sources (`./ring.ts`); readers look for the built ones. */
function useBuiltNames(file) {
  const text = readFileSync(file, 'utf8');
  writeFileSync(file, text.replaceAll(/((?:from|import\()\s*['"]\.{1,2}\/[^'"]+)\.ts(['"])/g, '$1.js$2'));
}

function run(command, args, cwd) {
  const result = spawnSync(command, args, {
    cwd,
    stdio: ['ignore', 'inherit', 'inherit'],
    shell: process.platform === 'win32',
  });
  if (result.status !== 0) {
    console.error(`${command} ${args.join(' ')} failed.`);
    process.exit(result.status ?? 1);
  }
}
