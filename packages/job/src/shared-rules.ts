import type { Job, JobDesign } from './document.ts';

/** Parts of a job that name parts of signs. */
export type RuleField = 'turns' | 'together' | 'seams' | 'stockOf';

type Rules = Pick<Job, RuleField>;

const FIELDS: readonly RuleField[] = ['turns', 'together', 'seams', 'stockOf'];

/**
 * The rules that hold for one design of a list: its own, else those of the job. There a part may be named for one design alone,
 * "lighthouse/backer", or for every design that has such a part, "backer".
 */
export function rulesFor(
  own: JobDesign & { readonly base: string },
  job: Job,
): { readonly shared: readonly RuleField[]; readonly rules: Rules } {
  const shared = FIELDS.filter((field) => own[field] === null);
  const others = job.designs.flatMap(({ id }) => (own.base === id ? [] : [`${id}/`]));
  const prefixes = own.base === own.id ? [`${own.id}/`] : [`${own.id}/`, `${own.base}/`];
  const nameIn = (name: string): string | null => {
    const prefix = prefixes.find((one) => name.startsWith(one));
    if (prefix !== undefined) return name.slice(prefix.length);
    return others.some((other) => name.startsWith(other)) ? null : name;
  };
  const list = (names: readonly string[]) => names.flatMap((name) => nameIn(name) ?? []);
  // What names this design stands over what is said of all.
  const record = <T>(entries: Readonly<Record<string, T>>): Record<string, T> => {
    const named = Object.entries(entries).flatMap(([name, value]) => {
      const id = nameIn(name);
      return id === null ? [] : [{ id, value, isOwn: id !== name }];
    });
    const inOrder = [...named.filter(({ isOwn }) => !isOwn), ...named.filter(({ isOwn }) => isOwn)];
    return Object.fromEntries(inOrder.map(({ id, value }) => [id, value]));
  };
  const { turns, together, seams, stockOf } = job;
  return {
    shared,
    rules: {
      turns: own.turns ?? {
        ...turns,
        parts: record(turns.parts),
        mirror: list(turns.mirror),
        keepGrain: list(turns.keepGrain),
      },
      together: own.together ?? (typeof together === 'string' ? together : together.map(list)),
      seams: own.seams ?? { ...seams, parts: record(seams.parts) },
      stockOf: own.stockOf ?? { ...stockOf, parts: record(stockOf.parts) },
    },
  };
}
