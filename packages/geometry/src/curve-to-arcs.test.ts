import seedrandom from 'seedrandom';
import { describe, expect, it } from 'vitest';
import { contourLength, segmentPoint, segmentTangent } from './contour.ts';
import type { Contour, Segment } from './curve.ts';
import { approximateByArcs } from './curve-to-arcs.ts';
import type { Point } from './point.ts';

/** Largest distance from fine samples of one contour to fine samples of another (both ways would be Hausdorff's). */
function deviation(a: Contour, b: Contour): number {
  const target = samples(b, 400);
  return samples(a, 25).reduce((most, p) => Math.max(most, nearest(p, target)), 0);
}

function samples(contour: Contour, perSegment: number): Point[] {
  const points: Point[] = [contour.start];
  let from = contour.start;
  for (const segment of contour.segments) {
    for (let i = 1; i <= perSegment; i++) points.push(segmentPoint(from, segment, i / perSegment));
    from = segment.to;
  }
  return points;
}

function nearest(p: Point, chain: readonly Point[]): number {
  let least = Infinity;
  for (let i = 1; i < chain.length; i++) {
    const [a, b] = [chain[i - 1]!, chain[i]!];
    const [dx, dy] = [b.x - a.x, b.y - a.y];
    const along = Math.min(1, Math.max(0, ((p.x - a.x) * dx + (p.y - a.y) * dy) / (dx * dx + dy * dy || 1)));
    least = Math.min(least, Math.hypot(p.x - a.x - along * dx, p.y - a.y - along * dy));
  }
  return least;
}

function randomCubic(random: () => number): Contour {
  const point = () => ({ x: 100 * random(), y: 100 * random() });
  return { start: point(), segments: [{ kind: 'cubic', c1: point(), c2: point(), to: point() }], closed: false };
}

const ellipse = (rx: number, ry: number): Contour => {
  const start = { x: rx, y: 0 };
  const whole: Segment = {
    kind: 'ellipse',
    to: start,
    centre: { x: 0, y: 0 },
    rx,
    ry,
    axisTurn: 0,
    from: 0,
    sweep: 2 * Math.PI,
  };
  return { start, segments: [whole], closed: true };
};

describe('curves in arcs', () => {
  it('stays within the tolerance for random cubics, loops and cusps among them', () => {
    const random = seedrandom('cubics');
    for (let i = 0; i < 12; i++) {
      const cubic = randomCubic(random);
      const arcs = approximateByArcs(cubic, 0.01);
      expect(deviation(cubic, arcs)).toBeLessThan(0.0105);
      expect(deviation(arcs, cubic)).toBeLessThan(0.0105);
      expect(arcs.segments.at(-1)!.to).toEqual(cubic.segments[0]!.to);
    }
  });

  it('would notice a fit ten times as loose (faulty twin)', () => {
    const random = seedrandom('cubics');
    const worst = Array.from({ length: 10 }, () => randomCubic(random)).map((cubic) =>
      deviation(cubic, approximateByArcs(cubic, 0.1)),
    );
    expect(Math.max(...worst)).toBeGreaterThan(0.0105);
  });

  it('meets tangentially wherever the curve is smooth', () => {
    const { start, segments } = approximateByArcs(ellipse(50, 20), 0.005);
    let from = start;
    segments.forEach((segment, i) => {
      const next = segments[(i + 1) % segments.length]!;
      const [out, into] = [segmentTangent(from, segment, 1), segmentTangent(segment.to, next, 0)];
      expect(Math.abs(out.x * into.y - out.y * into.x)).toBeLessThan(1e-6);
      expect(out.x * into.x + out.y * into.y).toBeGreaterThan(0);
      from = segment.to;
    });
  });

  it('needs few arcs: eight times the tolerance, half the arcs', () => {
    const count = (tolerance: number) => approximateByArcs(ellipse(100, 40), tolerance).segments.length;
    expect(count(0.01)).toBeLessThanOrEqual(80);
    expect(count(0.08)).toBeLessThanOrEqual(0.7 * count(0.01));
  });

  it('leaves lines and arcs alone and writes a straight cubic as a line', () => {
    const to = { x: 30, y: 0 };
    const straight: Contour = {
      start: { x: 0, y: 0 },
      segments: [{ kind: 'cubic', c1: { x: 10, y: 0 }, c2: { x: 20, y: 0 }, to }],
      closed: false,
    };
    expect(approximateByArcs(straight, 0.01).segments).toEqual([{ kind: 'line', to }]);
  });

  it('ends on a curve that is a mere point', () => {
    const p = { x: 1, y: 1 };
    const point: Contour = { start: p, segments: [{ kind: 'cubic', c1: p, c2: p, to: p }], closed: false };
    expect(contourLength(approximateByArcs(point, 0.01))).toBe(0);
  });
});
