// Mutation tests, one area after another: `npm run mutate`, or `npm run mutate -- check shop`.
// Each area repeats only the tests that are meant to hold it, so that a run ends in minutes.
import { spawnSync } from 'node:child_process';
import { mkdirSync } from 'node:fs';

const AREAS = {
  shop: {
    files: 'packages/shop/src/{price,path-time,sheet-time}.ts',
    tests: 'packages/shop/src/{price,path-time,sheet-time}.test.ts',
  },
  job: {
    files: 'packages/job/src/{limits,units,sweet-spots}.ts',
    tests: 'packages/job/src/{limits,units,sweet-spots}.test.ts',
  },
  check: {
    files: 'packages/nest/src/check/!(*.test).ts',
    tests: 'packages/nest/src/check/*.test.ts',
  },
  geometry: {
    files: 'packages/geometry/src/{ring,region,offset,boolean,distance,goes-in-rectangle,hull,crossings}.ts',
    tests: '{packages/geometry/src/*,tests/reference/geometry}.test.ts',
  },
  proof: {
    files: 'packages/seam/src/{proof,proof-strength,cut-outline,visible}.ts',
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
for (const [area, { files, tests }] of Object.entries(AREAS)) {
  if (wanted.length > 0 && !wanted.includes(area)) continue;
  const { status } = spawnSync('npx', ['stryker', 'run', '.config/stryker.json', '--mutate', files], {
    stdio: 'inherit',
    env: { ...process.env, MUTATION_TESTS: tests },
  });
  failed ||= status !== 0;
}
process.exit(failed ? 1 : 0);
