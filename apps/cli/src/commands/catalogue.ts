import { spawn } from 'node:child_process';
import { createHash } from 'node:crypto';
import { existsSync, readdirSync, readFileSync, statSync } from 'node:fs';
import { cpus } from 'node:os';
import { basename, join } from 'node:path';
import { fileSlug } from '@underlap/job/file-slug';
import type { Variant } from '@underlap/job/variants';
import type { Command } from 'commander';
import { EXIT, FileError, failureOf } from '../exit.ts';
import { addJobOptions, type JobOptions, overridesOf } from '../job-options.ts';
import { countOption, sizesOption } from '../lengths.ts';
import { loadJob } from '../load-job.ts';
import { print, tell } from '../print.ts';
import type { Session } from '../session.ts';
import { table } from '../table.ts';
import { writeOne } from '../write-files.ts';

interface Options extends JobOptions {
  readonly beds: string;
  readonly out?: string;
  readonly processes?: string;
  readonly json?: boolean;
}

/** A master with the folder that its packs go to. */
interface Master {
  readonly file: string;
  readonly name: string;
  readonly folder: string;
}

/** What became of a master. */
interface Row {
  readonly master: string;
  readonly folder: string;
  readonly state: 'made' | 'unchanged' | 'faulty' | 'not reached';
  readonly variants: readonly Variant[];
  readonly message: string | null;
}

/** What is remembered of packs that are made: they are made again only when something of this changes. */
type Known = Record<string, { readonly key: string }>;

const KNOWN_FILE = 'catalogue-made.json';

/** `underlap catalogue`: every master of a folder into packs for several beds, each by a process of its own. */
export function addCatalogue(root: Command, session: Session): void {
  const command = root
    .command('catalogue')
    .description('every master of a folder into packs for several beds; unchanged ones are left as they are')
    .argument('<folder>', 'folder with JOB.job.json, ART.svg and ART.dxf files')
    .requiredOption('--beds <sizes>', 'beds, separated by commas ("500x300,400x400,12x8in")')
    .option('--out <folder>', 'folder for the packs and catalogue.json (default: out/ and the name of the folder)')
    .option('--processes <number>', 'masters planned at the same time (default: as many as there are cores)')
    .option('--json', 'print the table as one JSON object')
    .addHelpText(
      'after',
      `
Every master is planned by "underlap variants MASTER --beds ... --out FOLDER/MASTER", so that make or a queue can do the same.
Stopped or failed masters are made when the command is run again; what is made and unchanged is skipped.`,
    );
  addJobOptions(command).action(async (folder: string, options: Options) => {
    const masters = mastersIn(folder);
    const out = options.out ?? join('out', fileSlug(basename(folder)));
    const passed = passedOptions(command);
    const known = knownIn(out);
    const rows = new Map<string, Row>();
    const waiting = [...masters];
    const work = async (): Promise<void> => {
      for (let master = waiting.shift(); master !== undefined; master = waiting.shift()) {
        if (session.signal.aborted) return;
        const row = await rowFor(master, { options, out, passed, known, signal: session.signal });
        if (row === null) return;
        rows.set(master.file, row);
        tell(`underlap: ${rows.size} of ${masters.length}: ${master.name}, ${row.message ?? row.state}\n`);
      }
    };
    const processes =
      options.processes === undefined ? cpus().length : countOption('--processes', options.processes, 1, 256);
    await Promise.all(Array.from({ length: Math.min(processes, masters.length) }, work));
    const all = masters.map((master): Row => rows.get(master.file) ?? rowOf(master, 'not reached', [], null));
    const document = { units: 'mm', folder, isComplete: rows.size === masters.length, masters: all };
    writeOne(join(out, 'catalogue.json'), `${JSON.stringify(document, null, 2)}\n`);
    print(options.json === true ? `${JSON.stringify(document)}\n` : `${catalogueTable(all)}\n\nPacks in ${out}\n`);
    if (session.signal.aborted) session.leaveWith(EXIT.interrupted);
    else if (all.some(({ state }) => state === 'faulty')) session.leaveWith(EXIT.unusableInput);
    else if (all.some(({ variants }) => variants.some(({ notFitting }) => notFitting.length > 0)))
      session.leaveWith(EXIT.doesNotFit);
  });
}

/** @throws FileError when there is no such folder, or nothing in it to plan. */
function mastersIn(folder: string): Master[] {
  if (!existsSync(folder) || !statSync(folder).isDirectory())
    throw new FileError(`There is no folder ${folder}: name one with your masters.`, { file: folder });
  const files = readdirSync(folder).sort((a, b) => (a < b ? -1 : a > b ? 1 : 0));
  const jobs = files.filter((file) => file.endsWith('.job.json'));
  // The drawing of a job is planned with the job, not once more without.
  const drawn = new Set(jobs.flatMap((file) => drawingsOf(join(folder, file))));
  const own = files.filter((file) => /\.(svg|dxf)$/i.test(file) && !drawn.has(file));
  const nameOf = (file: string) => file.replace(/\.job\.json$/, '').replace(/\.(svg|dxf)$/i, '');
  const masters = [...jobs, ...own].map((file) => {
    const isAlone =
      [...jobs, ...own].filter((other) => fileSlug(nameOf(other)) === fileSlug(nameOf(file))).length === 1;
    const name = isAlone ? nameOf(file) : file;
    return { file: join(folder, file), name, folder: fileSlug(name) };
  });
  if (masters.length === 0)
    throw new FileError(`${folder} holds no masters: put .job.json, .svg or .dxf files into it.`, { file: folder });
  return masters;
}

