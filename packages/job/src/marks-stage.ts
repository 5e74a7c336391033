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
import { type Numbering, seamKey } from './numbering.ts';
import type { PartSplit, Piece, PieceMark } from './stages.ts';
import { clearOf, textIn } from './text-place.ts';

/** Marks stay this far from a cut edge, mm, so that kerf and a shaky hand do not show them. */
const EDGE_CLEARANCE_MM = 0.5;

/** Chords are good enough this far from a curve where only a letter's place is looked for, mm. */
const COARSE_MM = 0.1;

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
  numbering: Numbering,
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
  const before = [...drawn, ...guides];
  const labels = job.marks.seamLabels
    ? seamLabels(piece, split, numbering, clearOf(hidden, linesOf(before)), job.marks.textHeight)
    : [];
  const numbers = numberMark(piece, numbering, { hidden, face }, linesOf([...before, ...labels]), job);
  return [...before, ...labels, ...numbers];
}

/** A rear plate shows its number to nobody: it is glued on behind. */
export function plateMarks(plate: Piece, numbering: Numbering, job: Job): PieceMark[] {
  const face = offsetRegions([plate.region], -EDGE_CLEARANCE_MM);
  return numberMark(plate, numbering, { hidden: face, face }, [], job);
}

const linesOf = (marks: readonly PieceMark[]): Contour[] => marks.flatMap((mark) => mark.contours);

/** The number in the roomiest hidden place clear of other marks; on the visible face only when the job says so. */
function numberMark(
  piece: Piece,
  numbering: Numbering,
  where: { readonly hidden: readonly Region[]; readonly face: readonly Region[] },
  lines: readonly Contour[],
  job: Job,
): PieceMark[] {
  const number = numbering.pieces.get(piece.id);
  const { numbers, textHeight } = job.marks;
  if (numbers === 'off' || number === undefined) return [];
  const text =
    textIn(clearOf(where.hidden, lines), number, textHeight) ??
    (numbers === 'all' ? textIn(clearOf(where.face, lines), number, textHeight) : null);
  return text === null ? [] : [{ kind: 'number', process: 'score', contours: text.contours, label: number }];
}

/** The same letters on both sides of a seam, near its middle, where they are hidden; clear of one another. */
function seamLabels(
  piece: Piece,
  split: PartSplit,
  numbering: Numbering,
  hidden: readonly Region[],
  height: number,
): PieceMark[] {
  const out: PieceMark[] = [];
  for (const seam of split.plan?.seams ?? []) {
    const label = numbering.seams.get(seamKey(split.partId, seam.id));
    if (label === undefined || !seam.between.includes(piece.id)) continue;
    const text = textIn(clearOf(bandAlong(seam, hidden, height), linesOf(out)), label, height);
    if (text !== null) out.push({ kind: 'seam-label', process: 'score', contours: text.contours, label });
  }
  return out;
}

/** Hidden area within reach of the seam, so that a letter there can only mean this seam. */
function bandAlong(seam: Seam, hidden: readonly Region[], height: number): Region[] {
  const spine = flattenContour(seam.spine, COARSE_MM);
  if (spine.length < 4 || hidden.length === 0) return [];
  const reach = 6 * height;
  return intersectRegions(hidden, bufferPolyline(spine, reach, COARSE_MM));
}

/** The stretches of a mark on a piece; a mark that lies whole on it keeps its curves. */
function clipped(contour: Contour, regions: readonly Region[]): Contour[] {
  const line = flattenContour(contour, FLATTEN_TOLERANCE_MM);
  const closedEnd = contour.closed ? Float64Array.from([...line, line[0]!, line[1]!]) : line;
  const outside = clipPolyline(closedEnd, false, regions, 'outside');
  if (outside.length === 0) return [contour];
  return clipPolyline(closedEnd, false, regions, 'inside').map((stretch) => fitArcsOpen(stretch, GUIDE_FIT_MM));
}
