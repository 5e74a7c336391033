/**
 * npm run bench:strip -- --data DIR [--seconds 60] [--workers 1] [--seed 1] [--only name,...] [--clock wall|cpu]
 *                        [--turns listed|any] [--evaluations N --runs R] [--rounds K] [--json FILE]
 *
 * Runs the strip instances of the open sets: shortest length at the given height, then the independent check.
 * `--turns any` lets pieces turn freely after a search over the listed turns: not comparable with published values.
 * With --seconds every worker runs a seed of its own, in rounds that begin anew (a layout that a minute of search has not improved is
 * rarely improved by the next); the last rounds go on from the best of all. With --evaluations (work units per run over all rounds)
 * a fixed number of runs is shared out among the workers, and the layout is the same for any number of them.
 */
import { writeFileSync } from 'node:fs';
import { parseArgs } from 'node:util';
import { Worker } from 'node:worker_threads';
import { checksum, readFolder, type StripInstance, TOUCHING, verdictOn } from './nest-instances.ts';
import { runStrip, type StripOrder, type StripOutcome } from './strip-run.ts';

const { values: options } = parseArgs({
  options: {
    data: { type: 'string' },
    seconds: { type: 'string', default: '60' },
    workers: { type: 'string', default: '1' },
    seed: { type: 'string', default: '1' },
    only: { type: 'string' },
    clock: { type: 'string', default: 'wall' },
    turns: { type: 'string', default: 'listed' },
    evaluations: { type: 'string' },
    runs: { type: 'string', default: '2' },
    rounds: { type: 'string' },
    json: { type: 'string' },
  },
});
const folder = options.data ?? process.env.UNDERLAP_STRIP_DATA;
const files = readFolder(folder);
if (files === null || files.length === 0) {
  console.error(`No instances found in ${folder ?? '(no folder given)'}. Say where they are with --data DIR.`);
  process.exit(1);
}
const only = options.only?.split(',');
const evaluations = options.evaluations === undefined ? null : Number(options.evaluations);
const seconds = evaluations === null ? Number(options.seconds) : Number.POSITIVE_INFINITY;
const workers = Math.max(1, Number(options.workers));
const clock = options.clock === 'cpu' && workers === 1 ? 'cpu' : 'wall';
const isFreeToTurn = options.turns === 'any';
const runs = evaluations === null ? workers : Number(options.runs);
/** A round is at least that much work a run. */
const SECONDS_A_ROUND = 60;
const EVALUATIONS_A_ROUND = 60e6;
const MOST_ROUNDS = 10;
/** Share of the rounds that begin anew; the others go on from the best. */
const BEGINNING = 0.8;
const fitting = evaluations === null ? seconds / SECONDS_A_ROUND : evaluations / EVALUATIONS_A_ROUND;
const rounds = Math.max(1, Number(options.rounds ?? Math.min(MOST_ROUNDS, Math.floor(fitting))));

/** Worker threads do not inherit the TypeScript loader on every Node version: it is registered first. */
const WORKER_START = `
  import(${JSON.stringify(import.meta.resolve('tsx/esm/api'))}).then(({ register }) => {
    register();
    return import(${JSON.stringify(new URL('./strip-worker.ts', import.meta.url).href)});
  });`;

/**
 * Record and mean of runs of 20 minutes on three threads, % (Gardeyn, Vanden Berghe and Wauters, arXiv:2509.13329, 2025, tables 2
 * and 3; copied from a note of them, not looked up again).
 */
const NEWEST: Readonly<Record<string, readonly [record: number, mean: number]>> = {
  albano: [89.82, 89.47],
  dagli: [90.17, 89.26],
  fu: [92.41, 92.24],
  jakobs1: [89.26, 89.09],
  jakobs2: [87.73, 84.77],
  mao: [86.87, 86.14],
  marques: [92.02, 90.93],
  shapes0: [69.98, 68.6],
  shapes1: [76.73, 75.69],
  shapes2: [86.23, 84.68],
  shirts: [90.92, 89.66],
  swim: [79.83, 78.26],
  trousers: [92.62, 91.73],
};

interface Row {
  readonly name: string;
  readonly density: number;
  readonly published: number | null;
  readonly ratio: number | null;
  readonly length: number;
  readonly seconds: number;
  readonly evaluationsPerSecond: number;
  readonly firstValidSeconds: number;
  readonly checksum: string;
  readonly valid: boolean;
}

const effort = evaluations === null ? `${seconds} s (${clock} clock)` : `${evaluations} evaluations`;
console.log(
  `Strip: ${effort} a run, ${runs} run(s) in ${rounds} round(s) on ${workers} worker(s), seed ${options.seed}.`,
);
console.log(`Touching: penetration of at most ${TOUCHING} of the strip's height passes the check.`);
console.log('Published densities: orientation values of about 2013, from memory (see the data folder).');
console.log('Record, mean: of runs of 20 minutes on three threads, published in 2025 (arXiv:2509.13329).\n');
console.log('name      density published  ratio /record  /mean  M eval/s  first valid  checksum  verdict');

