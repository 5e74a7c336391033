import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { DESIGNS_AND_SEARCH, designThreads } from '@underlap/job/design-threads';
import { jobFrom } from '@underlap/job/parse-job';
import { Pipeline } from '@underlap/job/pipeline';
import { planJob } from '@underlap/job/plan-job';
import { nest } from '@underlap/nest/nest';
import { nodePool } from '@underlap/nest/node-pool';
import { randomSign } from '../support/random-sign.ts';

// A day of ten designs with twelve signs in two stocks: processor time until the first layout of all stocks stands, and until
// everything is written, all threads together.
//
//   npm run bench:day [-- --effort quick|normal|thorough|NUMBER] [--stages]

const root = fileURLToPath(new URL('../..', import.meta.url));
const at = process.argv.indexOf('--effort');
const effort = at < 0 ? 'normal' : (process.argv[at + 1] ?? 'normal');

const sample = (name: string) => readFileSync(`${root}/samples/${name}.svg`, 'utf8');
const drawings: readonly (readonly [string, string, number])[] = [
  ['harbour sign', sample('harbour-sign'), 1],
  ['round sign', sample('round-sign'), 1],
  ['wide sign', sample('wide-sign'), 1],
  ['door round', sample('harbour-day/door-round'), 3],
  ['gull', sample('harbour-day/gull'), 1],
  ...Array.from({ length: 5 }, (_, seed): [string, string, number] => [
    `random ${seed + 1}`,
    randomSign(seed + 1, 260 + 60 * seed, 200 + 30 * seed).svg,
    1,
  ]),
];

const job = jobFrom(
  {
    name: 'a day',
    bed: '520x320',
    effort: /^\d+$/.test(effort) ? Number(effort) : effort,
    stocks: [
      { id: 'thick', thickness: 6, boards: ['508x305'] },
      { id: 'thin', thickness: 3, kerf: 0.15, boards: ['406x305'] },
    ],
    stockOf: { paints: { '#ffffff': 'thin', '#f3efe0': 'thin', '#d9b310': 'thin', '#f2b632': 'thin' } },
    designs: drawings.map(([id, text, count]) => ({ id, count, artwork: { text, name: id } })),
  },
  'the benchmark',
);

const begun = process.cpuUsage();
const seconds = (from = begun) => {
  const { user, system } = process.cpuUsage(from);
  return (user + system) / 1e6;
};
const pool = nodePool(undefined, DESIGNS_AND_SEARCH);
const pipeline = new Pipeline((problem, work, hooks) => nest(problem, work, { ...hooks, pool }), designThreads(pool));
const first = new Map<string, number>();
const stages: string[] = [];
const started = performance.now();
let before = 0;
const { report } = await planJob(job, {
  pipeline,
  onBest: (_, __, stockId) => {
    if (!first.has(stockId)) first.set(stockId, seconds());
  },
  onStage: (stage) => {
    stages.push(`${stage} ${(seconds() - before).toFixed(2)}`);
    before = seconds();
  },
});
await pool.close();
const signs = job.designs.reduce((sum, { count }) => sum + count, 0);
console.log(`${job.designs.length} designs, ${signs} signs, ${report.check.piecesPlaced} pieces, effort ${effort}`);
console.log(`seconds of processor time by stage: ${stages.join(', ')}`);
for (const [stock, when] of first) console.log(`first layout of ${stock} after ${when.toFixed(1)} s`);
console.log(
  `all written after ${seconds().toFixed(1)} s of processor time, ${((performance.now() - started) / 1000).toFixed(1)} s by the clock`,
);
console.log(`${report.boards} boards, at least ${report.boardsLowerBound} needed`);
