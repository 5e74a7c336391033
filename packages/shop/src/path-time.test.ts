import type { Contour, Segment } from '@underlap/geometry/curve';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { contourSeconds, cornerSpeed, moveSeconds } from './path-time.ts';

const MOTION = { speed: 10, acceleration: 1000, cornerTolerance: 0.05 };

function lines(...points: readonly (readonly [number, number])[]): Contour {
  const [first, ...rest] = points.map(([x, y]) => ({ x, y }));
  return { start: first!, segments: rest.map((to): Segment => ({ kind: 'line', to })), closed: false };
}

function circle(radius: number): Contour {
  const start = { x: radius, y: 0 };
  const arc: Segment = { kind: 'arc', to: start, centre: { x: 0, y: 0 }, radius, sweep: 2 * Math.PI };
  return { start, segments: [arc], closed: true };
}

describe('time of a straight move', () => {
  // Textbook kinematics, trapezoidal profile: 100 mm at 10 mm/s and 1000 mm/s2 take 100 / 10 + 10 / 1000 s.
  it('is distance over speed plus one ramp for a long move', () => {
    expect(moveSeconds(100, 10, 1000)).toBeCloseTo(10.01, 12);
  });

  // A move too short to reach its speed is a triangle: 2 sqrt(d / a).
  it('is a triangle for a short move, and both formulas agree where they meet', () => {
    expect(moveSeconds(0.01, 300, 1000)).toBeCloseTo(2 * Math.sqrt(0.00001), 12);
    expect(moveSeconds(90, 300, 1000)).toBeCloseTo(90 / 300 + 300 / 1000, 12);
    expect(moveSeconds(90, 300, 1000)).toBeCloseTo(2 * Math.sqrt(90 / 1000), 12);
    expect(moveSeconds(0, 300, 1000)).toBe(0);
  });
});

describe('time along a path', () => {
  it('of one line is that of the move, and a point on the way costs nothing', () => {
    expect(contourSeconds(lines([0, 0], [100, 0]), MOTION)).toBeCloseTo(10.01, 12);
    expect(contourSeconds(lines([0, 0], [3, 0], [3, 0], [60, 0], [100, 0]), MOTION)).toBeCloseTo(10.01, 9);
  });

  it('stops at a corner when the head may not leave the path, and on the way back always', () => {
    const stop = { ...MOTION, speed: 200, cornerTolerance: 0 };
    const two = moveSeconds(30, 200, 1000) + moveSeconds(40, 200, 1000);
    expect(contourSeconds(lines([0, 0], [30, 0], [30, 40]), stop)).toBeCloseTo(two, 12);
    const back = contourSeconds(lines([0, 0], [50, 0], [0, 0]), { ...stop, cornerTolerance: 0.5 });
    expect(back).toBeCloseTo(2 * moveSeconds(50, 200, 1000), 5);
  });

  // Plane geometry: the arc that touches both sides of a right angle and passes its corner at t has r = t / (sqrt 2 - 1).
  it('takes a right angle at the speed of the arc that cuts its corner', () => {
    const radius = 0.05 / (Math.SQRT2 - 1);
    expect(cornerSpeed(Math.PI / 2, 1000, 0.05)).toBeCloseTo(Math.sqrt(1000 * radius), 9);
    expect(cornerSpeed(Math.PI, 1000, 0.05)).toBe(Number.POSITIVE_INFINITY);
  });

  // v^2 / r = a: a circle of 10 mm is run at 100 mm/s at 1000 mm/s2, however fast the head could go.
  it('of a circle is limited by the acceleration across the path', () => {
    const seconds = contourSeconds(circle(10), { ...MOTION, speed: 500 });
    expect(seconds).toBeCloseTo(moveSeconds(2 * Math.PI * 10, 100, 1000), 9);
    const slow = contourSeconds(circle(10), { ...MOTION, speed: 20 });
    expect(slow).toBeCloseTo(moveSeconds(2 * Math.PI * 10, 20, 1000), 9);
  });

  it('of a Bezier quarter circle is that of the arc', () => {
    const k = 0.5522847498 * 40;
    const bezier: Contour = {
      start: { x: 40, y: 0 },
      segments: [{ kind: 'cubic', c1: { x: 40, y: k }, c2: { x: k, y: 40 }, to: { x: 0, y: 40 } }],
      closed: false,
    };
    const arc: Contour = {
      start: { x: 40, y: 0 },
      segments: [{ kind: 'arc', to: { x: 0, y: 40 }, centre: { x: 0, y: 0 }, radius: 40, sweep: Math.PI / 2 }],
      closed: false,
    };
    const fast = { ...MOTION, speed: 800 };
    expect(contourSeconds(bezier, fast) / contourSeconds(arc, fast)).toBeCloseTo(1, 2);
  });

  it('agrees with a fine walk in the plane of place and speed on random paths', () => {
    fc.assert(
      fc.property(
        fc.array(fc.tuple(fc.integer({ min: 0, max: 200 }), fc.integer({ min: 0, max: 200 })), {
          minLength: 3,
          maxLength: 7,
        }),
        fc.double({ min: 20, max: 400, noNaN: true }),
        (points, speed) => {
          const motion = { speed, acceleration: 900, cornerTolerance: 0.2 };
          const found = contourSeconds(lines(...points), motion);
          const walked = walkedSeconds(points, motion);
          expect(Math.abs(found - walked)).toBeLessThanOrEqual(0.01 * walked + 0.01);
        },
      ),
      { seed: 7, numRuns: 60 },
    );
  });
});

/**
 * The fastest profile by brute force, independent of the code: the path in steps, a speed limit at every step's end, swept once
 * forwards and once backwards with v^2 <= u^2 + 2 a d (textbook kinematics), and the time of each step from its mean speed.
 */
function walkedSeconds(
  points: readonly (readonly [number, number])[],
  motion: { speed: number; acceleration: number; cornerTolerance: number },
): number {
  const steps: { d: number; limit: number }[] = [];
  for (let i = 1; i < points.length; i++) {
    const [ax, ay] = points[i - 1]!;
    const [bx, by] = points[i]!;
    const length = Math.hypot(bx - ax, by - ay);
    if (length === 0) continue;
    const count = Math.max(1, Math.ceil(length / 0.01));
    const next = points.slice(i).find(([x, y]) => Math.hypot(x - bx, y - by) > 0);
    let corner = 0;
    if (next !== undefined) {
      const out = Math.atan2(next[1] - by, next[0] - bx) - Math.atan2(by - ay, bx - ax);
      const inner = Math.PI - Math.abs(Math.atan2(Math.sin(out), Math.cos(out)));
      const sine = Math.sin(inner / 2);
      corner = Math.min(
        motion.speed,
        Math.sqrt((motion.acceleration * motion.cornerTolerance * sine) / Math.max(1e-15, 1 - sine)),
      );
    }
    for (let k = 1; k <= count; k++) steps.push({ d: length / count, limit: k === count ? corner : motion.speed });
  }
  const speeds = [0, ...steps.map((step) => step.limit)];
  for (let i = 1; i < speeds.length; i++)
    speeds[i] = Math.min(speeds[i]!, Math.sqrt(speeds[i - 1]! ** 2 + 2 * motion.acceleration * steps[i - 1]!.d));
  for (let i = speeds.length - 2; i >= 0; i--)
    speeds[i] = Math.min(speeds[i]!, Math.sqrt(speeds[i + 1]! ** 2 + 2 * motion.acceleration * steps[i]!.d));
  return steps.reduce((sum, step, i) => sum + (2 * step.d) / Math.max(1e-9, speeds[i]! + speeds[i + 1]!), 0);
}
