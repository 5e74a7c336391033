import seedrandom from 'seedrandom';
import { describe, expect, it } from 'vitest';
import { NearIndex } from './near-index.ts';

type Edge = readonly [number, number, number, number];

function distanceTo([ax, ay, bx, by]: Edge, x: number, y: number): number {
  const [dx, dy] = [bx - ax, by - ay];
  const u = Math.min(1, Math.max(0, ((x - ax) * dx + (y - ay) * dy) / (dx * dx + dy * dy)));
  return Math.hypot(x - ax - u * dx, y - ay - u * dy);
}

/** Where the stretch crosses the edge, 0..1 along it; null when it does not. */
function crossing([x0, y0, x1, y1]: Edge, [ax, ay, bx, by]: Edge): number | null {
  const cross = (x1 - x0) * (by - ay) - (y1 - y0) * (bx - ax);
  const u = ((ax - x0) * (by - ay) - (ay - y0) * (bx - ax)) / cross;
  const v = ((ax - x0) * (y1 - y0) - (ay - y0) * (x1 - x0)) / cross;
  return u >= 0 && u <= 1 && v >= 0 && v <= 1 ? u : null;
}

describe('the index of near edges', () => {
  const random = seedrandom('near');
  const edges = Array.from({ length: 120 }, (): Edge => {
    const [x, y, turn] = [600 * random() - 300, 600 * random() - 300, 7 * random()];
    const length = random() < 0.1 ? 400 : 5 + 30 * random();
    return [x, y, x + length * Math.cos(turn), y + length * Math.sin(turn)];
  });
  const index = new NearIndex();
  for (const edge of edges) index.addEdge(...edge);

  it.each([3, 20, 90, 1000])('finds the nearest edge within %d mm as trying all of them does', (within) => {
    for (let i = 0; i < 200; i++) {
      const [x, y] = [800 * random() - 400, 800 * random() - 400];
      const least = Math.min(within, ...edges.map((edge) => distanceTo(edge, x, y)));
      expect(index.distance(x, y, within)).toBeCloseTo(least, 9);
    }
  });

  it('finds every crossing of a straight stretch', () => {
    let met = 0;
    for (let i = 0; i < 60; i++) {
      const stretch: Edge = [500 * random() - 250, 500 * random() - 250, 500 * random() - 250, 500 * random() - 250];
      const all = edges.flatMap((edge) => crossing(stretch, edge) ?? []).sort((a, b) => a - b);
      const found = index.crossings(...stretch).sort((a, b) => a - b);
      expect(found.length).toBe(all.length);
      found.forEach((u, k) => {
        expect(u).toBeCloseTo(all[k]!, 9);
      });
      met += all.length;
    }
    expect(met).toBeGreaterThan(100);
  });

  it('closes rings and leaves polylines open', () => {
    const corners = Float64Array.of(0, 0, 100, 0, 100, 100);
    const [closed, open] = [new NearIndex(), new NearIndex()];
    closed.addRing(corners);
    open.addPolyline(corners);
    expect(closed.size).toBe(3);
    expect(open.size).toBe(2);
    expect(closed.distance(50, 50, 60)).toBeCloseTo(0, 9);
    expect(open.distance(50, 50, 60)).toBeCloseTo(50, 9);
    expect(new NearIndex().distance(0, 0, 5)).toBe(5);
  });
});
