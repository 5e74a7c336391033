import { join } from 'node:path';
import { FORMATS } from '@underlap/job/choices';
import { fileSlug } from '@underlap/job/file-slug';
import { planPacks } from '@underlap/job/pack/plan-packs';
import type { Variant } from '@underlap/job/variants';
import type { Command } from 'commander';
import { EXIT } from '../exit.ts';
import { addJobOptions, type JobOptions, overridesOf } from '../job-options.ts';
import { sizesOption } from '../lengths.ts';
import { loadJob } from '../load-job.ts';
import { planWith } from '../plan-with.ts';
import { pngOf } from '../png.ts';
import { print, tell } from '../print.ts';
import type { Session } from '../session.ts';
import { table } from '../table.ts';
import { writeTree } from '../write-files.ts';

interface Options extends JobOptions {
  readonly beds: string;
  readonly out?: string;
  readonly json?: boolean;
}

/** `underlap variants`: a complete pack for every bed from the same master. */
export function addVariants(root: Command, session: Session): void {
  const command = root
    .command('variants')
    .description('one design, a complete pack of files for each of several beds')
    .argument('<file>', 'JOB.json, or artwork with --board')
    .requiredOption('--beds <sizes>', 'beds, separated by commas ("500x300,400x400,12x8in")')
    .option('--out <folder>', 'folder for the packs and variants.json (default: out/ and the name of the job)')
    .option('--json', 'print the table as one JSON object');
  addJobOptions(command).action(async (file: string, options: Options) => {
    const beds = sizesOption('--beds', options.beds);
    const isQuiet = options.json === true;
    const given = loadJob(file, { ...overridesOf(options), bed: { ...bedFields(options), ...beds[0] } });
    const formats = options.formats === undefined ? { output: { ...given.output, formats: [...FORMATS] } } : {};
    const { jobName, variants, folders } = await planPacks({ ...given, ...formats }, beds, {
      plan: (job, index) =>
        planWith(job, {
          signal: session.signal,
          pipeline: session.pipeline,
          isQuiet,
          prefix: `${index + 1}/${beds.length} `,
        }),
      png: pngOf,
    });
    const out = options.out ?? join('out', `${fileSlug(jobName)}-packs`);
    writeTree(out, folders);
    print(
      isQuiet
        ? `${JSON.stringify({ units: 'mm', job: jobName, variants })}\n`
        : `${variantsTable(variants)}\n\nPacks in ${out}\n`,
    );
    for (const variant of variants) {
      for (const message of variant.notFitting) tell(`underlap: bed ${variant.bed}: ${message}\n`);
    }
    if (variants.some((variant) => variant.notFitting.length > 0)) session.leaveWith(EXIT.doesNotFit);
  });
}

function bedFields(options: JobOptions): object {
  const { bed } = overridesOf(options);
  return typeof bed === 'object' && bed !== null ? bed : {};
}

function variantsTable(variants: readonly Variant[]): string {
  return table([
    ['bed mm', 'pieces', 'seam mm', 'hidden', 'held', 'boards', 'at least', 'yield'],
    ...variants.map((variant) => [
      variant.bed,
      String(variant.pieces),
      variant.seamLengthMm.toFixed(1),
      `${(variant.hiddenShare * 100).toFixed(1)} %`,
      `${(variant.heldShare * 100).toFixed(1)} %`,
      String(variant.boards),
      String(variant.boardsLowerBound),
      `${(variant.yield * 100).toFixed(1)} %`,
    ]),
  ]);
}
