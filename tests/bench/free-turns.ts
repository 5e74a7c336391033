/**
 * What free turns gain at equal time: a strip layout over the listed turns is taken further for the same processor time twice, with
 * the listed turns and with any turn; both must pass the independent check.
 * Run: npx tsx tests/bench/free-turns.ts --data DIR [--only swim,marques] [--seeds 1,2,3,4] [--seconds 60] [--more 30]
 */
import { parseArgs } from 'node:util';
import { checksum, readFolder, type StripInstance, TOUCHING, verdictOn } from './nest-instances.ts';
import { runStrip, type StripOrder, type StripOutcome } from './strip-run.ts';

const { values: options } = parseArgs({
  options: {
    data: { type: 'string' },
    only: { type: 'string', default: 'swim,marques' },
    seeds: { type: 'string', default: '1,2,3,4' },
    seconds: { type: 'string', default: '60' },
    more: { type: 'string', default: '30' },
  },
});
const folder = options.data ?? process.env.UNDERLAP_STRIP_DATA;
const files = readFolder(folder);
if (files === null || files.length === 0) {
  console.error(`No instances found in ${folder ?? '(no folder given)'}. Say where they are with --data DIR.`);
  process.exit(1);
}
const names = options.only.split(',');
const seeds = options.seeds.split(',');
const seconds = Number(options.seconds);
const more = Number(options.more);

console.log(
  `Listed turns for ${seconds} s, then ${more} s more with the listed turns and with any (processor time).\n`,
);
console.log('name      seed  listed  listed + more  any + more    gain  checksum  verdict');
for (const file of files) {
  const instance = JSON.parse(file.text) as StripInstance;
  if (!names.includes(instance.name)) continue;
  const gains = seeds.map((seed) => gainOf(instance, seed));
  const mean = gains.reduce((sum, gain) => sum + gain, 0) / gains.length;
  console.log(`${instance.name.padEnd(9)} mean gain of density ${mean.toFixed(2)} over ${gains.length} seeds\n`);
}

/** Gain of density, points, of any turn over the listed ones. */
function gainOf(instance: StripInstance, seed: string): number {
  const densityOf = (outcome: StripOutcome) => (100 * instance.totalPartArea) / (instance.stripHeight * outcome.length);
  const order: StripOrder = {
    instance,
    seed,
    seconds,
    evaluations: null,
    clock: 'cpu',
    incumbent: null,
    isFreeToTurn: false,
  };
  const start = runStrip(order);
  const further = { ...order, seconds: more, incumbent: start.spots };
  const listed = runStrip({ ...further, seed: `${seed}/listed` });
  const any = runStrip({ ...further, seed: `${seed}/any`, isFreeToTurn: true });
  const passes = (outcome: StripOutcome, isFreeToTurn: boolean) =>
    verdictOn(instance.parts, outcome.spots, outcome.length, instance.stripHeight, isFreeToTurn).verdict.ok;
  const isValid = passes(listed, false) && passes(any, true);
  if (!isValid) process.exitCode = 1;
  const gain = densityOf(any) - densityOf(listed);
  console.log(
    `${instance.name.padEnd(9)} ${seed.padStart(4)} ${densityOf(start).toFixed(2).padStart(7)} ` +
      `${densityOf(listed).toFixed(2).padStart(14)} ${densityOf(any).toFixed(2).padStart(11)} ` +
      `${gain.toFixed(2).padStart(7)}  ${checksum(any.spots, TOUCHING * instance.stripHeight)}  ${isValid ? 'valid' : 'WRONG'}`,
  );
  return gain;
}
