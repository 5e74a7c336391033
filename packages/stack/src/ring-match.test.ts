import { placementMatrix } from '@underlap/geometry/matrix';
import type { Ring } from '@underlap/geometry/ring';
import { transformRing } from '@underlap/geometry/transform-region';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { DEFAULT_MATCH_RULES, matchRing } from './ring-match.ts';

/** A lobed outline without symmetry. */
function lobes(points: number, phase: number, size = 40): Ring {
  const ring = new Float64Array(2 * points);
  for (let i = 0; i < points; i++) {
    const angle = (2 * Math.PI * i) / points;
    const r = size * (1 + 0.25 * Math.cos(2 * angle + phase) + 0.15 * Math.sin(3 * angle) + 0.1 * Math.cos(5 * angle));
    ring[2 * i] = r * Math.cos(angle);
    ring[2 * i + 1] = r * Math.sin(angle);
  }
  return ring;
}

/** The same outline begun elsewhere. */
function startedAt(ring: Ring, vertex: number): Ring {
  const out = new Float64Array(ring.length);
  for (let i = 0; i < ring.length; i++) out[i] = ring[(i + 2 * vertex) % ring.length]!;
  return out;
}

const residue = (angle: number) => Math.abs(((((angle + 180) % 360) + 360) % 360) - 180);

test('a moved and turned copy is found exactly, wherever its outline begins', () => {
  fc.assert(
    fc.property(
      fc.double({ min: 0, max: 359.9, noNaN: true }),
      fc.double({ min: -400, max: 400, noNaN: true }),
      fc.integer({ min: 0, max: 179 }),
      (turnDeg, x, vertex) => {
        const ring = lobes(180, 0.7);
        const target = startedAt(transformRing(ring, placementMatrix(x, 100 - x / 2, turnDeg)), vertex);
        const match = matchRing(ring, target);
        expect(match).not.toBeNull();
        expect(residue(match!.turnDeg - turnDeg)).toBeLessThan(1e-6);
        expect(match!.errorMm).toBeLessThan(1e-6);
      },
    ),
    { seed: 11, numRuns: 20 },
  );
});

test('0.2 mm of noise and another number of points do not hide a match', () => {
  fc.assert(
    fc.property(
      fc.integer({ min: 1, max: 1_000_000 }),
      fc.double({ min: 0, max: 359, noNaN: true }),
      (seed, turnDeg) => {
        let state = seed;
        const noise = () => {
          state = (state * 1103515245 + 12345) % 2147483648;
          return (state / 2147483648 - 0.5) * 0.4;
        };
        const target = transformRing(lobes(311, 0.7), placementMatrix(30, -70, turnDeg)).map(
          (value) => value + noise(),
        );
        const match = matchRing(lobes(180, 0.7), target);
        expect(match).not.toBeNull();
        expect(residue(match!.turnDeg - turnDeg)).toBeLessThan(0.3);
        expect(match!.errorMm).toBeLessThan(0.5);
      },
    ),
    { seed: 5, numRuns: 15 },
  );
});

test('a guide drawn 0.8 mm inside its part is found, with its inset', () => {
  const square = Float64Array.of(0, 0, 60, 0, 60, 25, 0, 25);
  const inside = Float64Array.of(0.8, 0.8, 59.2, 0.8, 59.2, 24.2, 0.8, 24.2);
  const match = matchRing(square, transformRing(inside, placementMatrix(12, 5, 30)));
  expect(match).not.toBeNull();
  expect(match!.insetMm).toBeCloseTo(0.8, 1);
  expect(residue(match!.turnDeg - 30)).toBeLessThan(0.01);
});

test('other outlines are refused: another lobe, another size, a mirror image', () => {
  const ring = lobes(180, 0.7);
  expect(matchRing(ring, lobes(180, 1.3))).toBeNull();
  expect(matchRing(ring, lobes(180, 0.7, 43))).toBeNull();
  const mirrored = transformRing(ring, placementMatrix(0, 0, 40, true));
  expect(matchRing(ring, mirrored)).toBeNull();
  expect(matchRing(ring, mirrored, { ...DEFAULT_MATCH_RULES, mayMirror: true })?.mirrored).toBe(true);
});

test('a symmetric outline takes the smallest turn', () => {
  const square = Float64Array.of(0, 0, 30, 0, 30, 30, 0, 30);
  const match = matchRing(square, transformRing(square, placementMatrix(100, 0, 90)));
  expect(residue(match!.turnDeg)).toBeLessThan(1e-6);
  const circle = Float64Array.from(
    { length: 128 },
    (_, i) => 20 * (i % 2 === 0 ? Math.cos((Math.PI * i) / 64) : Math.sin((Math.PI * (i - 1)) / 64)),
  );
  expect(matchRing(circle, transformRing(circle, placementMatrix(7, 7, 33)))?.errorMm).toBeLessThan(0.05);
});
