import { isInRing, type Ring } from '@underlap/geometry/ring';
import seedrandom from 'seedrandom';
import { describe, expect, it } from 'vitest';
import { noFit } from '../nfp/no-fit.ts';
import { FieldStore } from './field-store.ts';

/** Signed distance to rings, positive inside, by looking at every edge. Written apart from the fields. */
function directDepth(rings: readonly Ring[], x: number, y: number): number {
  let least = Infinity;
  let inside = false;
  for (const ring of rings) {
    if (isInRing(ring, x, y)) inside = !inside;
    for (let i = 0; i < ring.length; i += 2) {
      const j = (i + 2) % ring.length;
      const dx = ring[j]! - ring[i]!;
      const dy = ring[j + 1]! - ring[i + 1]!;
      const t = Math.min(1, Math.max(0, ((x - ring[i]!) * dx + (y - ring[i + 1]!) * dy) / (dx * dx + dy * dy)));
      least = Math.min(least, Math.hypot(x - ring[i]! - t * dx, y - ring[i + 1]! - t * dy));
    }
  }
  return inside ? least : -least;
}

const ell = Float64Array.of(0, 0, 8, 0, 8, 3, 3, 3, 3, 8, 0, 8);
const hook = Float64Array.of(0, 0, 6, 0, 6, 6, 3, 6, 3, 4.5, 4.5, 4.5, 4.5, 1.5, 0, 2);
const kite = Float64Array.of(0, 0, 3, -1, 5, 4, 1, 3);
const region = (outer: Ring) => ({ outer, holes: [] });

describe('FieldStore', () => {
  const pairs = [
    { name: 'concave pair', shape: noFit(region(ell), region(hook)), box: 16 },
    { name: 'convex pair', shape: noFit(region(kite), region(kite)), box: 12 },
  ];
  for (const { name, shape, box } of pairs) {
    for (const clearance of [0, 0.7]) {
      it(`tells the depth of a ${name} with clearance ${clearance}`, () => {
        const store = new FieldStore();
        const id = store.add(shape, clearance);
        const random = seedrandom(`${name} ${clearance}`);
        const cell = (2 * box) / 32;
        let near = 0;
        for (let k = 0; k < 4000; k++) {
          const x = (random() * 2 - 1) * box;
          const y = (random() * 2 - 1) * box;
          const signed = directDepth(shape.rings, x, y);
          const expected = Math.max(0, signed + clearance);
          const got = store.depth(id, x, y);
          // Deep inside, cells interpolate; near the boundary and outside the value is exact.
          const isDeep = !shape.isConvex && signed > 0;
          expect(Math.abs(got - expected)).toBeLessThan(isDeep ? cell : 1e-6);
          if (Math.abs(signed) < cell) near++;
          const contact = store.contact(id, x, y, { depth: 0, nx: 0, ny: 0 });
          expect(Math.abs(contact.depth - (signed + clearance))).toBeLessThan(1e-6);
          // With clearance, the way out of a notch may be longer than the depth says.
          if (contact.depth > 1e-3 && (clearance === 0 || shape.isConvex)) {
            const step = contact.depth * 1.001;
            expect(directDepth(shape.rings, x + step * contact.nx, y + step * contact.ny)).toBeLessThan(
              1e-6 - clearance,
            );
          }
        }
        expect(near).toBeGreaterThan(200);
      });
    }
  }

  it('faulty twin: a wrong clearance is noticed by the same comparison', () => {
    const shape = pairs[0]!.shape;
    const store = new FieldStore();
    const id = store.add(shape, 0.7 + 1e-3);
    const random = seedrandom('twin');
    let wrong = 0;
    for (let k = 0; k < 2000; k++) {
      const x = (random() * 2 - 1) * 16;
      const y = (random() * 2 - 1) * 16;
      const signed = directDepth(shape.rings, x, y);
      if (Math.abs(signed) < 0.5 && Math.abs(store.depth(id, x, y) - Math.max(0, signed + 0.7)) > 1e-6) wrong++;
    }
    expect(wrong).toBeGreaterThan(50);
  });

  it('lists the boundary lines near a place', () => {
    const shape = noFit(
      region(Float64Array.of(0, 0, 4, 0, 4, 4, 0, 4)),
      region(Float64Array.of(0, 0, 2, 0, 2, 2, 0, 2)),
    );
    const store = new FieldStore();
    const id = store.add(shape, 0.5);
    const lines = new Float64Array(12);
    const fill = store.linesNear(id, 3.9, 1, 0.8, lines, 0, 12);
    expect(fill).toBe(3);
    expect([lines[0], lines[1]]).toEqual([1, -0]);
    expect(lines[2]).toBeCloseTo(0.6, 12);
  });
});
