import type { Contour, Segment } from '@underlap/geometry/curve';
import type { Point } from '@underlap/geometry/point';

/** Kinds of segment a random outline is made of. */
export type CurveKind = 'line' | 'arc' | 'cubic' | 'ellipse';

const KINDS: readonly CurveKind[] = ['line', 'arc', 'cubic', 'ellipse'];

/**
 * A closed outline round a centre that does not cross itself: spokes of random length, joined by lines, gentle arcs, cubics
 * and elliptical arcs. Runs with growing angle, so its area is positive.
 * @param random - numbers in 0..1.
 * @param kinds - which segments may occur.
 */
export function randomContour(
  random: () => number,
  centre: Point,
  radius: number,
  kinds: readonly CurveKind[] = KINDS,
): Contour {
  const count = 5 + Math.floor(random() * 8);
  const corners = Array.from({ length: count }, (_, i): Point => {
    const turn = ((i + 0.4 * random()) / count) * 2 * Math.PI;
    const reach = radius * (0.7 + 0.3 * random());
    return { x: centre.x + reach * Math.cos(turn), y: centre.y + reach * Math.sin(turn) };
  });
  const segments = corners.map((from, i): Segment => {
    const to = corners[(i + 1) % count]!;
    const kind = kinds[Math.floor(random() * kinds.length)]!;
    return between(from, to, kind, random);
  });
  return { start: corners[0]!, segments, closed: true };
}

/** Bends stay within a seventh of the chord, so that neighbouring spokes are never crossed. */
function between(from: Point, to: Point, kind: CurveKind, random: () => number): Segment {
  const dx = to.x - from.x;
  const dy = to.y - from.y;
  const bend = (random() - 0.5) * 0.28;
  const beside = (along: number, off: number): Point => ({
    x: from.x + dx * along - dy * off,
    y: from.y + dy * along + dx * off,
  });
  switch (kind) {
    case 'line':
      return { kind, to };
    case 'cubic':
      return { kind, c1: beside(0.3, bend), c2: beside(0.7, (random() - 0.5) * 0.28), to };
    case 'arc': {
      // Sagitta = bend / 2 of the chord: bulge = sagitta / half chord.
      const bulge = Math.abs(bend) < 0.01 ? 0.01 : bend;
      const centre = beside(0.5, (1 - bulge * bulge) / (4 * bulge));
      const radius = Math.hypot(centre.x - from.x, centre.y - from.y);
      return { kind, to, centre, radius, sweep: 4 * Math.atan(bulge) };
    }
    case 'ellipse': {
      // Half an ellipse over the chord, flat enough to stay beside it.
      const rx = Math.hypot(dx, dy) / 2;
      const ry = rx * (0.05 + 0.2 * random());
      const axisTurn = Math.atan2(dy, dx);
      const sign = random() < 0.5 ? 1 : -1;
      return { kind, to, centre: beside(0.5, 0), rx, ry, axisTurn, from: sign * Math.PI, sweep: sign * Math.PI };
    }
  }
}
