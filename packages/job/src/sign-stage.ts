import { colourUses, proposedProcesses } from '@underlap/artwork/colour-key';
import type { Colour, Drawing, Process, SizeChoice } from '@underlap/artwork/drawing';
import { rebuildStack } from '@underlap/stack/rebuild-stack';
import { recogniseParts } from '@underlap/stack/recognise';
import { DEFAULT_MATCH_RULES } from '@underlap/stack/ring-match';
import type { Sign } from '@underlap/stack/sign';
import type { Job } from './document.ts';
import { JobError } from './error.ts';

/**
 * Parts and stack of a drawing; in a spread drawing parts are matched to the outlines that show where they go.
 * @throws JobError `size-unknown` with both customary readings; StackError when there is no part.
 */
export function signStage(drawing: Drawing, job: Job): Sign {
  if (drawing.size.kind === 'open') throw sizeUnknown(drawing, drawing.size.choices);
  return signOf(drawing, job.artwork);
}

/** The same whatever the size: while it is open, every length is in user units. */
export function signOf(drawing: Drawing, artwork: Job['artwork']): Sign {
  const { colourKey } = artwork;
  const isLeftOut = (colour: Colour | null) => colour !== null && colourKey[colour] === 'ignore';
  const shapes = drawing.shapes.filter((shape) => !isLeftOut(shape.fill ?? shape.stroke));
  const kept = shapes.length === drawing.shapes.length ? drawing : { ...drawing, shapes };
  const told = Object.fromEntries(
    Object.entries(colourKey).filter(
      (entry): entry is [Colour, Process] => entry[1] !== 'ignore' && entry[1] !== 'paint',
    ),
  );
  const sign = recogniseParts(kept, {
    mode: artwork.mode,
    colours: told,
    proposals: proposedProcesses(colourUses(kept)),
  });
  return rebuildStack(sign, { ...DEFAULT_MATCH_RULES, mayMirror: artwork.mirroredMatches });
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
