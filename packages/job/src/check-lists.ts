import { designsOf } from './designs.ts';
import { didYouMean } from './did-you-mean.ts';
import type { Job } from './document.ts';
import { JobError } from './error.ts';

/**
 * What the fields of a job cannot say for themselves: names that must differ, names that must exist, and boards to cut from.
 * @throws JobError `job-invalid` naming the file, the field and both places.
 */
export function checkLists(job: Job, name: string): void {
  const fault = listFault(job);
  if (fault !== null)
    throw new JobError('job-invalid', `${name}: ${fault.message}`, { file: name, field: fault.field });
}

interface Fault {
  readonly field: string;
  readonly message: string;
}

function listFault(job: Job): Fault | null {
  return (
    twice(job.designs, 'designs', 'designs are called') ??
    twice(job.stocks, 'stocks', 'stocks are called') ??
    sameOrderTwice(job) ??
    artworkTwice(job) ??
    withoutBoards(job) ??
    unknownStock(job) ??
    unknownDesign(job)
  );
}

function twice(list: readonly { readonly id: string }[], field: string, words: string): Fault | null {
  for (const [at, { id }] of list.entries()) {
    const first = list.findIndex((other) => other.id.toLowerCase() === id.toLowerCase());
    if (first < at) {
      return {
        field: `${field}[${at}].id`,
        message: `two ${words} "${id}" (${field}[${first}] and ${field}[${at}]): give each a name of its own.`,
      };
    }
  }
  return null;
}

/** The very same design listed twice for one order is a slip; a count says that more wanted. */
function sameOrderTwice(job: Job): Fault | null {
  const keyOf = ({ id: _, count: __, mark: ___, ...rest }: Job['designs'][number]) => JSON.stringify(rest);
  const firstOf = new Map<string, number>();
  for (const [at, design] of job.designs.entries()) {
    const key = keyOf(design);
    const first = firstOf.get(key) ?? at;
    firstOf.set(key, first);
    if (first === at) continue;
    const order = design.order === '' ? 'without an order' : `for the order "${design.order}"`;
    return {
      field: `designs[${at}]`,
      message: `"${job.designs[first]!.id}" and "${design.id}" are the same design ${order}: list it once, with the sum of both counts.`,
    };
  }
  return null;
}

function artworkTwice(job: Job): Fault | null {
  if (job.designs.length === 0 || (job.artwork.file === null && job.artwork.text === null)) return null;
  return {
    field: 'artwork',
    message: 'there is a list of designs and an artwork beside it: put the artwork into the list.',
  };
}

function withoutBoards(job: Job): Fault | null {
  const message = 'needs at least one board, such as "508x305"';
  if (job.stocks.length === 0) return job.boards.length > 0 ? null : { field: 'boards', message: `boards ${message}.` };
  const at = job.stocks.findIndex((stock) => (stock.boards ?? job.boards).length === 0);
  return at < 0
    ? null
    : { field: `stocks[${at}].boards`, message: `the stock "${job.stocks[at]!.id}" ${message}, or boards in the job.` };
}

function unknownStock(job: Job): Fault | null {
  const known = job.stocks.map(({ id }) => id);
  const lists = [
    { field: 'stockOf', value: job.stockOf },
    ...job.designs.map((design, at) => ({ field: `designs[${at}].stockOf`, value: design.stockOf })),
  ];
  for (const { field, value } of lists) {
    if (value === null) continue;
    const named: [string, string | null][] = [
      ['rest', value.rest],
      ...(['layers', 'paints', 'parts'] as const).flatMap((kind) =>
        Object.entries(value[kind]).map(([of, id]): [string, string] => [`${kind}.${of}`, id]),
      ),
    ];
    for (const [where, id] of named) {
      if (id === null || known.includes(id)) continue;
      const list =
        known.length === 0
          ? 'the job has no list of stocks'
          : `the job's stocks are ${known.map((one) => `"${one}"`).join(', ')}`;
      return {
        field: `${field}.${where}`,
        message: `${field}.${where} names a stock "${id}", but ${list}${meant(id, known)}`,
      };
    }
  }
  return null;
}

function unknownDesign(job: Job): Fault | null {
  // A table of names that is still to be read may bring any sign.
  if ([job, ...job.designs].some(({ lettering: { names } }) => names.file !== null && names.text === null)) return null;
  const ids = designsOf(job).map(({ id }) => id);
  if (ids[0] === '') return null;
  const named = [
    ...job.pinned.map(({ piece }, at) => ({ field: `pinned[${at}].piece`, piece })),
    ...job.done.flatMap(({ pieces }, at) =>
      pieces.map(({ piece }, n) => ({ field: `done[${at}].pieces[${n}].piece`, piece })),
    ),
  ];
  for (const { field, piece } of named) {
    const id = piece.slice(0, Math.max(0, piece.indexOf('/')));
    if (ids.includes(id)) continue;
    return { field, message: `${field} is "${piece}", but there is no design "${id}" in the job${meant(id, ids)}` };
  }
  return null;
}

function meant(word: string, known: readonly string[]): string {
  const hint = didYouMean(word, known);
  return hint === '' ? '.' : hint;
}
