import type { Drawing } from '@underlap/artwork/drawing';
import { recogniseParts } from '@underlap/stack/recognise';
import type { Sign } from '@underlap/stack/sign';
import type { Job } from './document.ts';
import { JobError } from './error.ts';

/**
 * Parts and stack of a drawing.
 * @throws JobError `size-unknown` with both customary readings; StackError when there is no part.
 */
export function signStage(drawing: Drawing, job: Job): Sign {
  if (drawing.size.kind === 'open') throw sizeUnknown(drawing, drawing.size.choices);
  return recogniseParts(drawing, { mode: job.artwork.mode, colours: job.artwork.colourKey, proposals: {} });
}

function sizeUnknown(
  drawing: Drawing,
  choices: readonly { readonly perInch: number; readonly widthMm: number }[],
): JobError {
  const readings = choices
    .map(({ perInch, widthMm }) => `${widthMm.toFixed(1)} mm wide at ${perInch} to the inch`)
    .join(', or ');
  return new JobError(
    'size-unknown',
    `${drawing.name} does not say how large it is: it would be ${readings}. Say which with --width (mm, or "20in") or --per-inch, or in the job under artwork.width or artwork.perInch.`,
    { file: drawing.name },
  );
}
