import type { Job } from '@underlap/job/document';
import { contentKey } from './content-key.ts';

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
  'aim',
  'tieBreak',
  'effort',
  'pinned',
] as const satisfies readonly (keyof Job)[];

/** Marks do not change where pieces lie, but a mirrored part must not carry drawn ones: those come with the artwork. */
const UNUSED_BY_NEST = ['name', 'material', 'marks', 'output', 'costs'] as const satisfies readonly (keyof Job)[];

export function stageKeys(job: Job): StageKeys {
  const { mode, colourKey, ...reading } = job.artwork;
  const read = contentKey(reading);
  const sign = contentKey(read, mode, colourKey);
  const split = contentKey(sign, without(job, UNUSED_BY_SPLIT));
  const cut = contentKey(split, without(job, UNUSED_BY_CUT));
  const nest = contentKey(split, without(job, UNUSED_BY_NEST));
  const files = contentKey(cut, nest, without(job, []));
  return { read, sign, split, cut, nest, files };
}

/** A job without its artwork (that is in the keys already) and the named fields. */
function without(job: Job, fields: readonly (keyof Job)[]): Partial<Job> {
  const left = new Set<string>(fields);
  return Object.fromEntries(Object.entries(job).filter(([name]) => name !== 'artwork' && !left.has(name)));
}
