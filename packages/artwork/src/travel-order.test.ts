import { contourArea, contourEnd, contourLength } from '@underlap/geometry/contour';
import type { Contour } from '@underlap/geometry/curve';
import type { Point } from '@underlap/geometry/point';
import seedrandom from 'seedrandom';
import { describe, expect, it } from 'vitest';
import type { SheetPath } from './sheet-drawing.ts';
import { inTravelOrder } from './travel-order.ts';

const ORIGIN = { x: 0, y: 0 };

/** Length travelled with the beam off from `from` through the paths in their order, mm. */
function travelLength(paths: readonly SheetPath[], from: Point): number {
  let sum = 0;
  let at = from;
  for (const { contour } of paths) {
    sum += Math.hypot(contour.start.x - at.x, contour.start.y - at.y);
    at = contourEnd(contour);
  }
  return sum;
}

function square(x: number, y: number, side: number, pieceId: string): SheetPath {
  const corners = [
    { x, y },
    { x: x + side, y },
    { x: x + side, y: y + side },
    { x, y: y + side },
  ];
  const contour: Contour = {
    start: corners[0]!,
    segments: [...corners.slice(1), corners[0]!].map((to) => ({ kind: 'line', to })),
    closed: true,
  };
  return { process: 'cut-outer', pieceId, contour };
}

function stroke(x: number, y: number, dx: number, dy: number): SheetPath {
  const contour: Contour = {
    start: { x, y },
    segments: [{ kind: 'line', to: { x: x + dx, y: y + dy } }],
    closed: false,
  };
  return { process: 'score', pieceId: 'a#1', contour };
}

function randomPaths(seed: string, count: number): SheetPath[] {
  const random = seedrandom(seed);
  return Array.from({ length: count }, (_, i) => {
    const [x, y] = [500 * random(), 300 * random()];
    return random() < 0.5 ? square(x, y, 5 + 20 * random(), `p${i}#1`) : stroke(x, y, 30 * random(), 30 * random());
  });
}

describe('travel order', () => {
  it('runs every path once, with its length and area', () => {
    const paths = randomPaths('whole', 60);
    const ordered = inTravelOrder(paths, ORIGIN);
    const measures = (all: readonly SheetPath[]) =>
      all
        .map(
          ({ contour }) =>
            `${contourLength(contour).toFixed(6)} ${contour.closed ? contourArea(contour).toFixed(6) : ''}`,
        )
        .sort();
    expect(measures(ordered)).toEqual(measures(paths));
  });

  it('is far shorter than the order of drawing', () => {
    const paths = randomPaths('short', 80);
    expect(travelLength(inTravelOrder(paths, ORIGIN), ORIGIN)).toBeLessThan(0.3 * travelLength(paths, ORIGIN));
  });

  it('is the shortest of all orders, directions and starting points for eight paths, or near it', () => {
    let sum = 0;
    for (let k = 0; k < 40; k++) {
      const paths = randomPaths(`small-${k}`, 8);
      const best = shortestOf(paths);
      const ratio = travelLength(inTravelOrder(paths, ORIGIN), ORIGIN) / best;
      expect(ratio).toBeGreaterThanOrEqual(1 - 1e-9);
      expect(ratio).toBeLessThan(1.12);
      sum += ratio;
    }
    expect(sum / 40).toBeLessThan(1.02);
  });

  // The bound of Held and Karp (1970), by subgradient steps: no way through all points is shorter.
  it('is within 5 % of a proven bound for 250 points', () => {
    for (const seed of ['bound-1', 'bound-2']) {
      const random = seedrandom(seed);
      const points = Array.from({ length: 250 }, () => ({ x: 500 * random(), y: 300 * random() }));
      const paths = points.map(({ x, y }) => stroke(x, y, 0, 0));
      const length = travelLength(inTravelOrder(paths, ORIGIN), ORIGIN);
      const bound = heldKarpBound([ORIGIN, ...points]);
      expect(length).toBeGreaterThanOrEqual(bound);
      expect(length / bound).toBeLessThan(1.05);
    }
  });

  it('goes through 6,000 paths once, far shorter than strip by strip', () => {
    const random = seedrandom('many');
    const paths = Array.from({ length: 6000 }, () => stroke(1000 * random(), 600 * random(), 0, 0));
    const ordered = inTravelOrder(paths, ORIGIN);
    expect(new Set(ordered).size).toBe(6000);
    // Random points in an area A: the best tour nears 0.7124 sqrt(n A) (Johnson and McGeoch 1996; value from memory); strips 0.92.
    expect(travelLength(ordered, ORIGIN)).toBeLessThan(1.1 * 0.7124 * Math.sqrt(6000 * 600_000));
  });

  it('is the same whatever ties there are, run after run', () => {
    const grid = Array.from({ length: 36 }, (_, i) => square((i % 6) * 20, Math.floor(i / 6) * 20, 10, `p${i}#1`));
    const order = () => inTravelOrder(grid, ORIGIN).map(({ pieceId }) => pieceId);
    expect(order()).toEqual(order());
    // To and fro along the rows, each square entered at the same corner, would be 35 ways of 20 mm.
    expect(travelLength(inTravelOrder(grid, ORIGIN), ORIGIN)).toBeLessThan(35 * 20);
  });
});

