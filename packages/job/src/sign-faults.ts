import type { Complaint } from '@underlap/artwork/drawing';
import type { Sign } from '@underlap/stack/sign';
import { didYouMean } from './did-you-mean.ts';
import type { Job } from './document.ts';
import type { RuleField } from './shared-rules.ts';

/** Complaints about things that are seen in the drawing and would be missing in what is cut. */
const LOST = new Set([
  'text',
  'bitmap',
  'foreign-content',
  'missing-reference',
  'open-cut',
  'mark-off-part',
  'hatch',
  'filled-area',
  'three-d',
  'multiline',
  'region',
  'unknown-element',
  'broken-shape',
  'flattened',
]);

/**
 * What a person has to accept before anything is cut: errors, things of the drawing that are left out, and rules of the job for
 * parts that there are not.
 * @param shared - rules that other designs share: `partsOfNoDesign` looks at them.
 */
export function faultsOf(sign: Sign, job: Job, shared: readonly RuleField[] = []): Complaint[] {
  const lost = sign.complaints.filter(({ code, severity }) => severity === 'error' || LOST.has(code));
  return [...lost, ...unknownParts(sign, job, shared)];
}

/** Plates are made by the tool and named after their part. */
const PLATE = /^(.+)-plate-\d+$/;

function isPartOf({ parts }: Pick<Sign, 'parts'>, id: string): boolean {
  return parts.some((part) => part.id === id || part.id === PLATE.exec(id)?.[1]);
}

function unknownParts(sign: Sign, job: Job, shared: readonly RuleField[]): Complaint[] {
  const known = sign.parts.map(({ id }) => id);
  return namedParts(job)
    .filter(({ field, id }) => !shared.some((rule) => field.split('.')[0] === rule) && !isPartOf(sign, id))
    .map(({ field, id }) => ({
      code: 'unknown-part',
      severity: 'error',
      message: `${field} names the part "${id}", which the sign has not${didYouMean(id, known) || ': underlap inspect lists its parts'}`,
      place: { element: field, at: null },
    }));
}

/**
 * Parts that the rules of a whole job name and none of its designs has.
 * @param designs - with the parts of their signs.
 */
export function partsOfNoDesign(
  job: Job,
  designs: readonly { readonly prefix: string; readonly sign: Pick<Sign, 'parts'> }[],
): { readonly field: string; readonly id: string; readonly hint: string }[] {
  const known = ['', null].flatMap((bare) =>
    designs.flatMap(({ prefix, sign }) => sign.parts.map(({ id }) => `${bare ?? prefix}${id}`)),
  );
  const isKnown = (id: string): boolean =>
    designs.some(
      ({ prefix, sign }) => isPartOf(sign, id) || (id.startsWith(prefix) && isPartOf(sign, id.slice(prefix.length))),
    );
  return namedParts(job)
    .filter(({ id }) => !isKnown(id))
    .map(({ field, id }) => ({ field, id, hint: didYouMean(id, known) }));
}

/** Every rule of a job that speaks of a part by its id. */
function namedParts({ turns, seams, together, stockOf, artwork }: Job): { field: string; id: string }[] {
  const under = (field: string, ids: readonly string[]) => ids.map((id) => ({ field, id }));
  return [
    ...under('seams.parts', Object.keys(seams.parts)),
    ...under('turns.parts', Object.keys(turns.parts)),
    ...under('turns.mirror', turns.mirror),
    ...under('turns.keepGrain', turns.keepGrain),
    ...under('together', typeof together === 'string' ? [] : together.flat()),
    ...under('stockOf.parts', Object.keys(stockOf.parts)),
    ...under('artwork.fillers', typeof artwork.fillers === 'string' ? [] : artwork.fillers),
  ];
}
