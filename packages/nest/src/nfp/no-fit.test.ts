import type { Region } from '@underlap/geometry/region';
import { isInRegion, regionArea } from '@underlap/geometry/region';
import { type Ring, ringArea } from '@underlap/geometry/ring';
import seedrandom from 'seedrandom';
import { describe, expect, it } from 'vitest';
import { isConvexRing } from './convex.ts';
import { convolutionCycles } from './convolution.ts';
import { keyholeRing } from './keyhole.ts';
import { noFit } from './no-fit.ts';
import { reflectedRing, turnedRegion, turnedRing } from './turned.ts';

type Random = () => number;

/** A star-shaped ring: radii at random at increasing angles, so simple and counter-clockwise. */
function randomRing(random: Random, vertices: number, rough: number, size: number): Ring {
  const ring = new Float64Array(2 * vertices);
  for (let v = 0; v < vertices; v++) {
    const angle = (2 * Math.PI * (v + 0.8 * random())) / vertices;
    const radius = size * (1 - rough * random());
    ring[2 * v] = radius * Math.cos(angle);
    ring[2 * v + 1] = radius * Math.sin(angle);
  }
  return ring;
}

function randomRegion(random: Random, withHole: boolean): Region {
  const outer = randomRing(random, (withHole ? 7 : 3) + Math.floor(random() * 9), withHole ? 0.3 : 0.8, 10);
  if (!withHole) return { outer, holes: [] };
  const hole = randomRing(random, 3 + Math.floor(random() * 4), 0.4, 4);
  const reversed = Array.from({ length: hole.length / 2 }, (_, v) => [
    hole[hole.length - 2 - 2 * v]!,
    hole[hole.length - 1 - 2 * v]!,
  ]).flat();
  return { outer, holes: [Float64Array.from(reversed)] };
}

/** Winding number of closed rings about a point. */
function winding(rings: readonly Ring[], x: number, y: number): number {
  let total = 0;
  for (const ring of rings) {
    const n = ring.length;
    for (let i = 0; i < n; i += 2) {
      const ax = ring[i]!;
      const ay = ring[i + 1]!;
      const bx = ring[(i + 2) % n]!;
      const by = ring[(i + 3) % n]!;
      const cross = (bx - ax) * (y - ay) - (by - ay) * (x - ax);
      if (ay <= y && by > y && cross > 0) total++;
      if (ay > y && by <= y && cross < 0) total--;
    }
  }
  return total;
}

/** Do the interiors meet? Edges that cross, or a vertex of one inside the other. Independent of the no-fit code. */
function overlap(a: Region, b: Region, x: number, y: number): boolean {
  const ringsA = [a.outer, ...a.holes];
  const ringsB = [b.outer, ...b.holes].map((ring) => ring.map((value, i) => value + (i % 2 === 0 ? x : y)));
  const moved: Region = { outer: ringsB[0]!, holes: ringsB.slice(1) };
  for (const p of ringsA) {
    for (const q of ringsB) {
      for (let i = 0; i < p.length; i += 2) {
        for (let j = 0; j < q.length; j += 2) {
          const [ax, ay, bx, by] = [p[i]!, p[i + 1]!, p[(i + 2) % p.length]!, p[(i + 3) % p.length]!];
          const [cx, cy, dx, dy] = [q[j]!, q[j + 1]!, q[(j + 2) % q.length]!, q[(j + 3) % q.length]!];
          const s = (ox: number, oy: number, px: number, py: number, rx: number, ry: number) =>
            (px - ox) * (ry - oy) - (py - oy) * (rx - ox);
          if (
            s(ax, ay, bx, by, cx, cy) * s(ax, ay, bx, by, dx, dy) < 0 &&
            s(cx, cy, dx, dy, ax, ay) * s(cx, cy, dx, dy, bx, by) < 0
          ) {
            return true;
          }
        }
      }
    }
  }
  return (
    isInRegion(a, moved.outer[0]!, moved.outer[1]!) ||
    isInRegion(moved, a.outer[0]!, a.outer[1]!) ||
    // A piece right around another's hole: no crossing, no outer vertex inside, but a hole vertex may be.
    moved.holes.some((hole) => isInRegion(a, hole[0]!, hole[1]!)) ||
    a.holes.some((hole) => isInRegion(moved, hole[0]!, hole[1]!))
  );
}

/** Share of random translations where the rings and the brute-force overlap disagree. */
function disagreements(a: Region, b: Region, rings: readonly Ring[], random: Random, count: number): number {
  let wrong = 0;
  for (let k = 0; k < count; k++) {
    const x = (random() * 2 - 1) * 21;
    const y = (random() * 2 - 1) * 21;
    if ((winding(rings, x, y) !== 0) !== overlap(a, b, x, y)) wrong++;
  }
  return wrong;
}