/** The best of all orders, directions and starting corners: Held and Karp's dynamic programme over sets of paths. */
function shortestOf(paths: readonly SheetPath[]): number {
  const ways = paths.flatMap(({ contour }, path) => {
    const ends = [contour.start, ...contour.segments.map(({ to }) => to)];
    return contour.closed
      ? ends.slice(1).map((at) => ({ path, at, out: at }))
      : [
          { path, at: ends[0]!, out: ends.at(-1)! },
          { path, at: ends.at(-1)!, out: ends[0]! },
        ];
  });
  const apart = (a: { x: number; y: number }, b: { x: number; y: number }) => Math.hypot(a.x - b.x, a.y - b.y);
  const full = 2 ** paths.length - 1;
  const cost = Array.from({ length: full + 1 }, () => new Float64Array(ways.length).fill(Infinity));
  ways.forEach((way, k) => {
    cost[2 ** way.path]![k] = apart(ORIGIN, way.at);
  });
  for (let set = 1; set <= full; set++) {
    ways.forEach((last, k) => {
      const sum = cost[set]![k]!;
      if (sum === Infinity) return;
      ways.forEach((next, j) => {
        if ((set >> next.path) % 2 === 1) return;
        const more = set + 2 ** next.path;
        cost[more]![j] = Math.min(cost[more]![j]!, sum + apart(last.out, next.at));
      });
    });
  }
  return Math.min(...cost[full]!);
}

/**
 * Lower bound for a way from the first point through all others. The way is a tree with degree 1 at its ends and 2 elsewhere, so
 * under prices at the points it costs, prices included, at least the least spanning tree; its own prices are taken off again,
 * the cheapest point standing for the unknown end. The prices follow the tree's degrees (subgradient steps).
 */
function heldKarpBound(points: readonly { x: number; y: number }[]): number {
  const n = points.length;
  const price = new Float64Array(n);
  let best = 0;
  const rounds = 500;
  for (let round = 0; round < rounds; round++) {
    const { length, degree } = leastTree(points, price);
    let end = 1;
    for (let i = 2; i < n; i++) if (price[i]! < price[end]!) end = i;
    const wanted = (i: number) => (i === 0 || i === end ? 1 : 2);
    let bound = length;
    for (let i = 0; i < n; i++) bound -= price[i]! * wanted(i);
    best = Math.max(best, bound);
    const step = 3 * (1 - round / rounds) ** 2;
    for (let i = 0; i < n; i++) price[i] = price[i]! + step * (degree[i]! - wanted(i));
  }
  return best;
}

/** Prim's algorithm with the price of both ends on every edge. */
function leastTree(points: readonly { x: number; y: number }[], price: Float64Array) {
  const n = points.length;
  const degree = new Int32Array(n);
  const near = new Float64Array(n).fill(Infinity);
  const by = new Int32Array(n).fill(-1);
  const isIn = new Uint8Array(n);
  let length = 0;
  let at = 0;
  isIn[0] = 1;
  for (let k = 1; k < n; k++) {
    let next = -1;
    for (let i = 0; i < n; i++) {
      if (isIn[i] === 1) continue;
      const d = Math.hypot(points[i]!.x - points[at]!.x, points[i]!.y - points[at]!.y) + price[i]! + price[at]!;
      if (d < near[i]!) {
        near[i] = d;
        by[i] = at;
      }
      if (next < 0 || near[i]! < near[next]!) next = i;
    }
    length += near[next]!;
    degree[next] = degree[next]! + 1;
    degree[by[next]!] = degree[by[next]!]! + 1;
    isIn[next] = 1;
    at = next;
  }
  return { length, degree };
}
