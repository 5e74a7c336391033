import type { Contour, Segment } from '@underlap/geometry/curve';
import { shapeToRegion } from '@underlap/geometry/flatten';
import { isInRing, ringArea } from '@underlap/geometry/ring';
import seedrandom from 'seedrandom';
import { describe, expect, it } from 'vitest';
import { growSimpler } from './grow-simple.ts';
import { outerRings } from './outer-outline.ts';

const p = (x: number, y: number) => ({ x, y });

function circle(radius: number, sweep: 1 | -1): Contour {
  const at = p(radius, 0);
  return {
    start: at,
    segments: [{ kind: 'arc', to: at, centre: p(0, 0), radius, sweep: sweep * 2 * Math.PI }],
    closed: true,
  };
}

/** A closed outline of cubics through random points on a wavy circle. */
function wavy(seed: string): Contour {
  const rng = seedrandom(seed);
  const n = 4 + Math.floor(rng() * 6);
  const knots = Array.from({ length: n }, (_, i) => {
    const t = (2 * Math.PI * i) / n;
    const r = 20 + 30 * rng();
    return p(r * Math.cos(t), r * Math.sin(t));
  });
  const segments = knots.map((_, i): Segment => {
    const [a, b, c, d] = [-1, 0, 1, 2].map((k) => knots[(i + k + n) % n]!) as [
      (typeof knots)[0],
      (typeof knots)[0],
      (typeof knots)[0],
      (typeof knots)[0],
    ];
    return {
      kind: 'cubic',
      c1: p(b!.x + (c!.x - a!.x) / 6, b!.y + (c!.y - a!.y) / 6),
      c2: p(c!.x - (d!.x - b!.x) / 6, c!.y - (d!.y - b!.y) / 6),
      to: c!,
    };
  });
  return { start: knots[0]!, segments, closed: true };
}

describe('search outlines contain the exact ones', () => {
  it('replaces a circle by tangents and its hole by chords', () => {
    const [outer, hole] = outerRings({ outer: circle(50, 1), holes: [circle(10, -1)] }, 0.05);
    expect(ringArea(outer!)).toBeGreaterThan(Math.PI * 2500);
    expect(ringArea(outer!)).toBeLessThan(Math.PI * 50.1 ** 2);
    expect(outer!.length / 2).toBeLessThan(130);
    expect(-ringArea(hole!)).toBeLessThan(Math.PI * 100);
    expect(-ringArea(hole!)).toBeGreaterThan(Math.PI * 9.9 ** 2);
  });

  it('takes a contour drawn the wrong way round', () => {
    const [outer] = outerRings({ outer: circle(50, -1), holes: [] }, 0.05);
    expect(ringArea(outer!)).toBeGreaterThan(Math.PI * 2500);
  });

  it('contains random curved outlines, within the tolerance', () => {
    for (let i = 0; i < 12; i++) {
      const shape = { outer: wavy(`wavy ${i}`), holes: [] };
      const fine = shapeToRegion(shape, 1e-3).outer;
      for (const ring of [outerRings(shape, 0.05)[0]!, growSimpler(fine, 0.05)]) {
        let perimeter = 0;
        let outside = 0;
        for (let k = 0; k < fine.length; k += 2) {
          // a hair towards the middle: the fine ring's own vertices may lie on the tangents
          const s = 1 - 1e-5;
          if (!isInRing(ring, fine[k]! * s, fine[k + 1]! * s)) outside++;
          const j = (k + 2) % fine.length;
          perimeter += Math.hypot(fine[j]! - fine[k]!, fine[j + 1]! - fine[k + 1]!);
        }
        expect(outside).toBe(0);
        expect(ringArea(ring) - ringArea(fine)).toBeLessThan(perimeter * 0.1);
      }
    }
  });

  it('leaves straight outlines alone', () => {
    const square = Float64Array.of(0, 0, 10, 0, 10, 10, 0, 10);
    expect(growSimpler(square, 0.1)).toBe(square);
  });
});
