import type { SheetPath } from '@underlap/artwork/sheet-drawing';
import { intersectRegions, subtractRegions } from '@underlap/geometry/boolean';
import { clipPolyline } from '@underlap/geometry/clip-polyline';
import { polylineContour } from '@underlap/geometry/contour';
import type { Contour } from '@underlap/geometry/curve';
import { flattenContour } from '@underlap/geometry/flatten';
import { placementMatrix } from '@underlap/geometry/matrix';
import { bufferPolyline, offsetRegions } from '@underlap/geometry/offset';
import type { Point } from '@underlap/geometry/point';
import { type Region, regionBounds } from '@underlap/geometry/region';
import type { Bounds, Ring } from '@underlap/geometry/ring';
import { transformRegion } from '@underlap/geometry/transform-region';
import { copyName } from '@underlap/nest/copy';
import type { Placement } from '@underlap/nest/problem';
import type { CutPiece, JobPiece } from './stages.ts';
import { textIn } from './text-place.ts';

/** Numbers in the waste keep this far from every cut, mm: more than a beam's width and a shaky board. */
const FROM_CUT_MM = 1;

/** A number lies no farther from its piece than this many heights of its text. */
const REACH_HEIGHTS = 2.5;

/** A pointer shorter than this says nothing, mm. */
const LEAST_POINTER_MM = 0.8;

/** Only a place is looked for: chords are good enough this far from a curve, mm. */
const COARSE_MM = 0.1;

/** Does this placement show its number nowhere on itself? A piece cut from the back carries no marks. */
export function isBare(placement: Placement, piece: CutPiece): boolean {
  return placement.mirrored || !piece.marks.some((mark) => mark.kind === 'number');
}

/**
 * Numbers for the pieces that cannot carry one, scored in the waste beside them with a short line that points at the piece.
 * @param placements - everything that lies on the board, in the pieces' frames.
 * @param isMine - which of them to number; default: all. How large, and whether at all, is said by the marks of each piece's design.
 * @param within - what the loading reaches of the board, sheet frame, mm.
 * @returns paths in the sheet's frame that touch no cut and no other number; none for a piece without waste beside it.
 * @remarks One boolean of a small window for each bare piece: O(bare pieces x pieces near).
 */
export function wasteNumbers(
  placements: readonly Placement[],
  pieces: ReadonlyMap<string, JobPiece>,
  within: Bounds,
  isMine: (placement: Placement) => boolean = () => true,
): SheetPath[] {
  const placed = placements.map((placement) => {
    const piece = pieces.get(placement.pieceId)!;
    const matrix = placementMatrix(placement.x, placement.y, placement.turnDeg, placement.mirrored);
    const region = transformRegion(piece.cutRegion, matrix);
    return { placement, piece, region, box: regionBounds(region) };
  });
  const written: { readonly region: Region; readonly box: Bounds }[] = [];
  const paths: SheetPath[] = [];
  for (const { placement, piece, region, box } of placed) {
    const { numbers, wasteNumbers: isWanted, textHeight } = piece.design.job.marks;
    if (numbers === 'off' || !isWanted || !isMine(placement) || !isBare(placement, piece)) continue;
    const reach = REACH_HEIGHTS * textHeight;
    const near = grown(box, reach);
    const window = clipped(near, grown(within, -FROM_CUT_MM));
    if (window === null) continue;
    const taken = [...placed, ...written].filter((other) => doMeet(other.box, near)).map((other) => other.region);
    const around = intersectRegions([window], offsetRegions([region], reach, COARSE_MM));
    const free = subtractRegions(around, offsetRegions(taken, FROM_CUT_MM, COARSE_MM));
    const text = textIn(free, piece.number, textHeight);
    if (text === null) continue;
    const pointer = pointerTo(region, text, free);
    const contours = pointer === null ? text.contours : [...text.contours, pointer];
    paths.push(
      ...contours.map(
        (contour): SheetPath => ({
          process: 'score',
          pieceId: copyName(placement),
          number: piece.number,
          contour,
          role: 'number',
        }),
      ),
    );
    for (const contour of contours) {
      const line = flattenContour(contour, COARSE_MM);
      for (const ink of bufferPolyline(line, FROM_CUT_MM, COARSE_MM))
        written.push({ region: ink, box: regionBounds(ink) });
    }
    const disc = bufferPolyline(Float64Array.of(text.middle.x, text.middle.y), text.radius, COARSE_MM);
    for (const own of disc) written.push({ region: own, box: regionBounds(own) });
  }
  return paths;
}

/** A line from the text towards its piece, where nothing lies between; null when it is too short to be seen. */
function pointerTo(
  region: Region,
  { middle, radius }: { readonly middle: Point; readonly radius: number },
  free: readonly Region[],
): Contour | null {
  const target = [region.outer, ...region.holes]
    .map((ring) => nearestOn(ring, middle))
    .reduce((best, next) => (next.distance < best.distance ? next : best));
  const { distance } = target;
  const along = (far: number): Point => ({
    x: middle.x + ((target.x - middle.x) * far) / distance,
    y: middle.y + ((target.y - middle.y) * far) / distance,
  });
  const from = along(radius);
  const to = along(distance - FROM_CUT_MM - COARSE_MM);
  if (distance - FROM_CUT_MM - COARSE_MM - radius < LEAST_POINTER_MM) return null;
  const line = Float64Array.of(from.x, from.y, to.x, to.y);
  return clipPolyline(line, false, free, 'outside').length > 0 ? null : polylineContour(line, false);
}

function nearestOn(ring: Ring, { x, y }: Point): Point & { readonly distance: number } {
  let best = { x: ring[0]!, y: ring[1]!, distance: Number.POSITIVE_INFINITY };
  for (let i = 0, j = ring.length - 2; i < ring.length; j = i, i += 2) {
    const dx = ring[i]! - ring[j]!;
    const dy = ring[i + 1]! - ring[j + 1]!;
    const square = dx * dx + dy * dy;
    const u = square > 0 ? Math.min(1, Math.max(0, ((x - ring[j]!) * dx + (y - ring[j + 1]!) * dy) / square)) : 0;
    const at = { x: ring[j]! + u * dx, y: ring[j + 1]! + u * dy };
    const distance = Math.hypot(x - at.x, y - at.y);
    if (distance < best.distance) best = { ...at, distance };
  }
  return best;
}

function grown({ minX, minY, maxX, maxY }: Bounds, by: number): Bounds {
  return { minX: minX - by, minY: minY - by, maxX: maxX + by, maxY: maxY + by };
}

function clipped(a: Bounds, b: Bounds): Region | null {
  const minX = Math.max(a.minX, b.minX);
  const minY = Math.max(a.minY, b.minY);
  const maxX = Math.min(a.maxX, b.maxX);
  const maxY = Math.min(a.maxY, b.maxY);
  if (minX >= maxX || minY >= maxY) return null;
  return { outer: Float64Array.of(minX, minY, maxX, minY, maxX, maxY, minX, maxY), holes: [] };
}

function doMeet(a: Bounds, b: Bounds): boolean {
  return a.minX < b.maxX && b.minX < a.maxX && a.minY < b.maxY && b.minY < a.maxY;
}