function drawingsOf(job: string): string[] {
  const text = readFileSync(job, 'utf8');
  return [...text.matchAll(/"([^"/\\]+\.(?:svg|dxf))"/gi)].map(([, file]) => file!);
}

interface Work {
  readonly options: Options;
  readonly out: string;
  readonly passed: readonly string[];
  readonly known: Known;
  readonly signal: AbortSignal;
}

/** What becomes of one master; null when it was stopped. Nothing that it throws reaches the others. */
async function rowFor(master: Master, { options, out, passed, known, signal }: Work): Promise<Row | null> {
  const target = join(out, master.folder);
  let key: string;
  try {
    key = keyOf(master, options, passed);
  } catch (error) {
    return rowOf(master, 'faulty', [], failureOf(error).message);
  }
  const made = variantsIn(target);
  if (made !== null && known[master.folder]?.key === key) return rowOf(master, 'unchanged', made, null);
  const run = await runVariants([master.file, ...passed, '--out', target], signal);
  if (run.code === EXIT.interrupted || signal.aborted) return null;
  const variants = run.code === EXIT.done || run.code === EXIT.doesNotFit ? variantsIn(target) : null;
  if (variants === null) return rowOf(master, 'faulty', [], run.message);
  known[master.folder] = { key };
  writeOne(join(out, KNOWN_FILE), `${JSON.stringify(known, null, 2)}\n`);
  return rowOf(master, 'made', variants, null);
}

function rowOf(
  { file, folder }: Master,
  state: Row['state'],
  variants: readonly Variant[],
  message: string | null,
): Row {
  return { master: basename(file), folder, state, variants, message };
}

/** Key of everything that the packs come of: the whole job with its drawings, the beds, and the options. */
function keyOf({ file }: Master, options: Options, passed: readonly string[]): string {
  const [bed] = sizesOption('--beds', options.beds);
  const job = loadJob(file, { ...overridesOf(options), bed });
  return createHash('sha256')
    .update(JSON.stringify([job, passed]))
    .digest('hex');
}

function knownIn(out: string): Known {
  try {
    return JSON.parse(readFileSync(join(out, KNOWN_FILE), 'utf8')) as Known;
  } catch {
    return {};
  }
}

function variantsIn(folder: string): Variant[] | null {
  try {
    const { variants } = JSON.parse(readFileSync(join(folder, 'variants.json'), 'utf8')) as { variants: Variant[] };
    return variants;
  } catch {
    return null;
  }
}

/** The unit of the work, as a process of its own. */
function runVariants(
  args: readonly string[],
  signal: AbortSignal,
): Promise<{ readonly code: number | null; readonly message: string }> {
  return new Promise((resolve) => {
    const child = spawn(process.execPath, [process.argv[1]!, 'variants', ...args], {
      stdio: ['ignore', 'ignore', 'pipe'],
    });
    const stop = () => child.kill('SIGINT');
    signal.addEventListener('abort', stop, { once: true });
    let told = '';
    child.stderr.on('data', (data) => {
      told = `${told}${String(data)}`.slice(-20_000);
    });
    const end = (code: number | null, message: string) => {
      signal.removeEventListener('abort', stop);
      resolve({ code, message });
    };
    child.on('error', (error) => end(null, error.message));
    child.on('close', (code) => {
      const last = told
        .split(/[\r\n]+/)
        .filter((line) => line.startsWith('underlap: '))
        .at(-1);
      end(code, last?.slice('underlap: '.length) ?? `its process ended with code ${code}`);
    });
  });
}

/** The options given that concern the packs, as they are passed on. */
function passedOptions(command: Command): string[] {
  const kept = new Set(['out', 'processes', 'json']);
  return command.options.flatMap((option) => {
    const name = option.attributeName();
    if (kept.has(name) || command.getOptionValueSource(name) !== 'cli') return [];
    const value: unknown = command.getOptionValue(name);
    if (option.negate) return value === false ? [option.long!] : [];
    if (value === true) return [option.long!];
    if (value === false) return [];
    return (Array.isArray(value) ? value : [value]).flatMap((one: unknown) => [option.long!, String(one)]);
  });
}

function catalogueTable(rows: readonly Row[]): string {
  const beds = [...new Set(rows.flatMap(({ variants }) => variants.map(({ bed }) => bed)))];
  const boards = (row: Row, bed: string): string => {
    const variant = row.variants.find((one) => one.bed === bed);
    if (variant === undefined) return '';
    return variant.notFitting.length > 0 ? 'does not fit' : `${variant.boards} boards, ${variant.pieces} pieces`;
  };
  return table([
    ['master', ...beds.map((bed) => `bed ${bed}`), 'state'],
    ...rows.map((row) => [
      row.master,
      ...beds.map((bed) => boards(row, bed)),
      row.message === null ? row.state : `${row.state}: ${row.message}`,
    ]),
  ]);
}
