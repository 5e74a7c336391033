import { contourEnd, contourLength } from '@underlap/geometry/contour';
import type { ContourView } from '@underlap/geometry/curve';

/** Curves by running number, made when they are asked for. */
export interface CurveRow {
  readonly length: number;
  at(index: number): ContourView;
}

/** Ends and lengths of curves, measured once. End 2 i is the start of curve i, end 2 i + 1 its end. */
export interface MeasuredCurves {
  readonly x: Float64Array;
  readonly y: Float64Array;
  readonly length: Float64Array;
}

export function measureCurves(curves: CurveRow): MeasuredCurves {
  const x = new Float64Array(2 * curves.length);
  const y = new Float64Array(2 * curves.length);
  const length = new Float64Array(curves.length);
  for (let i = 0; i < curves.length; i++) {
    const curve = curves.at(i);
    const end = contourEnd(curve);
    x[2 * i] = curve.start.x;
    y[2 * i] = curve.start.y;
    x[2 * i + 1] = end.x;
    y[2 * i + 1] = end.y;
    length[i] = contourLength(curve);
  }
  return { x, y, length };
}
