import type { Complaint } from '@underlap/artwork/drawing';
import { contourLength } from '@underlap/geometry/contour';
import { FLATTEN_TOLERANCE_MM, flattenContour } from '@underlap/geometry/flatten';
import { isInRegion, type Region } from '@underlap/geometry/region';
import type { Ring } from '@underlap/geometry/ring';
import { complain, type DraftMark, type DraftPart } from './draft.ts';

/** A mark given to the part (by index) whose surface it lies on. */
export interface GivenMark {
  readonly mark: DraftMark;
  readonly part: number;
  readonly lengthMm: number;
}

/**
 * Give every mark to the topmost part below it that holds most of its points.
 * @returns the given marks, and complaints about marks that lie on no part or only partly on it.
 * @remarks O(marks x parts x points).
 */
export function giveMarks(
  marks: readonly DraftMark[],
  parts: readonly DraftPart[],
): { given: GivenMark[]; complaints: Complaint[] } {
  const given: GivenMark[] = [];
  const complaints: Complaint[] = [];
  for (const mark of marks) {
    const lines = mark.contours.map((contour) => flattenContour(contour, FLATTEN_TOLERANCE_MM));
    const below = parts.slice(0, Math.min(parts.length, mark.after));
    const shares = below.map((part) => shareOn(part.region, lines));
    const best = topmost(shares);
    if (best < 0) {
      const message = `${mark.source.place.element} is a mark that lies on no part and is left out`;
      complaints.push(complain('mark-off-part', 'warning', message, mark.source.place));
      continue;
    }
    if (shares[best]! < 0.999) {
      const percent = Math.round((1 - shares[best]!) * 100);
      const name = parts[best]!.source.name ?? parts[best]!.source.id;
      const message = `${mark.source.place.element} reaches beyond the part '${name}' it lies on (about ${percent} % of it)`;
      complaints.push(complain('mark-over-edge', 'note', message, mark.source.place));
    }
    given.push({ mark, part: best, lengthMm: mark.contours.reduce((sum, contour) => sum + contourLength(contour), 0) });
  }
  return { given, complaints };
}

/** Highest part that holds at least half of the mark, else the one that holds most; -1 when none holds any. */
function topmost(shares: readonly number[]): number {
  let best = -1;
  for (let i = shares.length - 1; i >= 0; i--) {
    const share = shares[i]!;
    if (share >= 0.5) return i;
    if (share > 0 && (best < 0 || share > shares[best]!)) best = i;
  }
  return best;
}

function shareOn(region: Region, lines: readonly Ring[]): number {
  let seen = 0;
  let on = 0;
  for (const line of lines) {
    for (let i = 0; i < line.length; i += 2) {
      seen++;
      if (isInRegion(region, line[i]!, line[i + 1]!)) on++;
    }
  }
  return seen === 0 ? 0 : on / seen;
}
