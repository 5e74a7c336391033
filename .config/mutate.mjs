// Mutation tests, one area after another: `npm run mutate`, or `npm run mutate -- check shop`.
// Each area repeats only the tests that are meant to hold it, so that a run ends in minutes.
import { spawnSync } from 'node:child_process';
import { mkdirSync } from 'node:fs';

const AREAS = {
  shop: { folder: 'packages/shop/src', files: ['price', 'path-time', 'sheet-time'] },
  job: { folder: 'packages/job/src', files: ['limits', 'units', 'sweet-spots'] },
  check: {
    folder: 'packages/nest/src/check',
    files: ['account', 'bit-tree', 'bits', 'board', 'check-layout', 'gaps', 'penetration'],
    tests: 'packages/nest/src/check/*.test.ts',
  },
  geometry: {
    folder: 'packages/geometry/src',
    files: ['ring', 'region', 'offset', 'boolean', 'distance', 'goes-in-rectangle', 'hull', 'crossings'],
    tests: '{packages/geometry/src/*,tests/reference/geometry}.test.ts',
  },
  proof: {
    folder: 'packages/seam/src',
    files: ['proof', 'proof-strength', 'cut-outline', 'visible'],
    tests: 'packages/seam/src/{proof,proof-strength,cut-outline}.test.ts',
  },
};

const wanted = process.argv.slice(2).filter((word) => !word.startsWith('-'));
const unknown = wanted.filter((word) => !(word in AREAS));
if (unknown.length > 0) {
  console.error(`${unknown.join(', ')}: the areas are ${Object.keys(AREAS).join(', ')}.`);
  process.exit(2);
}
mkdirSync('out', { recursive: true });
let failed = false;
for (const [area, { folder, files, tests }] of Object.entries(AREAS)) {
  if (wanted.length > 0 && !wanted.includes(area)) continue;
  const mutated = files.map((file) => `${folder}/${file}.ts`).join();
  const { status } = spawnSync('npx', ['stryker', 'run', '.config/stryker.json', '--mutate', mutated], {
    stdio: 'inherit',
    env: { ...process.env, MUTATION_TESTS: tests ?? `${folder}/{${files.join()}}.test.ts` },
  });
  failed ||= status !== 0;
}
process.exit(failed ? 1 : 0);
