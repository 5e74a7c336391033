import { describe, expect, it } from 'vitest';
import { EDGE, edgeRecords, isInsideEdges, squaredToEdge } from '../field/edges.ts';
import { seededRandom } from '../search/random.ts';
import { fillDistances } from './distance-grid.ts';

describe('a grid of distances', () => {
  it('tells at every node what all edges tell, holes and notches included', () => {
    const random = seededRandom('grid');
    for (let round = 0; round < 4; round++) {
      const ring = (n: number, least: number, spread: number, way: 1 | -1) =>
        Float64Array.from(
          Array.from({ length: n }, (_, v) => {
            const angle = (way * 2 * Math.PI * v) / n;
            const radius = least + spread * random();
            return [radius * Math.cos(angle), radius * Math.sin(angle)];
          }).flat(),
        );
      const records = edgeRecords([ring(40, 8, 6, 1), ring(17, 3, 3, -1)]);
      const frame = { x0: -16, y0: -16, stepX: 0.8, stepY: 0.9, columns: 40, rows: 36 };
      const out = new Float32Array(5 + 40 * 36);
      fillDistances(records, frame, out, 5);
      const count = records.length / EDGE;
      let inside = 0;
      for (let row = 0; row < 36; row++) {
        for (let column = 0; column < 40; column++) {
          const [x, y] = [-16 + 0.8 * column, -16 + 0.9 * row];
          let least = Infinity;
          for (let e = 0; e < count; e++) least = Math.min(least, squaredToEdge(records, e * EDGE, x, y));
          const sign = isInsideEdges(records, 0, count, x, y) ? 1 : -1;
          if (sign > 0) inside++;
          expect(out[5 + row * 40 + column]).toBeCloseTo(sign * Math.sqrt(least), 4);
        }
      }
      expect(inside).toBeGreaterThan(150);
    }
  });
});
