import type { Complaint } from '@underlap/artwork/drawing';
import type { Sign } from '@underlap/stack/sign';
import { didYouMean } from './did-you-mean.ts';
import type { Job } from './document.ts';

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
]);

/**
 * What a person has to accept before anything is cut: errors, things of the drawing that are left out, and rules of the job for
 * parts that there are not.
 */
export function faultsOf(sign: Sign, job: Job): Complaint[] {
  const lost = sign.complaints.filter(({ code, severity }) => severity === 'error' || LOST.has(code));
  return [...lost, ...unknownParts(sign, job)];
}

/** Plates are made by the tool and named after their part. */
const PLATE = /^(.+)-plate-\d+$/;

function unknownParts(sign: Sign, job: Job): Complaint[] {
  const known = sign.parts.map(({ id }) => id);
  const isKnown = (id: string): boolean => known.includes(id) || known.includes(PLATE.exec(id)?.[1] ?? '');
  return namedParts(job)
    .filter(({ id }) => !isKnown(id))
    .map(({ field, id }) => ({
      code: 'unknown-part',
      severity: 'error',
      message: `${field} names the part "${id}", which the sign has not${didYouMean(id, known) || ': underlap inspect lists its parts'}`,
      place: { element: field, at: null },
    }));
}

/** Every rule of a job that speaks of a part by its id. */
function namedParts({ turns, seams, together, artwork }: Job): { field: string; id: string }[] {
  const under = (field: string, ids: readonly string[]) => ids.map((id) => ({ field, id }));
  return [
    ...under('seams.parts', Object.keys(seams.parts)),
    ...under('turns.parts', Object.keys(turns.parts)),
    ...under('turns.mirror', turns.mirror),
    ...under('turns.keepGrain', turns.keepGrain),
    ...under('together', typeof together === 'string' ? [] : together.flat()),
    ...under('artwork.fillers', typeof artwork.fillers === 'string' ? [] : artwork.fillers),
  ];
}
