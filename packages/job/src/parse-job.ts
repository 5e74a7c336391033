import type { z } from 'zod';
import { checkLists } from './check-lists.ts';
import { didYouMean } from './did-you-mean.ts';
import { JOB_VERSION, type Job, jobSchema } from './document.ts';
import { shown } from './document-fields.ts';
import { JobError } from './error.ts';
import { readJobText } from './job-text.ts';
import { jobJsonSchema } from './json-schema.ts';
import { type RawJob, raise } from './migrate.ts';
import { fieldsAt } from './schema-fields.ts';

/**
 * Read a job document.
 * @param text - JSON, comments allowed. @param name - file name for messages.
 * @throws JobError `job-invalid`: one sentence with file, line or field, value and what is allowed.
 */
export function parseJob(text: string, name: string): Job {
  return jobFrom(readJobText(text, name), name);
}

/** The same from an object, such as one put together from command-line options. */
export function jobFrom(document: unknown, name: string): Job {
  if (typeof document !== 'object' || document === null || Array.isArray(document)) {
    throw new JobError('job-invalid', `${name} must hold one job object, but holds ${shown(document)}.`, {
      file: name,
    });
  }
  const raised = raise(document as RawJob, JOB_VERSION, name);
  const parsed = jobSchema.safeParse(raised);
  if (!parsed.success) throw invalid(parsed.error.issues, name);
  const job = parsed.data;
  checkArtwork(job.artwork, 'artwork', name);
  for (const [at, { artwork }] of job.designs.entries()) checkArtwork(artwork, `designs[${at}].artwork`, name);
  checkFonts(job, name);
  checkLists(job, name);
  return job;
}

function checkFonts({ lettering }: Job, name: string): void {
  for (const [at, { file, data }] of lettering.fonts.entries()) {
    if (file !== null || data !== null) continue;
    const field = `lettering.fonts[${at}]`;
    throw new JobError('job-invalid', `${name}: ${field} names no font file.`, { file: name, field });
  }
}

function checkArtwork(artwork: Job['artwork'], field: string, name: string): void {
  const both = (one: string, other: string) =>
    new JobError('job-invalid', `${name}: ${field} has both ${one} and ${other}; keep one.`, { file: name, field });
  if (artwork.file !== null && artwork.text !== null) throw both('a file', 'a text');
  if (artwork.width !== null && artwork.perInch !== null) throw both('width', 'perInch');
}

function invalid(issues: readonly z.core.$ZodIssue[], name: string): JobError {
  const sentences = issues.map(sentenceOf);
  const first = sentences[0]!;
  const more =
    sentences.length > 1
      ? ` There ${sentences.length === 2 ? 'is one more fault' : `are ${sentences.length - 1} more faults`}: ${sentences
          .slice(1)
          .map((sentence) => sentence.text)
          .join(' ')}`
      : '';
  return new JobError('job-invalid', `${name}: ${first.text}${more}`, { file: name, field: first.field });
}

interface Sentence {
  readonly field: string;
  readonly text: string;
}

/** The fault that lies deepest: in a choice between text and object, the branch that was meant got furthest. */
function sentenceOf(issue: z.core.$ZodIssue): Sentence {
  const { path, message } = deepest(issue, []);
  const field = fieldName(path);
  return {
    field,
    text: `${field === '' ? 'the job' : field} ${lowerFirst(message)}${message.endsWith('?') ? '' : '.'}`,
  };
}

function deepest(
  issue: z.core.$ZodIssue,
  above: readonly PropertyKey[],
): { path: readonly PropertyKey[]; message: string } {
  const path = [...above, ...issue.path];
  if (issue.code === 'unrecognized_keys') {
    return { path, message: unknownFields(issue.keys, path) };
  }
  if (issue.code === 'invalid_union') {
    const inner = issue.errors.flat().map((error) => deepest(error, path));
    const best = inner.reduce<(typeof inner)[number] | null>(
      (found, next) =>
        next.path.length > (found?.path.length ?? path.length) || /^has a field/.test(next.message) ? next : found,
      null,
    );
    if (best !== null) return best;
  }
  if (issue.code === 'invalid_type' && issue.message.startsWith('Invalid input'))
    return { path, message: `must be ${article(issue.expected)}` };
  return { path, message: issue.message };
}

function unknownFields(keys: readonly string[], path: readonly PropertyKey[]): string {
  const known = fieldsAt(jobJsonSchema(), path);
  const named = keys.map((key) => `"${key}"${didYouMean(key, known)}`);
  return `has a field that is not known: ${named.join(', ')}`;
}

function fieldName(path: readonly PropertyKey[]): string {
  return path.reduce<string>(
    (name, key) => (typeof key === 'number' ? `${name}[${key}]` : name === '' ? String(key) : `${name}.${String(key)}`),
    '',
  );
}

function article(expected: string): string {
  return /^[aeiou]/.test(expected) ? `an ${expected}` : `a ${expected}`;
}

function lowerFirst(text: string): string {
  return text.charAt(0).toLowerCase() + text.slice(1);
}