describe('noFit', () => {
  it('agrees with brute-force overlap for random concave regions, with and without holes', () => {
    const random = seedrandom('no-fit');
    let wrong = 0;
    for (let k = 0; k < 60; k++) {
      const a = randomRegion(random, k % 3 === 1);
      const b = randomRegion(random, k % 3 === 2);
      wrong += disagreements(a, b, noFit(a, b).rings, random, 200);
    }
    expect(wrong).toBe(0);
  });

  it('faulty twin: without the reflection the same comparison finds faults', () => {
    const random = seedrandom('no-fit-twin');
    let wrong = 0;
    for (let k = 0; k < 10; k++) {
      const a = randomRegion(random, false);
      const b = randomRegion(random, false);
      const mirrored: Region = { outer: reflectedRing(b.outer), holes: [] };
      wrong += disagreements(a, b, noFit(a, mirrored).rings, random, 200);
    }
    expect(wrong).toBeGreaterThan(20);
  });

  it('finds the places of a small piece inside a hole', () => {
    const frame: Region = {
      outer: Float64Array.of(0, 0, 10, 0, 10, 10, 0, 10),
      holes: [Float64Array.of(2, 2, 2, 8, 8, 8, 8, 2)],
    };
    const square: Region = { outer: Float64Array.of(0, 0, 2, 0, 2, 2, 0, 2), holes: [] };
    const { rings } = noFit(frame, square);
    expect(rings).toHaveLength(2);
    expect(rings.reduce((sum, ring) => sum + ringArea(ring), 0)).toBeCloseTo(12 * 12 - 4 * 4, 5);
    expect(winding(rings, 4, 4)).toBe(0);
    expect(winding(rings, 1, 4)).not.toBe(0);
  });

  it('closes its cycles when many edges are parallel, and survives turns of the whole', () => {
    const comb: Region = {
      outer: Float64Array.of(0, 0, 9, 0, 9, 5, 7, 5, 7, 2, 5, 2, 5, 5, 3, 5, 3, 2, 0, 2),
      holes: [],
    };
    for (const turn of [0, 90, 180, 270, 17.3]) {
      const a = turnedRegion(comb, turn);
      const upright = noFit(comb, comb);
      const turned = noFit(a, a);
      const area = (rings: readonly Ring[]) => rings.reduce((sum, ring) => sum + ringArea(ring), 0);
      expect(area(turned.rings)).toBeCloseTo(area(upright.rings), 3);
    }
  });

  it('has, for convex pairs, the area of the sum: A + B + mixed area', () => {
    const square: Region = { outer: Float64Array.of(0, 0, 2, 0, 2, 2, 0, 2), holes: [] };
    const tall: Region = { outer: Float64Array.of(0, 0, 1, 0, 1, 5, 0, 5), holes: [] };
    const shape = noFit(square, tall);
    expect(shape.isConvex).toBe(true);
    expect(ringArea(shape.rings[0]!)).toBeCloseTo(3 * 7, 12);
    expect(shape.rings[0]!.length).toBe(8);
  });
});

describe('reversed pairs', () => {
  it('are reflections: NFP(b, a, k) = -R(k) NFP(a, b, -k)', () => {
    const random = seedrandom('table');
    for (const turn of [0, 90, 180, 33]) {
      const a = randomRegion(random, false);
      const b = randomRegion(random, false);
      const { rings } = noFit(a, turnedRegion(b, -turn));
      const reversed = rings.map((ring) => turnedRing(ring, turn + 180));
      expect(disagreements(b, turnedRegion(a, turn), reversed, random, 300)).toBe(0);
      // Faulty twin: without the half turn the rings are wrong.
      const wrong = rings.map((ring) => turnedRing(ring, turn));
      expect(disagreements(b, turnedRegion(a, turn), wrong, random, 300)).toBeGreaterThan(0);
    }
  });
});

describe('convolutionCycles', () => {
  it('winds positively inside the sum and nowhere negatively', () => {
    const random = seedrandom('winding');
    for (let k = 0; k < 20; k++) {
      const a = randomRegion(random, false);
      const b = randomRegion(random, false);
      const cycles = convolutionCycles(a.outer, reflectedRing(b.outer));
      for (let p = 0; p < 100; p++) {
        const x = (random() * 2 - 1) * 21;
        const y = (random() * 2 - 1) * 21;
        const turns = winding(cycles, x, y);
        expect(turns).toBeGreaterThanOrEqual(0);
        expect(turns > 0).toBe(overlap(a, b, x, y));
      }
    }
  });
});

describe('keyholeRing', () => {
  it('keeps the net area with several holes', () => {
    const square = (x: number, y: number) => Float64Array.of(x, y, x, y + 1, x + 1, y + 1, x + 1, y);
    const region: Region = {
      outer: Float64Array.of(0, 0, 10, 0, 10, 10, 0, 10),
      holes: [square(1, 1), square(3, 1), square(5, 1), square(3, 4), square(7, 7)],
    };
    expect(ringArea(keyholeRing(region))).toBeCloseTo(regionArea(region), 12);
  });
});

describe('isConvexRing', () => {
  it('tells a star that turns twice from a convex ring', () => {
    const twice = Array.from({ length: 5 }, (_, k) => [
      Math.cos((4 * Math.PI * k) / 5),
      Math.sin((4 * Math.PI * k) / 5),
    ]);
    expect(isConvexRing(Float64Array.from(twice.flat()))).toBe(false);
    expect(isConvexRing(Float64Array.of(0, 0, 1, 0, 2, 0, 2, 2, 0, 2))).toBe(true);
    expect(isConvexRing(Float64Array.of(0, 0, 2, 0, 1, 0.5, 2, 2, 0, 2))).toBe(false);
  });
});
