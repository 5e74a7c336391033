import type { Point } from '@underlap/geometry/point';

/** What a SPLINE says, drawing units. */
export interface SplineData {
  readonly degree: number;
  readonly isClosed: boolean;
  readonly isPeriodic: boolean;
  readonly knots: readonly number[];
  readonly controls: readonly Point[];
  /** One for each control point, or none when all are 1. */
  readonly weights: readonly number[];
  readonly fits: readonly Point[];
  readonly startTangent: Point | null;
  readonly endTangent: Point | null;
}
