import type { Complaint } from '@underlap/artwork/drawing';
import { polylineLength } from '@underlap/geometry/clip-polyline';
import { contourLength } from '@underlap/geometry/contour';
import type { Contour } from '@underlap/geometry/curve';
import { distancePointToRing } from '@underlap/geometry/distance';
import { flattenContour } from '@underlap/geometry/flatten';
import { isInRegion, type Region } from '@underlap/geometry/region';
import type { Ring } from '@underlap/geometry/ring';
import { complain, type DraftMark, type DraftPart } from './draft.ts';

/** Good enough to tell what a mark lies on, mm. */
const MARK_TOLERANCE_MM = 0.05;

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
    const lines = mark.contours.map(lineOf);
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

/** A contour as a line that comes back to its start when it is closed. */
function lineOf(contour: Contour): Ring {
  const line = flattenContour(contour, MARK_TOLERANCE_MM);
  return contour.closed ? Float64Array.of(...line, line[0]!, line[1]!) : line;
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

/** Points along a mark are this far apart at most, mm, and no more than MOST_POINTS a line. */
const POINT_STEP_MM = 2;
const MOST_POINTS = 400;
/** A mark drawn along its part's edge lies on it, mm. */
const ON_EDGE_MM = 0.05;

/** Share of a mark's length that lies on a region or on its edge. */
function shareOn(region: Region, lines: readonly Ring[]): number {
  let seen = 0;
  let on = 0;
  const rings = [region.outer, ...region.holes];
  for (const line of lines) {
    const step = Math.max(POINT_STEP_MM, polylineLength(line) / MOST_POINTS);
    for (let i = 0; i + 3 < line.length; i += 2) {
      const dx = line[i + 2]! - line[i]!;
      const dy = line[i + 3]! - line[i + 1]!;
      const length = Math.hypot(dx, dy);
      const count = Math.max(1, Math.ceil(length / step));
      for (let k = 0; k < count; k++) {
        const u = (k + 0.5) / count;
        const x = line[i]! + u * dx;
        const y = line[i + 1]! + u * dy;
        seen += length / count;
        if (isInRegion(region, x, y) || rings.some((ring) => distancePointToRing(x, y, ring) <= ON_EDGE_MM)) {
          on += length / count;
        }
      }
    }
  }
  return seen === 0 ? 0 : on / seen;
}