const rows: Row[] = [];
for (const file of files) {
  const instance = JSON.parse(file.text) as StripInstance;
  if (only === undefined || only.includes(instance.name)) rows.push(await run(instance));
}
const ratios = rows.map((row) => row.ratio).filter((ratio): ratio is number => ratio !== null);
if (ratios.length > 0) {
  const mean = ratios.reduce((sum, ratio) => sum + ratio, 0) / ratios.length;
  console.log(
    `\nmean of density / published over ${ratios.length}: ${mean.toFixed(4)}; least ${Math.min(...ratios).toFixed(4)}`,
  );
  console.log(
    `above the published value: ${ratios.filter((ratio) => ratio > 1.00005).length}; refused by the check: ${rows.filter((row) => !row.valid).length}`,
  );
}
const compared = isFreeToTurn ? [] : rows.filter((row) => NEWEST[row.name] !== undefined);
if (compared.length > 0) {
  const mean = (of: (row: Row) => number) => compared.reduce((sum, row) => sum + of(row), 0) / compared.length;
  const to = (which: 0 | 1) => mean((row) => row.density / NEWEST[row.name]![which]).toFixed(4);
  console.log(
    `mean density over the ${compared.length} of 2025: ${mean((row) => row.density).toFixed(2)}; ratios to record ${to(0)}, to mean ${to(1)}`,
  );
}
if (options.json !== undefined) {
  writeFileSync(options.json, `${JSON.stringify({ effort, runs, workers, instances: rows }, null, 2)}\n`);
}
if (rows.some((row) => !row.valid)) process.exitCode = 1;

async function run(instance: StripInstance): Promise<Row> {
  const outcomes: StripOutcome[] = [];
  let best: StripOutcome | null = null;
  let taken = 0;
  for (let round = 0; round < rounds; round++) {
    const orders = Array.from(
      { length: runs },
      (_, index): StripOrder => ({
        instance,
        seed: [options.seed, ...(index + round === 0 ? [] : [index]), ...(round === 0 ? [] : [round])].join('/'),
        seconds: seconds / rounds,
        evaluations: evaluations === null ? null : Math.floor(evaluations / rounds),
        clock,
        isFreeToTurn,
        incumbent: round >= BEGINNING * rounds ? (best?.spots ?? null) : null,
      }),
    );
    const found = workers === 1 ? orders.map(runStrip) : await shareOut(orders);
    // The best by a total order: length, then the number of the run.
    for (const outcome of found) if (best === null || outcome.length < best.length) best = outcome;
    taken += Math.max(...found.map((outcome) => outcome.seconds));
    outcomes.push(...found);
  }
  if (best === null) throw new Error('no run was made');
  const total = outcomes.reduce((sum, outcome) => sum + outcome.evaluations, 0);
  const density = (100 * instance.totalPartArea) / (instance.stripHeight * best.length);
  const published = instance.bestPublishedDensity;
  const { verdict } = verdictOn(instance.parts, best.spots, best.length, instance.stripHeight, isFreeToTurn);
  const row: Row = {
    name: instance.name,
    density,
    published,
    ratio: published === null ? null : density / published,
    length: best.length,
    seconds: taken,
    evaluationsPerSecond: total / outcomes.reduce((sum, outcome) => sum + outcome.seconds, 0),
    firstValidSeconds: Math.min(...outcomes.slice(0, runs).map((outcome) => outcome.firstValidSeconds)),
    checksum: checksum(best.spots, TOUCHING * instance.stripHeight),
    valid: verdict.ok && best.spots.length === instance.parts.reduce((sum, part) => sum + part.quantity, 0),
  };
  const newest = (which: 0 | 1) => {
    const value = isFreeToTurn ? undefined : NEWEST[row.name]?.[which];
    return (value === undefined ? '-' : (density / value).toFixed(4)).padStart(6);
  };
  console.log(
    `${row.name.padEnd(9)} ${density.toFixed(2).padStart(7)} ${(published?.toFixed(2) ?? '-').padStart(9)} ` +
      `${(row.ratio?.toFixed(4) ?? '-').padStart(6)}  ${newest(0)} ${newest(1)} ${(row.evaluationsPerSecond / 1e6).toFixed(2).padStart(9)} ` +
      `${row.firstValidSeconds.toFixed(2).padStart(12)}  ${row.checksum}  ${row.valid ? 'valid' : 'WRONG'}`,
  );
  if (!verdict.ok) for (const violation of verdict.violations.slice(0, 3)) console.log(`    ${violation.message}`);
  return row;
}

/** Hand orders to worker threads, the next one to whoever is free; outcomes in the order of the orders. */
async function shareOut(orders: readonly StripOrder[]): Promise<StripOutcome[]> {
  const outcomes: StripOutcome[] = [];
  let next = 0;
  await Promise.all(
    Array.from({ length: Math.min(workers, orders.length) }, async () => {
      const worker = new Worker(WORKER_START, { eval: true, execArgv: [] });
      try {
        while (next < orders.length) {
          const index = next++;
          outcomes[index] = await new Promise<StripOutcome>((resolve, reject) => {
            worker.once('error', reject);
            worker.once('message', (outcome: StripOutcome) => {
              worker.off('error', reject);
              resolve(outcome);
            });
            worker.postMessage(orders[index]);
          });
        }
      } finally {
        await worker.terminate();
      }
    }),
  );
  return outcomes;
}
