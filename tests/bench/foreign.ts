import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { artworkText } from '@underlap/artwork/artwork-text';
import { type ForeignOutcome, foreignOutcome } from '../support/foreign.ts';
import { iconCorpus } from '../support/icon-corpus.ts';
import { randomForeign } from '../support/random-foreign.ts';
import { randomForeignDxf } from '../support/random-foreign-dxf.ts';

/**
 * How foreign drawings are read: `tsx tests/bench/foreign.ts [--data DIR] [--every N]`. Without a folder, the two icon sets of the
 * development dependencies, 300 random drawings and 300 random DXF. Prints a count of every outcome, and the names of those that were misread
 * without a word or crashed; exit code 1 when there are any.
 */
const args = process.argv.slice(2);
const optionOf = (option: string): string | undefined =>
  args.includes(option) ? args[args.indexOf(option) + 1] : undefined;
const folder = optionOf('--data');
const every = Number(optionOf('--every') ?? 1);

interface Foreign {
  readonly name: string;
  read(): string;
}

function filesIn(directory: string): Foreign[] {
  return readdirSync(directory, { recursive: true, encoding: 'utf8' })
    .filter((name) => /\.(?:svg|dxf)$/i.test(name))
    .sort()
    .map((name) => ({ name, read: () => artworkText(readFileSync(join(directory, name))) }));
}

const sets: readonly (readonly [string, readonly Foreign[]])[] =
  folder === undefined
    ? [
        ['icon sets', iconCorpus()],
        [
          'random drawings',
          Array.from({ length: 300 }, (_, i) => ({ name: `foreign-${i}`, read: () => randomForeign(`foreign-${i}`) })),
        ],
        [
          'random DXF',
          Array.from({ length: 300 }, (_, i) => ({ name: `dxf-${i}`, read: () => randomForeignDxf(`dxf-${i}`) })),
        ],
      ]
    : [[folder, filesIn(folder)]];

let isFaulty = false;
for (const [set, files] of sets) {
  const counts: Record<ForeignOutcome, number> = { right: 0, told: 0, refused: 0, silent: 0, crashed: 0, unknown: 0 };
  const faulty: string[] = [];
  files.forEach(({ name, read }, i) => {
    if (i % every !== 0) return;
    const outcome = foreignOutcome(read(), name);
    counts[outcome]++;
    if (outcome === 'silent' || outcome === 'crashed') faulty.push(`${outcome}: ${name}`);
  });
  console.log(set, JSON.stringify(counts));
  for (const line of faulty.slice(0, 40)) console.log(`  ${line}`);
  isFaulty ||= faulty.length > 0;
}
process.exitCode = isFaulty ? 1 : 0;
