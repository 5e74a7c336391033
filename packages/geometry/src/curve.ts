import type { Point } from './point.ts';

/** Straight to `to`. */
export interface LineSegment {
  readonly kind: 'line';
  readonly to: Point;
}

/** Circular arc to `to`; `sweep` is the signed angle in radians, positive when the angle grows (from +x towards +y). */
export interface ArcSegment {
  readonly kind: 'arc';
  readonly to: Point;
  readonly centre: Point;
  readonly radius: number;
  readonly sweep: number;
}

/** Elliptical arc to `to`: point(u) = centre + R(axisTurn) (rx cos u, ry sin u), u from `from` to `from + sweep`, radians. */
export interface EllipseSegment {
  readonly kind: 'ellipse';
  readonly to: Point;
  readonly centre: Point;
  readonly rx: number;
  readonly ry: number;
  readonly axisTurn: number;
  readonly from: number;
  readonly sweep: number;
}

/** Cubic Bezier to `to` (quadratics are raised to cubics, which is exact). */
export interface CubicSegment {
  readonly kind: 'cubic';
  readonly c1: Point;
  readonly c2: Point;
  readonly to: Point;
}

export type Segment = LineSegment | ArcSegment | EllipseSegment | CubicSegment;

/**
 * An exact outline as drawn, mm. When `closed`, the last segment ends on `start` (an explicit closing line is part of the
 * list where the drawing left a gap).
 */
export interface Contour {
  readonly start: Point;
  readonly segments: readonly Segment[];
  readonly closed: boolean;
}

/** The exact face of a part or piece: closed contours, outer of positive area, holes of negative area. */
export interface Shape {
  readonly outer: Contour;
  readonly holes: readonly Contour[];
}
