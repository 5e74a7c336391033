import type { ArcSegment, EllipseSegment, LineSegment } from '@underlap/geometry/curve';
import type { Point } from '@underlap/geometry/point';

/** Radii this close, relative, are one circle: `A 5 5 30 ...` is an arc of a circle whatever its axis says. */
const SAME_RADIUS = 1e-12;

/**
 * The arc of a path's `A` command in centre form: SVG 1.1 / SVG 2, implementation notes 'Conversion from endpoint to center
 * parameterization' and 'Correction of out-of-range radii'.
 * @param axisDeg - turn of the ellipse's x axis, degrees.
 * @returns a line when a radius is zero, null when both ends are the same point (nothing is drawn).
 */
export function arcFromEndpoints(
  from: Point,
  radiusX: number,
  radiusY: number,
  axisDeg: number,
  isLarge: boolean,
  isPositive: boolean,
  to: Point,
): ArcSegment | EllipseSegment | LineSegment | null {
  if (from.x === to.x && from.y === to.y) return null;
  let rx = Math.abs(radiusX);
  let ry = Math.abs(radiusY);
  if (rx === 0 || ry === 0) return { kind: 'line', to };
  const isCircle = Math.abs(rx - ry) <= SAME_RADIUS * Math.max(rx, ry);
  const axisTurn = isCircle ? 0 : ((axisDeg % 360) * Math.PI) / 180;
  const cos = Math.cos(axisTurn);
  const sin = Math.sin(axisTurn);
  const halfX = (from.x - to.x) / 2;
  const halfY = (from.y - to.y) / 2;
  // The ends on the unit circle that the ellipse is stretched from.
  const ux = (cos * halfX + sin * halfY) / rx;
  const uy = (-sin * halfX + cos * halfY) / ry;
  const reach = Math.hypot(ux, uy);
  if (reach > 1) {
    rx *= reach;
    ry *= reach;
  }
  const length = Math.max(reach, 1);
  const px = ux / length;
  const py = uy / length;
  const off = (isLarge === isPositive ? -1 : 1) * Math.sqrt(Math.max(0, 1 / (px * px + py * py) - 1));
  const cx = off * py;
  const cy = -off * px;
  const start = Math.atan2(py - cy, px - cx);
  const end = Math.atan2(-py - cy, -px - cx);
  let sweep = end - start;
  if (isPositive && sweep <= 0) sweep += 2 * Math.PI;
  else if (!isPositive && sweep >= 0) sweep -= 2 * Math.PI;
  const centre = {
    x: (from.x + to.x) / 2 + cos * rx * cx - sin * ry * cy,
    y: (from.y + to.y) / 2 + sin * rx * cx + cos * ry * cy,
  };
  if (isCircle) return { kind: 'arc', to, centre, radius: Math.hypot(from.x - centre.x, from.y - centre.y), sweep };
  return { kind: 'ellipse', to, centre, rx, ry, axisTurn, from: start, sweep };
}
