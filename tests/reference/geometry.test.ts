import 'jsts/org/locationtech/jts/monkey.js';
import { intersectRegions, regionsFromRings, unionRegions } from '@underlap/geometry/boolean';
import { contourArea, contourLength, segmentPoint } from '@underlap/geometry/contour';
import type { Contour, CubicSegment } from '@underlap/geometry/curve';
import { distanceBetweenRings } from '@underlap/geometry/distance';
import { flattenContour } from '@underlap/geometry/flatten';
import { feasibleTurns, goesInRectangle } from '@underlap/geometry/goes-in-rectangle';
import { offsetRegions } from '@underlap/geometry/offset';
import { offsetShape } from '@underlap/geometry/offset-shape';
import { contourToPathData } from '@underlap/geometry/path-data';
import { type Region, regionsArea } from '@underlap/geometry/region';
import { type Ring, ringArea, ringPerimeter } from '@underlap/geometry/ring';
import { Bezier } from 'bezier-js';
import clipper2 from 'clipper2-wasm';
import WKTReader from 'jsts/org/locationtech/jts/io/WKTReader.js';
import seedrandom from 'seedrandom';
import { svgPathProperties } from 'svg-path-properties';
import { describe, expect, it } from 'vitest';
import type { JstsGeometry } from '../support/jsts-geometry.ts';
import { randomContour } from '../support/random-contour.ts';

function ringText(ring: Ring): string {
  const points: string[] = [];
  for (let i = 0; i <= ring.length; i += 2) points.push(`${ring[i % ring.length]} ${ring[(i + 1) % ring.length]}`);
  return `(${points.join(', ')})`;
}

function toJsts(region: Region): JstsGeometry {
  return new WKTReader().read(`POLYGON (${[region.outer, ...region.holes].map(ringText).join(', ')})`);
}

/** A random curved outline, flattened; the next one when jsts finds that it crosses itself, which offsets and sums must not. */
function randomRegion(seed: number, x: number, y: number): Region {
  for (let attempt = 0; ; attempt++) {
    const random = seedrandom(`geometry-${seed}-${attempt}`);
    const ring = flattenContour(randomContour(random, { x, y }, 60, ['line', 'arc', 'cubic']), 0.05);
    const region = { outer: ring, holes: [] };
    if (toJsts(region).isValid()) return region;
  }
}

function rectangle(width: number, height: number): Ring {
  return Float64Array.of(0, 0, width, 0, width, height, 0, height);
}

describe("Carver's threshold (Amer. Math. Monthly 64, 1957; Wetzel, Math. Magazine 73, 2000; value from memory)", () => {
  /** Least b such that a p x q rectangle fits an a x b one, for p > a >= b and p >= q. */
  const threshold = (p: number, q: number, a: number): number =>
    (2 * p * q * a + (p * p - q * q) * Math.sqrt(p * p + q * q - a * a)) / (p * p + q * q);

  it.each([
    [600, 40, 500],
    [525, 12, 500],
    [900, 3, 820],
    [310, 60, 305],
  ])('a %d x %d part and a bed %d wide: fits just above, not just below', (p, q, a) => {
    const b = threshold(p, q, a);
    expect(b).toBeLessThan(a);
    expect(goesInRectangle(rectangle(p, q), a, b + 0.001)).toBe(true);
    expect(goesInRectangle(rectangle(p, q), a, b - 0.001)).toBe(false);
    // Faulty twin: sampling turns every degree would miss the fit.
    const [turns] = feasibleTurns(rectangle(p, q), a, b + 0.001);
    expect(turns!.toDeg - turns!.fromDeg).toBeLessThan(1);
  });
});

describe('textbook areas', () => {
  it("equal Pick's theorem A = I + B / 2 - 1 for integer polygons", () => {
    const ring = Float64Array.of(0, 0, 7, 1, 9, 6, 4, 4, 1, 8);
    const gcd = (a: number, b: number): number => (b === 0 ? Math.abs(a) : gcd(b, a % b));
    let boundary = 0;
    for (let i = 0; i < ring.length; i += 2) {
      const j = (i + 2) % ring.length;
      boundary += gcd(ring[j]! - ring[i]!, ring[j + 1]! - ring[i + 1]!);
    }
    // Lattice points inside, counted by jsts.
    const polygon = toJsts({ outer: ring, holes: [] });
    let inside = 0;
    for (let x = 0; x <= 9; x++) {
      for (let y = 0; y <= 8; y++) if (polygon.contains(new WKTReader().read(`POINT (${x} ${y})`))) inside += 1;
    }
    expect(ringArea(ring)).toBe(inside + boundary / 2 - 1);
  });

  it('obey Steiner A + P r + pi r^2 when convex shapes grow, exactly for lines and arcs', () => {
    const random = seedrandom('steiner');
    for (let round = 0; round < 20; round++) {
      const width = 10 + 200 * random();
      const height = 10 + 200 * random();
      const outer: Contour = {
        start: { x: 0, y: 0 },
        segments: [
          { kind: 'line', to: { x: width, y: 0 } },
          { kind: 'line', to: { x: width, y: height } },
          { kind: 'line', to: { x: 0, y: height } },
          { kind: 'line', to: { x: 0, y: 0 } },
        ],
        closed: true,
      };
      const r = 20 * random();
      const exact = width * height + 2 * (width + height) * r + Math.PI * r * r;
      const [grown] = offsetShape({ outer, holes: [] }, r);
      expect(contourArea(grown!.outer) / exact).toBeCloseTo(1, 12);
      expect(contourLength(grown!.outer)).toBeCloseTo(2 * (width + height) + 2 * Math.PI * r, 9);
      const polygons = offsetRegions([{ outer: rectangle(width, height), holes: [] }], r);
      expect(Math.abs(regionsArea(polygons) - exact)).toBeLessThan(0.01 * 2 * Math.PI * r);
      // Faulty twin: a distance off by a hundredth breaks the formula visibly.
      expect(Math.abs(contourArea(offsetShape({ outer, holes: [] }, r + 0.01)[0]!.outer) - exact)).toBeGreaterThan(0.1);
    }
  });
});

