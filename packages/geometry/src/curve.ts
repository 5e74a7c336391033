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
 * Segments in a row that can be read: an array, or numbers from which each segment is made as it is looked at
 * (`packed-segments.ts`).
 */
export interface SegmentList extends Iterable<Segment> {
  readonly length: number;
  /** O(1) for the last and in an array, else O(index). */
  at(index: number): Segment | undefined;
  some(test: (segment: Segment) => boolean): boolean;
  every(test: (segment: Segment) => boolean): boolean;
}

/** A contour as it can be looked at and measured, however its segments are held. */
export interface ContourView {
  readonly start: Point;
  readonly segments: SegmentList;
  readonly closed: boolean;
}

/**
 * An exact outline as drawn, mm. When `closed`, the last segment ends on `start` (an explicit closing line is part of the
 * list where the drawing left a gap).
 */
export interface Contour extends ContourView {
  readonly segments: readonly Segment[];
}

/** The exact face of a part or piece: closed contours, outer of positive area, holes of negative area. */
export interface Shape {
  readonly outer: Contour;
  readonly holes: readonly Contour[];
}
