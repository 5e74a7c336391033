import { readArtwork } from '@underlap/artwork/read-artwork';
import { type Inspection, inspectDrawing } from '@underlap/job/inspect';
import { jobFrom } from '@underlap/job/parse-job';

const JOB = { bed: '508x305', boards: ['508x305'], artwork: { file: 'drawing' } };

/** What `inspect --json` says of a drawing with nothing told by a user. */
export function inspected(input: string | Uint8Array, name = 'drawing'): Inspection {
  return inspectDrawing(readArtwork(input, { name }), jobFrom(JOB, name).artwork);
}

/** Everything a case expects, in a form that reads well when it fails; areas to 0.01 mm2, lengths to 0.001 mm. */
export function summary(seen: Inspection): {
  readonly size: string;
  readonly mode: string;
  readonly parts: readonly string[];
  readonly marks: readonly string[];
  readonly told: readonly string[];
} {
  const { widthMm, heightMm, sizeChoices = [] } = seen;
  const mm = (value: number | null): string => (value === null ? 'open' : String(Number(value.toFixed(3))));
  return {
    size:
      widthMm === null
        ? sizeChoices.map((choice) => `${mm(choice.widthMm)} at ${mm(choice.perInch)}`).join(' or ')
        : `${mm(widthMm)} x ${mm(heightMm)}`,
    mode: seen.mode,
    parts: seen.parts.map(
      ({ name, areaMm2, holes }) =>
        `${name} ${areaMm2 === null ? 'open' : Number(areaMm2.toFixed(2))}${holes > 0 ? ` holes ${holes}` : ''}`,
    ),
    marks: seen.marks.map(({ part, process, lengthMm }) => `${process} on ${part} ${mm(lengthMm)}`),
    told: [
      ...new Set([
        ...seen.repairs.map(({ kind }) => kind),
        ...seen.complaints.filter(({ code }) => code !== 'mode').map(({ code }) => code),
      ]),
    ].sort(),
  };
}