describe('booleans and distances against jsts 2.12', () => {
  it('agree on 60 random pairs of curved outlines', () => {
    for (let seed = 0; seed < 60; seed++) {
      const a = randomRegion(seed, 0, 0);
      const b = randomRegion(seed + 1000, 20 + seed * 2, 11);
      const first = toJsts(a);
      const second = toJsts(b);
      expect(regionsArea([a])).toBeCloseTo(first.getArea(), 8);
      expect(Math.abs(regionsArea(intersectRegions([a], [b])) - first.intersection(second).getArea())).toBeLessThan(
        1e-3,
      );
      expect(Math.abs(regionsArea(unionRegions([a, b])) - first.union(second).getArea())).toBeLessThan(1e-3);
      const gap = first.getBoundary().distance(second.getBoundary());
      expect(distanceBetweenRings(a.outer, b.outer)).toBeCloseTo(gap, 9);
    }
  });

  it('would notice a vertex moved by a tenth of a millimetre (faulty twin)', () => {
    const a = randomRegion(3, 0, 0);
    const moved = { outer: a.outer.map((value, index) => (index === 0 ? value + 0.1 : value)), holes: [] };
    expect(Math.abs(regionsArea([moved]) - toJsts(a).getArea())).toBeGreaterThan(1e-3);
  });

  it('give valid polygons', () => {
    for (let seed = 0; seed < 30; seed++) {
      for (const distance of [-4, -0.1, 0.1, 4]) {
        for (const region of offsetRegions([randomRegion(seed, 0, 0)], distance))
          expect(toJsts(region).isValid()).toBe(true);
      }
    }
  });
});

describe('offsets and fill rules against clipper2-wasm 0.4', () => {
  it('agree on random outlines, both ways', async () => {
    const library = await clipper2();
    const { JoinType, EndType, FillRule } = library;
    for (let seed = 0; seed < 30; seed++) {
      const region = randomRegion(seed, 0, 0);
      for (const distance of [-8, -1, 0.1, 1, 8]) {
        const paths = new library.PathsD();
        paths.push_back(library.MakePathD([...region.outer]));
        const theirs = library.AreaPathsD(
          library.InflatePathsD(paths, distance, JoinType.Round, EndType.Polygon, 2, 6, 0.005),
        );
        const ours = regionsArea(offsetRegions([region], distance, 0.005));
        expect(Math.abs(ours - theirs)).toBeLessThan(0.006 * ringPerimeter(region.outer));
      }
    }
    // A five-pointed star in one stroke winds twice round its middle.
    const star = Float64Array.from({ length: 10 }, (_, i) => {
      const turn = ((i >> 1) * 4 * Math.PI) / 5;
      return 50 * (i % 2 === 0 ? Math.cos(turn) : Math.sin(turn));
    });
    const paths = new library.PathsD();
    paths.push_back(library.MakePathD([...star]));
    const evenOdd = library.AreaPathsD(library.UnionD(paths, new library.PathsD(), FillRule.EvenOdd, 6));
    const nonZero = library.AreaPathsD(library.UnionD(paths, new library.PathsD(), FillRule.NonZero, 6));
    expect(regionsArea(regionsFromRings([star], 'evenodd'))).toBeCloseTo(evenOdd, 3);
    expect(regionsArea(regionsFromRings([star], 'nonzero'))).toBeCloseTo(nonZero, 3);
    expect(Math.abs(evenOdd - nonZero)).toBeGreaterThan(1);
  });
});

describe('curves against svg-path-properties 1.3 and bezier-js 6.1', () => {
  it('have the same length as the path that is written for them', () => {
    for (let seed = 0; seed < 40; seed++) {
      const contour = randomContour(seedrandom(`length-${seed}`), { x: 300, y: 200 }, 120);
      const theirs = new svgPathProperties(contourToPathData(contour, 8)).getTotalLength();
      expect(contourLength(contour) / theirs).toBeCloseTo(1, 4);
    }
  });

  it('have the same length and points as Bezier curves', () => {
    const random = seedrandom('bezier');
    const point = () => ({ x: 200 * random(), y: 200 * random() });
    for (let round = 0; round < 60; round++) {
      const start = point();
      const cubic: CubicSegment = { kind: 'cubic', c1: point(), c2: point(), to: point() };
      const theirs = new Bezier(start, cubic.c1, cubic.c2, cubic.to);
      // Its quadrature has a fixed order, so that it needs short pieces near cusps.
      let length = 0;
      for (let i = 0; i < 32; i++) length += theirs.split(i / 32, (i + 1) / 32).length();
      expect(contourLength({ start, segments: [cubic], closed: false }) / length).toBeCloseTo(1, 5);
      for (const u of [0.1, 0.5, 0.83]) {
        const ours = segmentPoint(start, cubic, u);
        const other = theirs.get(u);
        expect(Math.hypot(ours.x - other.x, ours.y - other.y)).toBeLessThan(1e-9);
      }
    }
  });
});
