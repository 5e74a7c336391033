import { contourArea, segmentPoint } from '@underlap/geometry/contour';
import type { Contour, Segment } from '@underlap/geometry/curve';
import type { Point } from '@underlap/geometry/point';
import { describe, expect, it } from 'vitest';
import { arcInCubics } from './arc-in-cubics.ts';

function samples(contour: Contour, perSegment: number): Point[] {
  const points: Point[] = [contour.start];
  let from = contour.start;
  for (const segment of contour.segments) {
    for (let i = 1; i <= perSegment; i++) points.push(segmentPoint(from, segment, i / perSegment));
    from = segment.to;
  }
  return points;
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

describe('arcs in cubics', () => {
  it.each([0.5, 5, 50, 500])('keeps to the circle of radius %f within 1e-4', (radius) => {
    const start = { x: radius, y: 0 };
    const arc = {
      kind: 'arc' as const,
      to: { x: 0, y: -radius },
      centre: { x: 0, y: 0 },
      radius,
      sweep: 1.5 * Math.PI,
    };
    const cubics: Contour = { start, segments: arcInCubics(start, arc, 1e-4), closed: false };
    const off = samples(cubics, 40).map(({ x, y }) => Math.abs(Math.hypot(x, y) - radius));
    expect(Math.max(...off)).toBeLessThan(1.01e-4);
    expect(cubics.segments.length).toBeLessThanOrEqual(3 * Math.ceil((radius * 3) ** (1 / 6) * 1.4 + 1));
  });

  it('keeps the area of an ellipse', () => {
    const whole = ellipse(30, 12);
    const cubics = { ...whole, segments: arcInCubics(whole.start, whole.segments[0]! as never, 1e-4) };
    expect(Math.abs(contourArea(cubics) / (360 * Math.PI) - 1)).toBeLessThan(1e-5);
  });
});
