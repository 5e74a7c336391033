import { contourBounds, polylineContour } from '@underlap/geometry/contour';
import type { ContourView } from '@underlap/geometry/curve';
import { cutArea, cutLines, type FilledContours } from '@underlap/geometry/cut-contours';
import { GeometryError } from '@underlap/geometry/error';
import { apply, type Matrix } from '@underlap/geometry/matrix';
import type { Bounds } from '@underlap/geometry/ring';

/** Overhang that no eye sees, as a share of the clip's size. */
const OVERHANG_SHARE = 1e-6;

/** Segments that may be looked at for all the cutting of a drawing; a drawing of many shapes in an intricate clip is told beyond it. */
const MOST_CUT_SEGMENTS = 400_000;

/** Areas that cut off what reaches beyond them, innermost first. */
export interface ClipChain {
  /** Their union is what may be seen; drawing units. */
  readonly members: readonly FilledContours[];
  /** The box of the one member when it is an upright rectangle, so that what lies within needs no cutting. */
  readonly box: Bounds | null;
  /** Element that clips, in words. */
  readonly words: string;
  readonly outer: ClipChain | null;
}

export const CLIP_MESSAGE =
  'its clipping is not followed, so more is read than is seen: cut the shapes to the clip in the drawing program';

/** The chain with an area in front. */
export function clipChain(members: readonly FilledContours[], words: string, outer: ClipChain | null): ClipChain {
  const contours = members.flatMap((member) => member.contours);
  const [only] = contours;
  const box = only !== undefined && contours.length === 1 && isUprightRectangle(only) ? contourBounds(only) : null;
  return { members, box, words, outer };
}

/** The chain with a viewport in front. */
export function viewportClip(
  viewport: { readonly x: number; readonly y: number; readonly width: number; readonly height: number },
  matrix: Matrix,
  words: string,
  outer: ClipChain | null,
): ClipChain {
  const { x, y, width, height } = viewport;
  const corners = [
    { x, y },
    { x: x + width, y },
    { x: x + width, y: y + height },
    { x, y: y + height },
  ].map((corner) => apply(matrix, corner));
  const outline = polylineContour(Float64Array.from(corners.flatMap((corner) => [corner.x, corner.y])), true);
  return clipChain([{ contours: [outline], fillRule: 'nonzero' }], words, outer);
}

/** What clips have left of a shape: all of it, a part, or too much to be cut. */
export type Clipped =
  | { readonly kind: 'whole' }
  | { readonly kind: 'part'; readonly contours: readonly ContourView[]; readonly by: string }
  | { readonly kind: 'failed'; readonly by: string };

/** Cuts shapes to their clips within the budget of one drawing. */
export class Clipper {
  private left = MOST_CUT_SEGMENTS;

  /** @param isArea - a filled shape keeps an outline; a line is cut to pieces. */
  cut({ contours, fillRule }: FilledContours, isArea: boolean, clips: ClipChain | null): Clipped {
    const links: ClipChain[] = [];
    for (let clip = clips; clip !== null; clip = clip.outer) {
      if (clip.box === null || reachesBeyond(contours, clip.box)) links.push(clip);
    }
    const [nearest] = links;
    if (nearest === undefined) return { kind: 'whole' };
    const by = nearest.words;
    const areas = links.map((link) => link.members);
    this.left -= segmentsIn([{ contours, fillRule }, ...areas.flat()]);
    if (this.left < 0) return { kind: 'failed', by };
    try {
      const cut = isArea ? cutArea({ contours, fillRule }, areas) : cutLines(contours, areas);
      return cut.kind === 'untouched' ? { kind: 'whole' } : { kind: 'part', contours: cut.contours, by };
    } catch (error) {
      if (error instanceof GeometryError) return { kind: 'failed', by };
      throw error;
    }
  }
}

function segmentsIn(areas: readonly FilledContours[]): number {
  let sum = 0;
  for (const { contours } of areas) for (const { segments } of contours) sum += segments.length;
  return sum;
}

/** Does the shape reach beyond the box? */
function reachesBeyond(contours: readonly ContourView[], bounds: Bounds): boolean {
  const slack = OVERHANG_SHARE * Math.max(bounds.maxX - bounds.minX, bounds.maxY - bounds.minY);
  return contours.some((contour) => {
    const { minX, minY, maxX, maxY } = contourBounds(contour);
    return (
      minX < bounds.minX - slack ||
      minY < bounds.minY - slack ||
      maxX > bounds.maxX + slack ||
      maxY > bounds.maxY + slack
    );
  });
}

function isUprightRectangle({ start, segments }: ContourView): boolean {
  const corners = [...segments].map(({ to }) => to);
  if (corners.length !== 4 || segments.some(({ kind }) => kind !== 'line')) return false;
  return corners.every((corner, i) => {
    const before = i === 0 ? start : corners[i - 1]!;
    return Math.abs(corner.x - before.x) < 1e-9 || Math.abs(corner.y - before.y) < 1e-9;
  });
}
