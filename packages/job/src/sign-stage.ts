import type { Drawing, SizeChoice } from '@underlap/artwork/drawing';
import { ONE_THICKNESS, type ThicknessOf } from '@underlap/stack/levels';
import { rebuildStack } from '@underlap/stack/rebuild-stack';
import { recogniseParts } from '@underlap/stack/recognise';
import { DEFAULT_MATCH_RULES } from '@underlap/stack/ring-match';
import type { Sign } from '@underlap/stack/sign';
import { supportedSign } from '@underlap/stack/supported-sign';
import type { Job } from './document.ts';
import { JobError } from './error.ts';
import { thicknessesOf } from './thickness.ts';

/**
 * Parts and stack of a drawing; in a spread drawing parts are matched to the outlines that show where they go.
 * @throws JobError `size-unknown` with both customary readings; StackError when there is no part.
 */
export function signStage(drawing: Drawing, job: Job): Sign {
  if (drawing.size.kind === 'open') throw sizeUnknown(drawing, drawing.size.choices);
  return signOf(drawing, job.artwork, thicknessesOf(job));
}

/**
 * The same whatever the size: while it is open, every length is in user units.
 * @param thicknessOf - decides what touches; as long as all parts are equally thick, how thick makes no difference.
 */
export function signOf(drawing: Drawing, artwork: Job['artwork'], thicknessOf: ThicknessOf = ONE_THICKNESS): Sign {
  const sign = recogniseParts(drawing, {
    mode: artwork.mode,
    key: { colours: artwork.colourKey, layers: artwork.layerKey },
    repair: artwork.repair,
    keepBackground: artwork.keepBackground,
  });
  const stacked = rebuildStack(sign, { ...DEFAULT_MATCH_RULES, mayMirror: artwork.mirroredMatches });
  return supportedSign(stacked, artwork.fillers, thicknessOf);
}

/**
 * Part of the drawing was lost: a sign planned without it would ruin boards, so a person has to say that it may go on.
 * @throws JobError `artwork-faulty` with the first fault and its place, unless the job accepts faults.
 */
export function assertUsable(sign: Sign, job: Job): void {
  if (job.artwork.acceptFaults) return;
  const faults = sign.complaints.filter((complaint) => complaint.severity === 'error');
  const first = faults[0];
  if (first === undefined) return;
  const { element, at } = first.place;
  const where = at === null ? element : `${element}, at ${at.x.toFixed(1)}, ${at.y.toFixed(1)} mm`;
  const more = faults.length > 1 ? ` There are ${faults.length - 1} more such faults.` : '';
  throw new JobError(
    'artwork-faulty',
    `${sign.name}, ${where}: ${first.message}.${more} Mend the drawing, or accept what is lost with --accept-faults (artwork.acceptFaults in the job).`,
    { file: sign.name, part: element, ...(at === null ? {} : { at }) },
  );
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
