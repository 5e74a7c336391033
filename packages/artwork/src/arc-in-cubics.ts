import type { ArcSegment, CubicSegment, EllipseSegment } from '@underlap/geometry/curve';
import type { Point } from '@underlap/geometry/point';

/**
 * An arc or elliptical arc as cubics.
 * @param tolerance - largest distance, mm, > 0.
 * @remarks One cubic over the angle t leaves a circle of radius r by at most 2.73e-4 r (t / 90 degrees)^6 (textbook value
 * for the handle length 4/3 tan(t / 4)).
 */
export function arcInCubics(from: Point, arc: ArcSegment | EllipseSegment, tolerance: number): CubicSegment[] {
  const ellipse = arc.kind === 'arc' ? circleAsEllipse(from, arc) : arc;
  const radius = Math.max(ellipse.rx, ellipse.ry);
  const quarter = Math.PI / 2;
  const step = quarter * Math.min(1, (tolerance / (2.73e-4 * Math.max(radius, tolerance))) ** (1 / 6));
  const count = Math.max(1, Math.ceil(Math.abs(ellipse.sweep) / step - 1e-9));
  const turn = ellipse.sweep / count;
  const handle = (4 / 3) * Math.tan(turn / 4);
  const cubics: CubicSegment[] = [];
  for (let i = 0; i < count; i++) {
    const u = ellipse.from + turn * i;
    const v = u + turn;
    cubics.push({
      kind: 'cubic',
      c1: onEllipse(ellipse, Math.cos(u) - handle * Math.sin(u), Math.sin(u) + handle * Math.cos(u)),
      c2: onEllipse(ellipse, Math.cos(v) + handle * Math.sin(v), Math.sin(v) - handle * Math.cos(v)),
      to: i === count - 1 ? arc.to : onEllipse(ellipse, Math.cos(v), Math.sin(v)),
    });
  }
  return cubics;
}

function circleAsEllipse(from: Point, { to, centre, radius, sweep }: ArcSegment): EllipseSegment {
  const start = Math.atan2(from.y - centre.y, from.x - centre.x);
  return { kind: 'ellipse', to, centre, rx: radius, ry: radius, axisTurn: 0, from: start, sweep };
}

function onEllipse({ centre, rx, ry, axisTurn }: EllipseSegment, x: number, y: number): Point {
  const cos = Math.cos(axisTurn);
  const sin = Math.sin(axisTurn);
  return { x: centre.x + cos * rx * x - sin * ry * y, y: centre.y + sin * rx * x + cos * ry * y };
}
