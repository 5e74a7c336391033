import type { ContourView } from '@underlap/geometry/curve';
import type { ComplaintList } from '../complaint-list.ts';
import type { Colour } from '../drawing.ts';
import { CLIP_MESSAGE, type ClipChain, reachesBeyond } from './clip.ts';
import type { resolvePaint } from './paint.ts';
import type { Style } from './style.ts';

/** A shape that is read, with what its looks were made from. */
export interface ToldShape {
  readonly contours: readonly ContourView[];
  readonly paints: readonly ReturnType<typeof resolvePaint>[];
  readonly strokeColour: Colour | null;
  readonly style: Style;
  readonly clips: ClipChain | null;
  readonly words: string;
}

/** Tell where a shape is read otherwise than it looks: beyond its clip, in one colour for several, as a whole line for dashes. */
export function tellOfShape(shape: ToldShape, complaints: ComplaintList): void {
  const { contours, paints, strokeColour, style, clips, words } = shape;
  const at = contours[0]?.start ?? null;
  for (let clip = clips; clip !== null; clip = clip.outer) {
    if (!reachesBeyond(contours, clip.bounds)) continue;
    complaints.add('clip-path', 'warning', `${CLIP_MESSAGE} (clipped by ${clip.words})`, words, at);
    break;
  }
  for (const { replaced, colour } of paints) {
    if (replaced === null || colour === null) continue;
    const message = `its ${replaced} is read as the one colour ${colour}: use a plain colour to choose another`;
    complaints.add('paint-replaced', 'note', message, words, at);
  }
  if (strokeColour !== null && isDashed(style)) {
    const message = 'its dashed line is read as a whole line: draw the dashes as lines if they are meant';
    complaints.add('dashed', 'note', message, words, at);
  }
}

function isDashed(style: Style): boolean {
  const dashes = style.inherited['stroke-dasharray'];
  return dashes !== undefined && dashes !== 'none' && /[1-9]/.test(dashes);
}
