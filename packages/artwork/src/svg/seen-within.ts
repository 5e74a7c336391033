import type { ContourView } from '@underlap/geometry/curve';
import type { ComplaintList } from '../complaint-list.ts';
import { CLIP_MESSAGE, type ClipChain, type Clipper } from './clip.ts';
import type { Look } from './look.ts';

/** What the clips leave of a shape; null when that is nothing. */
export function seenWithin(
  clipper: Clipper,
  contours: readonly ContourView[],
  look: Look,
  clips: ClipChain | null,
  words: string,
  complaints: ComplaintList,
): (Look & { readonly contours: readonly ContourView[] }) | null {
  const at = contours[0]!.start;
  const left = clipper.cut({ contours, fillRule: look.fillRule }, look.fill !== null, clips);
  if (left.kind === 'whole') return { ...look, contours };
  if (left.kind === 'failed') {
    complaints.add('clip-path', 'warning', `${CLIP_MESSAGE} (clipped by ${left.by})`, words, at);
    return { ...look, contours };
  }
  if (left.contours.length === 0) {
    const message = `nothing of it is seen within its clip (${left.by}), so it is left out`;
    complaints.add('hidden', 'note', message, words, at);
    return null;
  }
  complaints.add('clipped', 'note', `it is cut to what is seen within its clip (${left.by})`, words, at);
  return { ...look, fillRule: 'nonzero', contours: left.contours };
}
