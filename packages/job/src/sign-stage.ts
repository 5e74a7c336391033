import type { Drawing } from '@underlap/artwork/drawing';
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
  const sign = recogniseParts(drawing, { mode: job.artwork.mode, colours: job.artwork.colourKey, proposals: {} });
  return rebuildStack(sign, { ...DEFAULT_MATCH_RULES, mayMirror: job.artwork.mirroredMatches });
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
