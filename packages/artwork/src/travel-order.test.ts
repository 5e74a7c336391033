import { contourArea, contourLength } from '@underlap/geometry/contour';
import type { Contour } from '@underlap/geometry/curve';
import seedrandom from 'seedrandom';
import { describe, expect, it } from 'vitest';
import type { SheetPath } from './sheet-drawing.ts';
import { inTravelOrder, travelLength } from './travel-order.ts';

const ORIGIN = { x: 0, y: 0 };

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

  it('comes within 15 % of the best of all orders for six strokes', () => {
    for (const seed of ['a', 'b', 'c', 'd', 'e']) {
      const paths = randomPaths(seed, 6).map((path) =>
        path.contour.closed ? stroke(path.contour.start.x, path.contour.start.y, 9, 4) : path,
      );
      const best = shortestOf(paths);
      expect(travelLength(inTravelOrder(paths, ORIGIN), ORIGIN)).toBeLessThanOrEqual(1.15 * best);
    }
  });

  it('is the same whatever ties there are, run after run', () => {
    const grid = Array.from({ length: 36 }, (_, i) => square((i % 6) * 20, Math.floor(i / 6) * 20, 10, `p${i}#1`));
    const order = () => inTravelOrder(grid, ORIGIN).map(({ pieceId }) => pieceId);
    expect(order()).toEqual(order());
    // To and fro along the rows, each square entered at the same corner, would be 35 ways of 20 mm.
    expect(travelLength(inTravelOrder(grid, ORIGIN), ORIGIN)).toBeLessThan(35 * 20);
  });
});

/** Every order and every direction tried. */
function shortestOf(paths: readonly SheetPath[]): number {
  let best = Infinity;
  const go = (left: readonly SheetPath[], at: { x: number; y: number }, sum: number): void => {
    if (sum >= best) return;
    if (left.length === 0) {
      best = sum;
      return;
    }
    left.forEach((path, i) => {
      const rest = left.filter((_, j) => j !== i);
      const { start, segments } = path.contour;
      const end = segments.at(-1)!.to;
      go(rest, end, sum + Math.hypot(start.x - at.x, start.y - at.y));
      go(rest, start, sum + Math.hypot(end.x - at.x, end.y - at.y));
    });
  };
  go(paths, ORIGIN, 0);
  return best;
}
