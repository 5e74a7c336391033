import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { checkStage } from '@underlap/job/check-stage';
import { cutStage } from '@underlap/job/cut-stage';
import { designsOf } from '@underlap/job/designs';
import { filesStage } from '@underlap/job/files-stage';
import { jobPiecesOf } from '@underlap/job/job-pieces';
import { nestProblemOf } from '@underlap/job/nest-stage';
import { parseJob } from '@underlap/job/parse-job';
import { proveFiles } from '@underlap/job/prove-files';
import { proveSplits } from '@underlap/job/prove-splits';
import { readStage } from '@underlap/job/read-stage';
import { cutFiles } from '@underlap/job/sheet-drawings';
import { signStage } from '@underlap/job/sign-stage';
import { splitStage } from '@underlap/job/split-stage';
import { nest } from '@underlap/nest/nest';

// Time of every stage for the first sample at batch 1, 4 and 16: as seconds, as a ratio to batch 1, and as an exponent of
// growth; a checksum of the files tells whether two runs did the same.
//
//   npm run bench [-- --effort quick|normal|thorough|NUMBER] [--batches 1,4,16]

const root = fileURLToPath(new URL('../..', import.meta.url));
const option = (name: string, otherwise: string) => {
  const at = process.argv.indexOf(`--${name}`);
  return at < 0 ? otherwise : (process.argv[at + 1] ?? otherwise);
};
const effort = option('effort', 'quick');
const batches = option('batches', '1,4,16').split(',').map(Number);

const sample = parseJob(readFileSync(`${root}/samples/harbour-sign.job.json`, 'utf8'), 'harbour-sign.job.json');
const artwork = readFileSync(`${root}/samples/${sample.artwork.file}`, 'utf8');
const base = parseJob(
  JSON.stringify({ ...sample, effort: /^\d+$/.test(effort) ? Number(effort) : effort }),
  'the benchmark',
);

interface Run {
  readonly batch: number;
  readonly pieces: number;
  readonly boards: number;
  readonly seconds: ReadonlyMap<string, number>;
  readonly checksum: string;
}

const runs: Run[] = [];
// Once without measuring, so that batch 1 does not pay for loading and compiling.
await runOnce(batches[0]!);
for (const batch of batches) runs.push(await runOnce(batch));
print(runs);

async function runOnce(batch: number): Promise<Run> {
  const job = { ...base, batch };
  const seconds = new Map<string, number>();
  const timed = async <T>(name: string, work: () => T | Promise<T>): Promise<T> => {
    const started = performance.now();
    const result = await work();
    seconds.set(name, (performance.now() - started) / 1000);
    return result;
  };
  const drawing = await timed('read', () => readStage(artwork, job));
  const sign = await timed('sign', () => signStage(drawing, job));
  const split = await timed('split', () => splitStage(sign, job, { seed: job.seed }));
  const cut = await timed('cut', () => cutStage(split, sign, job));
  const pieces = jobPiecesOf([{ design: designsOf(job)[0]!, pieces: cut }], job);
  await timed('prove splits', () => proveSplits(split, sign, job));
  const problem = nestProblemOf(pieces, job);
  const result = await timed('nest', () => nest(problem, job.effort, { seed: job.seed }));
  const nested = { problem, result, layout: result.layout };
  const verdict = await timed('check', () => checkStage(nested.layout, nested, pieces, job));
  if (!verdict.ok) throw new Error(`the check refused batch ${batch}: ${verdict.violations[0]?.message}`);
  const cuts = cutFiles(nested.layout, pieces, job, 'bench');
  const files = await timed('files', () => filesStage(cuts, job));
  await timed('prove files', () => proveFiles(files, cuts, job));
  const hash = createHash('sha256');
  for (const [name, content] of files) hash.update(name).update(content);
  const placed = nested.layout.sheets.reduce((sum, sheet) => sum + sheet.placements.length, 0);
  return {
    batch,
    pieces: placed,
    boards: nested.layout.sheets.length,
    seconds,
    checksum: hash.digest('hex').slice(0, 12),
  };
}

function print(all: readonly Run[]): void {
  const first = all[0]!;
  const last = all.at(-1)!;
  const cells = (row: readonly string[]) =>
    console.log(row.map((cell, at) => (at === 0 ? cell.padEnd(14) : cell.padStart(20))).join(''));
  console.log(`harbour-sign, effort ${effort}: seconds (times batch ${first.batch})`);
  cells(['stage', ...all.map((run) => `batch ${run.batch}`), 'growth exponent']);
  for (const stage of first.seconds.keys()) {
    const reference = first.seconds.get(stage)!;
    const growth = Math.log(last.seconds.get(stage)! / reference) / Math.log(last.batch / first.batch);
    cells([
      stage,
      ...all.map(
        (run) => `${run.seconds.get(stage)!.toFixed(3)} (${(run.seconds.get(stage)! / reference).toFixed(2)})`,
      ),
      Number.isFinite(growth) ? growth.toFixed(2) : '-',
    ]);
  }
  cells(['pieces', ...all.map((run) => String(run.pieces))]);
  cells(['boards', ...all.map((run) => String(run.boards))]);
  cells(['checksum', ...all.map((run) => run.checksum)]);
}
