import { type Job, type JobDesign, MOST_DESIGNS } from './document.ts';
import { JobError } from './error.ts';
import { namedSigns } from './names-table.ts';
import { type RuleField, rulesFor } from './shared-rules.ts';

/**
 * One design of a job with everything that is said of it: `job` is the job as if the design stood in it alone, so that every
 * stage up to the cut pieces is made from it.
 */
export interface Design {
  /** Empty in a job that holds one artwork and no list. */
  readonly id: string;
  /** The design of the list that it is; one of several signs of it where there is a table of names. */
  readonly base: string;
  /** What stands before the ids of its parts and pieces: "lighthouse/", or nothing. */
  readonly prefix: string;
  readonly order: string;
  /** Signs of it in the job. */
  readonly count: number;
  /** Rules that it takes from the job: they may name parts of other designs. */
  readonly shared: readonly RuleField[];
  readonly job: Job;
}

/** Jobs are never changed in place: equal designs are the same object each time, and so are their keys. */
const known = new WeakMap<Job, readonly Design[]>();

/** The designs of a job in their order; one without name for a job that holds a single artwork. */
export function designsOf(job: Job): readonly Design[] {
  const before = known.get(job);
  if (before !== undefined) return before;
  const signs = listedSigns(job);
  const designs = signs.length === 0 ? [loneDesign(job)] : signs.map((own, at) => listed(job, own, at));
  assertDay(designs);
  known.set(job, designs);
  return designs;
}

/** Signs of all designs that can be made together: some ten times what a bench makes in a day. */
const MOST_DAY_SIGNS = 5_000;

/** @throws JobError `job-invalid`: counts multiply, and a slip of the pen would search for days. */
function assertDay(designs: readonly Design[]): void {
  const signs = designs.reduce((sum, { count }) => sum + count, 0);
  const [what, most, field] =
    designs.length > MOST_DESIGNS
      ? [`${designs.length} designs (a sign for every row of its tables of names)`, MOST_DESIGNS, 'designs']
      : [`${signs} signs (count times batch, over all designs)`, MOST_DAY_SIGNS, 'batch'];
  if (designs.length <= MOST_DESIGNS && signs <= MOST_DAY_SIGNS) return;
  throw new JobError('job-invalid', `The job asks for ${what}; at most ${most} can be made together.`, { field });
}

/** A sign of the list, with the words of its row where there is a table of names. */
type ListedSign = JobDesign & { readonly base: string; readonly words: Readonly<Record<string, string>> };

/** The list of designs with a sign for every row of their tables of names. @throws JobError `job-invalid` for a faulty table. */
function listedSigns(job: Job): ListedSign[] {
  const taken = new Set<string>();
  if (job.designs.length === 0) return namedFrom(job, { ...LONE, artwork: job.artwork }, 'lettering.names', taken);
  return job.designs.flatMap((own, at) => {
    const field = `designs[${at}].lettering.names`;
    const named = namedFrom(job, own, field, taken);
    return named.length > 0 ? named : [{ ...own, base: own.id, words: own.lettering.words }];
  });
}

/** What a job of one artwork says of it as if it stood in a list. */
const LONE: Omit<JobDesign, 'artwork'> = {
  id: '',
  order: '',
  count: 1,
  mark: null,
  turns: null,
  together: null,
  landing: null,
  seams: null,
  marks: null,
  stockOf: null,
  lettering: {
    letters: null,
    weld: null,
    score: null,
    words: {},
    rooms: {},
    names: { file: null, text: null, rows: [] },
  },
};

function namedFrom(job: Job, own: JobDesign, field: string, taken: Set<string>): ListedSign[] {
  const names = own.id === '' ? job.lettering.names : own.lettering.names;
  return namedSigns(names, field).map(({ words, count, order }, at) => ({
    ...own,
    base: own.id,
    id: uniqueId(own.id, Object.values(words)[0] ?? '', taken),
    order: order === '' ? own.order : order,
    count: own.count * count,
    mark: own.mark === null ? null : `${own.mark}${at + 1}`,
    words: { ...own.lettering.words, ...words },
  }));
}

/** "plaque Petersen", with a number when there is one already; signs that an id may not have become dashes. */
function uniqueId(design: string, words: string, taken: Set<string>): string {
  const plain = words.replace(/[^\p{L}\p{N} ._-]+/gu, '-').replace(/^[^\p{L}\p{N}]+/u, '');
  const name = `${design} ${plain}`.trim().slice(0, 60) || 'sign';
  let id = name;
  for (let number = 2; taken.has(id.toLowerCase()); number++) id = `${name} ${number}`;
  taken.add(id.toLowerCase());
  return id;
}

function loneDesign(job: Job): Design {
  return { id: '', base: '', prefix: '', order: '', count: job.batch, shared: [], job };
}

function listed(job: Job, own: ListedSign, at: number): Design {
  const { id, order, artwork } = own;
  const count = own.count * job.batch;
  const { shared, rules } = rulesFor(own, job);
  const marks = own.marks ?? job.marks;
  return {
    id,
    base: own.base,
    prefix: `${id}/`,
    order,
    count,
    shared,
    job: {
      ...job,
      name: id,
      artwork,
      batch: count,
      ...rules,
      landing: own.landing ?? job.landing,
      marks: { ...marks, before: `${marks.before}${own.mark ?? at + 1}-` },
      lettering: letteringOf(job, own),
      designs: [],
      pinned: [],
      done: [],
    },
  };
}

/** What a design leaves open is as in the job. Words of the job are for the places that a design has, so they may lack a place. */
function letteringOf({ lettering }: Job, { lettering: own, words, artwork }: ListedSign): Job['lettering'] {
  const known = Object.fromEntries(
    Object.entries(lettering.words).filter(([place]) => artwork.text?.includes(place) ?? true),
  );
  return {
    fonts: lettering.fonts,
    letters: own.letters ?? lettering.letters,
    weld: own.weld ?? lettering.weld,
    score: own.score ?? lettering.score,
    words: { ...known, ...words },
    rooms: { ...lettering.rooms, ...own.rooms },
    names: { file: null, text: null, rows: [] },
  };
}
