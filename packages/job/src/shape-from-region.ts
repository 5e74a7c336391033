import { polylineContour } from '@underlap/geometry/contour';
import type { Shape } from '@underlap/geometry/curve';
import type { Region } from '@underlap/geometry/region';

/** A polygon as an exact shape of straight lines. */
export function shapeFromRegion(region: Region): Shape {
  return { outer: polylineContour(region.outer, true), holes: region.holes.map((hole) => polylineContour(hole, true)) };
}
