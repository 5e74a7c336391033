import { strokeText, strokeTextWidth } from '@underlap/artwork/stroke-font';
import { fitArcsOpen } from '@underlap/geometry/arc-fit';
import { intersectRegions } from '@underlap/geometry/boolean';
import { clipPolyline } from '@underlap/geometry/clip-polyline';
import type { Contour } from '@underlap/geometry/curve';
import { FLATTEN_TOLERANCE_MM, flattenContour } from '@underlap/geometry/flatten';
import { bufferPolyline, offsetRegions } from '@underlap/geometry/offset';
import type { Region } from '@underlap/geometry/region';
import type { Seam } from '@underlap/seam/task';
import { coverOf } from '@underlap/stack/cover';
import { GUIDE_FIT_MM, type Guide, guidesOf } from '@underlap/stack/guides';
import type { Sign } from '@underlap/stack/sign';
import type { Job } from './document.ts';
import { roomiestPoint } from './roomy-point.ts';
import type { PartSplit, Piece, PieceMark } from './stages.ts';

/** Marks stay this far from a cut edge, mm, so that kerf and a shaky hand do not show them. */
const EDGE_CLEARANCE_MM = 0.5;

/** Chords are good enough this far from a curve where only a letter's place is looked for, mm. */
const COARSE_MM = 0.1;

/** Smaller letters burn into a blot, mm (common practice, no source). */
const SMALLEST_TEXT_MM = 2;

/** What every piece of a sign is marked with; made once for the whole sign. */
export interface SignMarks {
  readonly guides: readonly Guide[];
  readonly covers: ReadonlyMap<string, readonly Region[]>;
}

/** The sign-wide part of marking: guides and what hides what. */
export function signMarks(sign: Sign, job: Job): SignMarks {
  return {
    guides: job.marks.guides
      ? guidesOf(sign, job.marks.guideInset).filter((guide) => !isDrawnAlready(sign, guide))
      : [],
    covers: new Map(sign.parts.map((part) => [part.id, coverOf(sign, part.id)])),
  };
}

/** In a spread drawing the maker drew a seat for the part: a second line beside it would only confuse. */
function isDrawnAlready(sign: Sign, guide: Guide): boolean {
  return sign.matches.some((match) => match.partId === guide.forPartId && match.onPartId === guide.onPartId);
}

/**
 * Everything burnt on one piece, in its frame: marks drawn on its part, guides for what is glued on it, its number, and the
 * letters of its seams.
 * @returns marks that lie on the piece alone; a drawn mark that crosses a seam is cut there (and only then loses its curves).
 */
export function marksOf(
  piece: Piece,
  number: string,
  split: PartSplit,
  sign: Sign,
  marks: SignMarks,
  job: Job,
): PieceMark[] {
  const part = sign.parts.find((candidate) => candidate.id === piece.partId);
  if (part === undefined) return [];
  const face = offsetRegions([piece.region], -EDGE_CLEARANCE_MM);
  const isWhole = split.pieces.length === 1;
  const drawn = part.marks.flatMap((mark): PieceMark[] => {
    const contours = mark.contours.flatMap((contour) => clipped(contour, [piece.region]));
    return contours.length === 0 ? [] : [{ kind: 'drawn', process: mark.process, contours, label: null }];
  });
  const guides = marks.guides
    .filter((guide) => guide.onPartId === part.id)
    .flatMap((guide): PieceMark[] => {
      const lines = isWhole ? guide.lines : guide.lines.flatMap((line) => clipPolyline(line, false, face, 'inside'));
      const contours = lines.map((line) => fitArcsOpen(line, GUIDE_FIT_MM));
      return contours.length === 0 ? [] : [{ kind: 'guide', process: 'score', contours, label: guide.forPartId }];
    });
  const hidden = intersectRegions(face, marks.covers.get(part.id) ?? []);
  const labels = job.marks.seamLabels ? seamLabels(piece, split.plan?.seams ?? [], hidden, job.marks.textHeight) : [];
  const numbers = numberMark(number, hidden, face, job);
  return [...drawn, ...guides, ...labels, ...numbers];
}

/** The number in the roomiest hidden place; on the visible face only when the job says so. */
function numberMark(number: string, hidden: readonly Region[], face: readonly Region[], job: Job): PieceMark[] {
  if (job.marks.numbers === 'off') return [];
  const text =
    textIn(hidden, number, job.marks.textHeight) ??
    (job.marks.numbers === 'all' ? textIn(face, number, job.marks.textHeight) : null);
  return text === null ? [] : [{ kind: 'number', process: 'score', contours: text, label: number }];
}

/** The same letter on both sides of a seam, near its middle, where it is hidden. */
function seamLabels(piece: Piece, seams: readonly Seam[], hidden: readonly Region[], height: number): PieceMark[] {
  return seams.flatMap((seam, index): PieceMark[] => {
    if (!seam.between.includes(piece.id)) return [];
    const letter = seamLetter(index);
    const band = bandAlong(seam, hidden, height);
    const contours = textIn(band, letter, height);
    return contours === null ? [] : [{ kind: 'seam-label', process: 'score', contours, label: letter }];
  });
}

/** A, B, ... Z, then A1, B1, ... */
export function seamLetter(index: number): string {
  const letter = String.fromCharCode(65 + (index % 26));
  return index < 26 ? letter : `${letter}${Math.floor(index / 26)}`;
}

/** Hidden area within reach of the seam, so that a letter there can only mean this seam. */
function bandAlong(seam: Seam, hidden: readonly Region[], height: number): Region[] {
  const spine = flattenContour(seam.spine, COARSE_MM);
  if (spine.length < 4 || hidden.length === 0) return [];
  const reach = 6 * height;
  return intersectRegions(hidden, bufferPolyline(spine, reach, COARSE_MM));
}

/** Letters of the wanted height, or smaller, where they fit; null when not even small ones do. */
function textIn(regions: readonly Region[], text: string, height: number): Contour[] | null {
  const spot = roomiestPoint(regions);
  if (spot === null) return null;
  // A text of height h and width w needs half its diagonal as clearance.
  const half = Math.hypot(strokeTextWidth(text, 1), 1) / 2;
  const fits = Math.min(height, spot.clearance / half);
  return fits < SMALLEST_TEXT_MM ? null : strokeText(text, spot, fits);
}

/** The stretches of a mark on a piece; a mark that lies whole on it keeps its curves. */
function clipped(contour: Contour, regions: readonly Region[]): Contour[] {
  const line = flattenContour(contour, FLATTEN_TOLERANCE_MM);
  const closedEnd = contour.closed ? Float64Array.from([...line, line[0]!, line[1]!]) : line;
  const outside = clipPolyline(closedEnd, false, regions, 'outside');
  if (outside.length === 0) return [contour];
  return clipPolyline(closedEnd, false, regions, 'inside').map((stretch) => fitArcsOpen(stretch, GUIDE_FIT_MM));
}
