import { contentKey } from './content-key.ts';
import type { Job } from './document.ts';
import { Memo } from './memo.ts';
import { readOptionsOf } from './read-stage.ts';

/** Keys of the job's stages by the content of everything they depend on: equal keys, equal results. */
export interface StageKeys {
  readonly read: string;
  readonly sign: string;
  readonly split: string;
  readonly cut: string;
  readonly nest: string;
  readonly files: string;
}

/** Fields of a job that a stage certainly does not look at. Left out by name, so that a new field is looked at by default. */
const UNUSED_BY_SPLIT = [
  'name',
  'material',
  'batch',
  'spacing',
  'together',
  'marks',
  'output',
  'costs',
  'shop',
  'aim',
  'tieBreak',
  'effort',
  'pinned',
  'turns',
  'offcuts',
] as const satisfies readonly (keyof Job)[];

const UNUSED_BY_CUT = [
  'name',
  'material',
  'batch',
  'together',
  'output',
  'costs',
  'shop',
  'aim',
  'tieBreak',
  'effort',
  'pinned',
] as const satisfies readonly (keyof Job)[];

/** Marks do not change where pieces lie, but a mirrored part must not carry drawn ones: those come with the artwork. */
const UNUSED_BY_NEST = [
  'name',
  'material',
  'marks',
  'output',
  'costs',
  'shop',
] as const satisfies readonly (keyof Job)[];

/** Jobs are never changed in place, so that their keys are worked out once. */
const known = new WeakMap<Job, StageKeys>();

export function stageKeys(job: Job): StageKeys {
  const before = known.get(job);
  if (before !== undefined) return before;
  // Whether faults are accepted is asked before a stage is used, not by the stage.
  const { text, acceptFaults, ...artwork } = job.artwork;
  const read = contentKey(textKey(text ?? ''), readOptionsOf(job));
  const sign = contentKey(read, artwork);
  const split = contentKey(sign, without(job, UNUSED_BY_SPLIT));
  const cut = contentKey(split, without(job, UNUSED_BY_CUT));
  const nest = contentKey(split, without(job, UNUSED_BY_NEST));
  const files = contentKey(cut, nest, without(job, []));
  const keys = { read, sign, split, cut, nest, files };
  known.set(job, keys);
  return keys;
}

/** A job without its artwork (that is in the keys already) and the named fields. */
function without(job: Job, fields: readonly (keyof Job)[]): Partial<Job> {
  const left = new Set<string>(fields);
  return Object.fromEntries(Object.entries(job).filter(([name]) => name !== 'artwork' && !left.has(name)));
}

const texts = new Memo<string>(64);

/** A drawing has megabytes, and every change of a job asks for its key again. */
function textKey(text: string): string {
  const kept = texts.get(text);
  if (kept !== undefined) return kept;
  const key = contentKey(text);
  texts.set(text, key);
  return key;
}
