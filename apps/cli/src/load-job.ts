import { readFileSync, statSync } from 'node:fs';
import { basename, dirname, extname, resolve } from 'node:path';
import { artworkText } from '@underlap/artwork/artwork-text';
import { designsOf } from '@underlap/job/designs';
import { JOB_VERSION, type Job } from '@underlap/job/document';
import { readJobText } from '@underlap/job/job-text';
import { raise } from '@underlap/job/migrate';
import { jobFrom } from '@underlap/job/parse-job';
import { FileError, UsageError } from './exit.ts';
import { merged, type Overrides } from './overrides.ts';

const NEEDED = [
  ['bed', 'Artwork without a job file needs --bed, such as --bed 520x320: say how large your bed is.'],
  ['boards', 'Artwork without a job file needs --board, such as --board 508x305: say how large your boards are.'],
] as const;

/** Largest file that is read, bytes: more is no drawing of a sign. */
const LARGEST_FILE = 200_000_000;

/**
 * Load a job file, or make a job for a bare artwork file; either way with the artwork's text in it.
 * @param path - JOB.json, ART.svg or ART.dxf.
 * @param fallback - what a job for bare artwork starts from.
 * @throws FileError, JobError; UsageError when bare artwork comes without bed or board.
 */
export function loadJob(path: string, overrides: Overrides, fallback: Overrides = {}): Job {
  const text = readText(path);
  if (!isJobFile(path, text)) {
    const given = { ...fallback, ...overrides };
    for (const [needed, sentence] of NEEDED) if (!(needed in given)) throw new UsageError(sentence);
    const job = jobFrom(merged({ artwork: { file: basename(path) } }, given), basename(path));
    const lettering = withLetters(job.lettering, 'lettering', path);
    return checked({ ...job, lettering, artwork: { ...job.artwork, text } });
  }
  const job = jobFrom(
    merged(raise(readJobText(text, basename(path)), JOB_VERSION, basename(path)), overrides),
    basename(path),
  );
  const lettering = withLetters(job.lettering, 'lettering', path);
  if (job.designs.length === 0) return checked({ ...job, lettering, artwork: withText(job.artwork, 'artwork', path) });
  return checked({
    ...job,
    lettering,
    designs: job.designs.map((design, at) => ({
      ...design,
      artwork: withText(design.artwork, `designs[${at}].artwork`, path),
      lettering: withNames(design.lettering, `designs[${at}].lettering`, path),
    })),
  });
}

/** Tables of names are read only now, so that their faults are told before anything is planned. @throws JobError. */
function checked(job: Job): Job {
  designsOf(job);
  return job;
}

/** Fonts with their bytes and a table of names with its text, read from the files that they name beside the job. */
function withLetters(lettering: Job['lettering'], field: string, path: string): Job['lettering'] {
  const fonts = lettering.fonts.map((font, at) => {
    if (font.data !== null || font.file === null) return font;
    const bytes = readBytes(resolve(dirname(path), font.file), ` (${field}.fonts[${at}] of ${basename(path)})`, 'font');
    return { ...font, data: bytes.toString('base64') };
  });
  return { ...withNames(lettering, field, path), fonts };
}

function withNames<T extends Pick<Job['lettering'], 'names'>>(lettering: T, field: string, path: string): T {
  const { names } = lettering;
  if (names.file === null || names.text !== null) return lettering;
  const text = readText(resolve(dirname(path), names.file), ` (${field}.names of ${basename(path)})`);
  return { ...lettering, names: { ...names, text } };
}

/** Artwork with its text, read from the file that it names beside the job. */
function withText(artwork: Job['artwork'], field: string, path: string): Job['artwork'] {
  if (artwork.text !== null) return artwork;
  if (artwork.file === null) {
    throw new FileError(`${basename(path)} names no artwork: set ${field}.file to an SVG or DXF beside it.`, {
      file: path,
    });
  }
  const text = readText(resolve(dirname(path), artwork.file), ` (${field}.file of ${basename(path)})`);
  return { ...artwork, text };
}

/** @throws FileError saying whether the file is missing, a folder, empty, or too large. */
export function readText(path: string, remark = ''): string {
  const bytes = readBytes(path, remark, 'drawing');
  try {
    return artworkText(bytes);
  } catch (error) {
    throw new FileError(`${path}${remark} cannot be read: ${error instanceof Error ? error.message : String(error)}.`, {
      file: path,
    });
  }
}

/** @throws FileError saying whether the file is missing, a folder, empty, or too large. */
function readBytes(path: string, remark: string, what: 'drawing' | 'font'): Buffer {
  let size: number;
  try {
    const stat = statSync(path);
    if (stat.isDirectory()) throw new FileError(`${path}${remark} is a folder: name a file.`, { file: path });
    size = stat.size;
  } catch (error) {
    if (error instanceof FileError) throw error;
    throw new FileError(`There is no file ${path}${remark}: check the name and the folder.`, { file: path });
  }
  if (size === 0) throw new FileError(`${path}${remark} is empty: export the ${what} again.`, { file: path });
  if (size > LARGEST_FILE)
    throw new FileError(
      `${path}${remark} has ${(size / 1e6).toFixed(0)} MB, more than the ${LARGEST_FILE / 1e6} MB that are read: simplify the ${what}.`,
      { file: path },
    );
  try {
    return readFileSync(path);
  } catch (error) {
    throw new FileError(`${path}${remark} cannot be read: ${error instanceof Error ? error.message : String(error)}.`, {
      file: path,
    });
  }
}

function isJobFile(path: string, text: string): boolean {
  const ending = extname(path).toLowerCase();
  if (ending === '.svg' || ending === '.dxf') return false;
  return ending === '.json' || ending === '.jsonc' || /^\s*(?:\{|\/[/*])/.test(text);
}
