import type { Complaint, Drawing, SizeChoice } from '@underlap/artwork/drawing';
import { GeometryError } from '@underlap/geometry/error';
import { StackError } from '@underlap/stack/error';
import { ONE_THICKNESS, type ThicknessOf } from '@underlap/stack/levels';
import { rebuildStack } from '@underlap/stack/rebuild-stack';
import { recogniseParts } from '@underlap/stack/recognise';
import { DEFAULT_MATCH_RULES } from '@underlap/stack/ring-match';
import type { Sign } from '@underlap/stack/sign';
import { supportedSign } from '@underlap/stack/supported-sign';
import type { Job } from './document.ts';
import { JobError } from './error.ts';
import type { RuleField } from './shared-rules.ts';
import { faultsOf } from './sign-faults.ts';
import { withSlots } from './sign-slots.ts';
import { thicknessesOf } from './thickness.ts';

/**
 * Parts and stack of a drawing; in a spread drawing parts are matched to the outlines that show where they go.
 * @throws JobError `size-unknown` with both customary readings; StackError when there is no part.
 */
export function signStage(drawing: Drawing, job: Job): Sign {
  if (drawing.size.kind === 'open') throw sizeUnknown(drawing, drawing.size.choices);
  const sign = signOf(drawing, job.artwork, (found) => thicknessesOf(found, job));
  return withSlots(sign, job);
}

type Thicknesses = (sign: Sign) => ThicknessOf;

/**
 * The same whatever the size: while it is open, every length is in user units.
 * @param thicknesses - of the parts found; they decide what touches; as long as all parts are equally thick, how thick makes no difference.
 */
export function signOf(
  drawing: Drawing,
  artwork: Job['artwork'],
  thicknesses: Thicknesses = () => ONE_THICKNESS,
): Sign {
  return toldWithFile(drawing, () => signFound(drawing, artwork, thicknesses));
}

/**
 * Run a step that computes with a drawing's outlines.
 * @throws StackError `geometry` with file and advice for what the geometry could not compute: it knows numbers, not files.
 */
function toldWithFile<T>(drawing: Drawing, step: () => T): T {
  try {
    return step();
  } catch (error) {
    if (!(error instanceof GeometryError)) throw error;
    const where = error.place === null ? '' : ` (${error.place})`;
    throw new StackError(
      'geometry',
      `${drawing.name} has outlines that cannot be computed with: ${error.message}${where}. Simplify the most intricate outline in the drawing program, or move it nearer to the page, and try again.`,
      { element: drawing.name, at: null },
    );
  }
}

function signFound(drawing: Drawing, artwork: Job['artwork'], thicknesses: Thicknesses): Sign {
  const sign = recogniseParts(drawing, {
    mode: artwork.mode,
    key: { colours: artwork.colourKey, layers: artwork.layerKey },
    repair: artwork.repair,
    keepBackground: artwork.keepBackground,
  });
  const stacked = rebuildStack(sign, { ...DEFAULT_MATCH_RULES, mayMirror: artwork.mirroredMatches });
  return supportedSign(stacked, artwork.fillers, thicknesses(stacked));
}

/**
 * Part of the drawing was lost: a sign planned without it would ruin boards, so a person has to say that it may go on.
 * @throws JobError `artwork-faulty` with the first fault and its place, unless the job accepts faults.
 */
export function assertUsable(sign: Sign, job: Job, shared: readonly RuleField[] = []): void {
  if (job.artwork.acceptFaults) return;
  const faults = faultsOf(sign, job, shared);
  const first = faults[0];
  if (first === undefined) return;
  const { element, at } = first.place;
  const where = at === null ? element : `${element}, at ${at.x.toFixed(1)}, ${at.y.toFixed(1)} mm`;
  const more =
    faults.length > 1
      ? ` There ${faults.length === 2 ? 'is one more such fault' : `are ${faults.length - 1} more such faults`}: ${otherKinds(faults)}.`
      : '';
  throw new JobError(
    'artwork-faulty',
    `${sign.name}, ${where}: ${first.message}.${more} Mend it, or accept what is lost with --accept-faults (artwork.acceptFaults in the job).`,
    { file: sign.name, part: element, ...(at === null ? {} : { at }) },
  );
}

/** The first of the other faults of every kind, in short. */
function otherKinds([first, ...more]: readonly Complaint[]): string {
  const kinds = new Map<string, Complaint[]>();
  for (const fault of more) kinds.set(fault.code, [...(kinds.get(fault.code) ?? []), fault]);
  return [...kinds]
    .map(([code, faults]) => {
      const [{ place, message }] = faults as [Complaint];
      const others = faults.length > 1 ? ` (and ${faults.length - 1} like it)` : '';
      return `${place.element}${code === first?.code ? '' : `, ${message}`}${others}`;
    })
    .join('; ');
}

function sizeUnknown(drawing: Drawing, choices: readonly SizeChoice[]): JobError {
  const readings = choices
    .map(({ perInch, widthMm }) => `${widthMm.toFixed(1)} mm wide at ${perInch} to the inch`)
    .join(', or ');
  return new JobError(
    'size-unknown',
    `${drawing.name} does not say how large it is: it would be ${readings}. Say which with --width (mm, or "20in") or --per-inch, or in the job under artwork.width or artwork.perInch.`,
    { file: drawing.name },
  );
}
