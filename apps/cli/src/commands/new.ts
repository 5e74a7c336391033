import { existsSync } from 'node:fs';
import { basename, dirname, extname, join, relative } from 'node:path';
import { createInterface } from 'node:readline/promises';
import type { Job } from '@underlap/job/document';
import { letteredDrawing } from '@underlap/job/lettered-drawing';
import { readStage } from '@underlap/job/read-stage';
import { signOf } from '@underlap/job/sign-stage';
import { startingJob } from '@underlap/job/starting-job';
import { thicknessesOf } from '@underlap/job/thickness';
import type { Command } from 'commander';
import { FileError, UsageError } from '../exit.ts';
import { addArtworkOptions, type JobOptions, overridesOf } from '../job-options.ts';
import { lengthOption, sizeOption } from '../lengths.ts';
import { loadJob } from '../load-job.ts';
import { print } from '../print.ts';
import { writeOne } from '../write-files.ts';

interface Options extends JobOptions {
  readonly out?: string;
}

/** What has to be known of the workshop: option, question, an answer to start from, and how it is checked. */
const QUESTIONS = [
  ['bed', 'How large is the bed of your machine?', '520x320', sizeOption],
  ['board', 'How large are your boards?', '508x305', sizeOption],
  ['thickness', 'How thick are they, in mm?', '6', lengthOption],
  ['kerf', 'How wide is a cut, in mm? (underlap coupon measures it)', '0.2', lengthOption],
  ['batch', 'How many signs at once?', '1', null],
] as const;

/** `underlap new`: a commented job file to start from, by options or by asking. */
export function addNew(root: Command): void {
  const command = root
    .command('new')
    .description('write a commented job file for a drawing, to start from')
    .argument('<artwork>', 'ART.svg or ART.dxf')
    .option('--out <file>', 'the job file (default: beside the artwork, with its name)')
    .option('--bed <size>', 'working area of the machine ("520x320", "20x12in")')
    .option('--board <size>', 'size of a board ("508x305")')
    .option('--thickness <length>', 'thickness of the boards')
    .option('--kerf <length>', 'width that a cut removes')
    .option('--batch <number>', 'signs made together');
  addArtworkOptions(command).action(async (file: string, options: Options) => {
    const out = options.out ?? join(dirname(file), `${basename(file, extname(file))}.job.json`);
    if (existsSync(out)) throw new FileError(`${out} is there already: name another file with --out.`, { file: out });
    const answers = await answersFor(options);
    const job: Job = loadJob(file, overridesOf({ ...options, ...answers }));
    const drawing = await letteredDrawing(readStage(job.artwork.text ?? '', job), job);
    const sign = signOf(drawing, job.artwork, (found) => thicknessesOf(found, job));
    const path = relative(dirname(out), file).replaceAll('\\', '/');
    writeOne(out, startingJob(job, path, sign));
    print(`${out} is written: change it as you like, then: underlap plan ${out}\n`);
  });
}

/** Options first; what they leave open is asked on a terminal, and elsewhere has to be given. */
async function answersFor(options: Options): Promise<Partial<JobOptions>> {
  const isTerminal = process.stdin.isTTY === true && process.stdout.isTTY === true;
  if (!isTerminal) {
    const missing = (['bed', 'board'] as const).filter((name) => options[name] === undefined);
    if (missing.length === 0) return {};
    throw new UsageError(`Without a terminal to ask on, say ${missing.map((name) => `--${name}`).join(' and ')}.`);
  }
  const terminal = createInterface({ input: process.stdin, output: process.stdout });
  const answers: Record<string, string> = {};
  try {
    for (const [name, question, usual, check] of QUESTIONS) {
      if (options[name] !== undefined) continue;
      const answer = (await terminal.question(`${question} [${usual}] `)).trim() || usual;
      check?.(`--${name}`, answer);
      answers[name] = answer;
    }
  } finally {
    terminal.close();
  }
  return answers;
}
