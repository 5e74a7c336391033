import { contourBounds, polylineContour } from '@underlap/geometry/contour';
import type { Contour, Shape } from '@underlap/geometry/curve';
import { flattenContour } from '@underlap/geometry/flatten';
import { contourToPathData, shapeToPathData } from '@underlap/geometry/path-data';
import type { Point } from '@underlap/geometry/point';
import type { Region } from '@underlap/geometry/region';
import type { Bounds, Ring } from '@underlap/geometry/ring';

/** Pictures need no more than a micrometre. */
const PICTURE_DECIMALS = 3;
/** How far chords may stand off a curve in pictures of stretches, mm. */
const PICTURE_TOLERANCE_MM = 0.02;

export function shapePath(shape: Shape): string {
  return shapeToPathData(shape, PICTURE_DECIMALS);
}

export function contourPath(contour: Contour): string {
  return contourToPathData(contour, PICTURE_DECIMALS);
}

export function contoursPath(contours: readonly Contour[]): string {
  return contours.map(contourPath).join('');
}

export function shapeBox(shape: Shape): Bounds {
  return contourBounds(shape.outer);
}

export function regionPath(region: Region): string {
  return [region.outer, ...region.holes].map((ring) => polylinePath(ring, true)).join('');
}

export function polylinePath(points: Ring, isClosed: boolean): string {
  return contourPath(polylineContour(points, isClosed));
}

/** Points along an open contour with the length from its start, mm. */
export interface Track {
  readonly points: Ring;
  readonly at: Float64Array;
  readonly length: number;
}

export function trackOf(contour: Contour): Track {
  return trackOfPoints(flattenContour(contour, PICTURE_TOLERANCE_MM));
}

export function trackOfPoints(points: Ring): Track {
  const at = new Float64Array(points.length / 2);
  for (let i = 1; i < at.length; i++) {
    at[i] = at[i - 1]! + Math.hypot(points[2 * i]! - points[2 * i - 2]!, points[2 * i + 1]! - points[2 * i - 1]!);
  }
  return { points, at, length: at.at(-1) ?? 0 };
}

/** The point `distance` mm along the track. */
export function alongTrack(track: Track, distance: number): Point {
  const { points, at } = track;
  let i = 1;
  while (i < at.length - 1 && at[i]! < distance) i++;
  const span = at[i]! - at[i - 1]!;
  const share = span > 0 ? Math.min(Math.max((distance - at[i - 1]!) / span, 0), 1) : 0;
  return {
    x: points[2 * i - 2]! + share * (points[2 * i]! - points[2 * i - 2]!),
    y: points[2 * i - 1]! + share * (points[2 * i + 1]! - points[2 * i - 1]!),
  };
}

/** Path data of the stretch between two distances along the track. */
export function stretchPath(track: Track, from: number, to: number): string {
  const points: Point[] = [alongTrack(track, from)];
  for (let i = 0; i < track.at.length; i++) {
    if (track.at[i]! > from && track.at[i]! < to) points.push({ x: track.points[2 * i]!, y: track.points[2 * i + 1]! });
  }
  points.push(alongTrack(track, to));
  return `M${points.map((point) => `${round(point.x)} ${round(point.y)}`).join('L')}`;
}

function round(value: number): number {
  return Math.round(value * 1000) / 1000;
}
