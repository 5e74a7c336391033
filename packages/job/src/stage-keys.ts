import { contentKey } from './content-key.ts';
import { designsOf } from './designs.ts';
import type { Job } from './document.ts';
import { letteringKey } from './lettered-drawing.ts';
import { Memo } from './memo.ts';
import { readOptionsOf } from './read-stage.ts';
import type { JobPiece } from './stages.ts';
import { jobOfStock } from './stock-of.ts';

/** Keys of a design's stages by the content of everything they depend on: equal keys, equal results. */
export interface StageKeys {
  /** Of the drawing with its texts as text. */
  readonly drawn: string;
  readonly read: string;
  readonly sign: string;
  readonly split: string;
  readonly cut: string;
  /** Of how its pieces lie on boards: marks do not count. */
  readonly lie: string;
}

/** Keys of the stages that take all designs together. */
export interface JobKeys {
  readonly nest: string;
  readonly files: string;
}

/** Named by the whole job alone. */
const UNUSED_BY_DESIGNS = ['name', 'designs', 'done', 'pinned', 'lettering'] as const;

/** Fields of a job that a stage certainly does not look at. Left out by name, so that a new field is looked at by default. */
const UNUSED_BY_SPLIT = [
  ...UNUSED_BY_DESIGNS,
  'material',
  'batch',
  'bridges',
  'spacing',
  'together',
  'marks',
  'output',
  'costs',
  'shop',
  'aim',
  'tieBreak',
  'effort',
  'turns',
  'offcuts',
] as const satisfies readonly (keyof Job)[];

const UNUSED_BY_CUT = [
  ...UNUSED_BY_DESIGNS,
  'material',
  'batch',
  'together',
  'output',
  'costs',
  'shop',
  'aim',
  'tieBreak',
  'effort',
] as const satisfies readonly (keyof Job)[];

/** Marks do not change where pieces lie, but a mirrored part must not carry drawn ones: those come with the artwork. */
const UNUSED_BY_NEST = [
  'name',
  'material',
  'bridges',
  'marks',
  'output',
  'costs',
  'shop',
  'designs',
  'stocks',
  'lettering',
] as const satisfies readonly (keyof Job)[];

/** Jobs are never changed in place, so that their keys are worked out once. */
const known = new WeakMap<Job, StageKeys>();
const knownOfJob = new WeakMap<Job, JobKeys>();

export function stageKeys(job: Job): StageKeys {
  const before = known.get(job);
  if (before !== undefined) return before;
  // Whether faults are accepted is asked before a stage is used, not by the stage.
  const { text, acceptFaults, ...artwork } = job.artwork;
  const drawn = contentKey(textKey(text ?? ''), readOptionsOf(job));
  const read =
    mayHoldText(text ?? '') || Object.keys(job.lettering.words).length > 0
      ? contentKey(drawn, letteringKey(job, textKey))
      : drawn;
  const sign = contentKey(
    read,
    artwork,
    job.stocks.length === 0 ? null : [job.thickness, stocksToSplit(job), job.stockOf],
    hasSlots(job) ? [job.shop.hanging, job.shop.densityKgM3, job.stocks.map(({ density }) => density)] : null,
  );
  const split = contentKey(sign, stocksToSplit(job), without(job, [...UNUSED_BY_SPLIT, 'stocks']));
  const cut = contentKey(split, stocksToSplit(job), without(job, [...UNUSED_BY_CUT, 'stocks']));
  const lie = contentKey(split, job.turns, job.together, job.batch);
  const keys = { drawn, read, sign, split, cut, lie };
  known.set(job, keys);
  return keys;
}

/** Slots are holes of a part: only then does the sign depend on what it weighs. */
function hasSlots({ shop: { hanging } }: Job): boolean {
  return hanging.slots > 0 || hanging.at.length > 0;
}

/** What splitting and cutting look at of a stock; its prices, its offcuts and how many boards there are do not count. */
function stocksToSplit(job: Job): unknown {
  return job.stocks.map(({ id, thickness, measured, colour, kerf, fit, boards }) => ({
    ...{ id, thickness, measured, colour, kerf, fit },
    boards: boards?.map(({ width, height }) => ({ width, height })) ?? null,
  }));
}

/** Keys of the layouts and the files of a whole job. */
export function jobKeys(job: Job): JobKeys {
  const before = knownOfJob.get(job);
  if (before !== undefined) return before;
  const designs = designsOf(job).map((design) => stageKeys(design.job));
  const nest = contentKey(
    designs.map(({ lie }) => lie),
    without(job, UNUSED_BY_NEST),
    job.stocks.map(({ material: _, speeds: __, ...stock }) => stock),
    designsOf(job).map(({ id, order }) => ({ id, order })),
  );
  const keys = { nest, files: contentKey(nest, designs, without(job, [])) };
  knownOfJob.set(job, keys);
  return keys;
}

/** Key of the layout of one stock: another design in the job changes it only when it brings pieces of this stock. */
export function stockKey(job: Job, stockId: string, pieces: readonly JobPiece[]): string {
  return contentKey(
    without(jobOfStock(job, stockId), UNUSED_BY_NEST),
    pieces.map(({ id, ownId, design, signs }) => [id, ownId, design.order, stageKeys(design.job).lie, signs]),
  );
}

/** A job without its artwork (that is in the keys already) and the named fields. */
function without(job: Job, fields: readonly (keyof Job)[]): Partial<Job> {
  const left = new Set<string>(fields);
  return Object.fromEntries(Object.entries(job).filter(([name]) => name !== 'artwork' && !left.has(name)));
}

const texts = new Memo<string>(64);

const textful = new Memo<boolean>(64);

/** Could there be texts in a drawing? Only then does it depend on fonts and names. */
function mayHoldText(text: string): boolean {
  const kept = textful.get(text);
  if (kept !== undefined) return kept;
  const may = /<(?:\w+:)?text\b|\bM?TEXT\b|\bATTRIB\b/.test(text);
  textful.set(text, may);
  return may;
}

/** A drawing has megabytes, and every change of a job asks for its key again. */
function textKey(text: string): string {
  const kept = texts.get(text);
  if (kept !== undefined) return kept;
  const key = contentKey(text);
  texts.set(text, key);
  return key;
}
