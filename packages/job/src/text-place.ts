import { strokeText, strokeTextWidth } from '@underlap/artwork/stroke-font';
import { subtractRegions } from '@underlap/geometry/boolean';
import { contourEnd } from '@underlap/geometry/contour';
import type { Contour } from '@underlap/geometry/curve';
import { flattenContour } from '@underlap/geometry/flatten';
import { bufferPolyline } from '@underlap/geometry/offset';
import type { Point } from '@underlap/geometry/point';
import type { Region } from '@underlap/geometry/region';
import { roomiestPoint } from './roomy-point.ts';

/** Smaller letters burn into a blot, mm (common practice, no source). */
export const SMALLEST_TEXT_MM = 2;

/** Two marks burnt nearer than this run into one, mm: a burnt line is a few tenths wide (common practice, no source). */
const MARK_CLEARANCE_MM = 0.8;

/** Chords are good enough this far from a curve where only a letter's place is looked for, mm. */
const COARSE_MM = 0.1;

/** A text in its place: what is burnt, and the disc that it keeps to. */
export interface PlacedText {
  readonly contours: readonly Contour[];
  readonly middle: Point;
  readonly radius: number;
}

/**
 * Letters of the wanted height, or smaller, in the roomiest place.
 * @param regions - where they may lie, mm.
 * @returns null when not even small ones have room.
 */
export function textIn(regions: readonly Region[], text: string, height: number): PlacedText | null {
  const spot = roomiestPoint(regions);
  if (spot === null) return null;
  // A text of height h and width w needs half its diagonal as clearance.
  const half = Math.hypot(strokeTextWidth(text, 1), 1) / 2;
  const fits = Math.min(height, spot.clearance / half);
  if (fits < SMALLEST_TEXT_MM) return null;
  return { contours: strokeText(text, spot, fits), middle: { x: spot.x, y: spot.y }, radius: fits * half };
}

/** What is left of regions when everything near other marks is taken away; engraved areas count with their inside. */
export function clearOf(regions: readonly Region[], marks: readonly Contour[]): Region[] {
  if (regions.length === 0 || marks.length === 0) return [...regions];
  const taken = marks.flatMap((contour) => {
    const line = flattenContour(contour, COARSE_MM);
    if (line.length < 4) return [];
    const { x, y } = contourEnd(contour);
    const closed = contour.closed ? Float64Array.from([...line, x, y]) : line;
    return bufferPolyline(closed, MARK_CLEARANCE_MM + COARSE_MM, COARSE_MM);
  });
  return subtractRegions(regions, taken);
}
