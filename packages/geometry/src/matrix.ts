import type { Point } from './point.ts';

/** Affine map x' = a x + c y + e, y' = b x + d y + f, in the order of an SVG matrix(). */
export interface Matrix {
  readonly a: number;
  readonly b: number;
  readonly c: number;
  readonly d: number;
  readonly e: number;
  readonly f: number;
}

export const IDENTITY: Matrix = { a: 1, b: 0, c: 0, d: 1, e: 0, f: 0 };

/** first applied to the point is `inner`. */
export function multiply(outer: Matrix, inner: Matrix): Matrix {
  return {
    a: outer.a * inner.a + outer.c * inner.b,
    b: outer.b * inner.a + outer.d * inner.b,
    c: outer.a * inner.c + outer.c * inner.d,
    d: outer.b * inner.c + outer.d * inner.d,
    e: outer.a * inner.e + outer.c * inner.f + outer.e,
    f: outer.b * inner.e + outer.d * inner.f + outer.f,
  };
}

export function apply(matrix: Matrix, point: Point): Point {
  return {
    x: matrix.a * point.x + matrix.c * point.y + matrix.e,
    y: matrix.b * point.x + matrix.d * point.y + matrix.f,
  };
}

/**
 * The rigid map of a placement: mirror (x -> -x) first when asked, then turn by `turnDeg` (from +x towards +y), then move.
 * Quarter turns are exact.
 */
export function placementMatrix(x: number, y: number, turnDeg: number, mirrored = false): Matrix {
  const turn = ((turnDeg % 360) + 360) % 360;
  const exact: Record<number, readonly [number, number]> = { 0: [1, 0], 90: [0, 1], 180: [-1, 0], 270: [0, -1] };
  const [cos, sin] = exact[turn] ?? [Math.cos((turn * Math.PI) / 180), Math.sin((turn * Math.PI) / 180)];
  const flip = mirrored ? -1 : 1;
  return { a: cos * flip, b: sin * flip, c: -sin, d: cos, e: x, f: y };
}
