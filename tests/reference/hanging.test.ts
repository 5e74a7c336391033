import 'jsts/org/locationtech/jts/monkey.js';
import type { Region } from '@underlap/geometry/region';
import type { Ring } from '@underlap/geometry/ring';
import { massOf } from '@underlap/shop/hanging';
import type { BuildPlace } from '@underlap/stack/levels';
import WKTReader from 'jsts/org/locationtech/jts/io/WKTReader.js';
import seedrandom from 'seedrandom';
import { expect, it } from 'vitest';
import type { JstsGeometry } from '../support/jsts-geometry.ts';

const reader = new WKTReader();
const random = seedrandom('hanging');

/** A star-shaped outline about a point, so that nothing crosses. */
function outline(x: number, y: number, from: number, to: number, sign: 1 | -1): Ring {
  const count = 9;
  const points = Array.from({ length: count }, (_, k) => {
    const angle = (sign * 2 * Math.PI * k) / count;
    const r = from + (to - from) * random();
    return [x + r * Math.cos(angle), y + r * Math.sin(angle)];
  });
  return Float64Array.from(points.flat());
}

function jstsOf({ outer, holes }: Region): JstsGeometry {
  const ring = (points: Ring) => {
    const pairs: string[] = [];
    for (let i = 0; i <= points.length; i += 2)
      pairs.push(`${points[i % points.length]} ${points[(i + 1) % points.length]}`);
    return `(${pairs.join(', ')})`;
  };
  return reader.read(`POLYGON (${[outer, ...holes].map(ring).join(', ')})`);
}

// jsts 2.12: area and centroid of every polygon, weighed by hand.
it('mass and its centre agree with an independent library, with thicknesses and densities of their own', () => {
  for (let round = 0; round < 20; round++) {
    const parts = Array.from({ length: 5 }, (_, index) => {
      const [x, y] = [300 * random(), 200 * random()];
      const region = { outer: outline(x, y, 40, 90, 1), holes: index % 2 === 0 ? [outline(x, y, 10, 30, -1)] : [] };
      return { id: `part-${index}`, region, thickness: 2 + 10 * random(), density: 400 + 500 * random() };
    });
    const by = (id: string) => parts.find((part) => part.id === id)!;
    // Of a place only the part's face and whether its place is known matter here.
    const places = parts.map(
      ({ id, region }) => ({ part: { id, region, place: 'assembled' } }) as unknown as BuildPlace,
    );
    const mass = massOf(
      places,
      (id) => by(id).thickness,
      (id) => by(id).density,
    )!;
    let [kg, x, y] = [0, 0, 0];
    for (const part of parts) {
      const outside = jstsOf(part.region);
      const own = (outside.getArea() * part.thickness * part.density) / 1e9;
      kg += own;
      x += own * outside.getCentroid().getX();
      y += own * outside.getCentroid().getY();
    }
    expect(mass.kg).toBeCloseTo(kg, 9);
    expect(mass.centre.x).toBeCloseTo(x / kg, 6);
    expect(mass.centre.y).toBeCloseTo(y / kg, 6);
    // A faulty twin: with one thickness for all the centre lies elsewhere.
    const twin = massOf(
      places,
      () => 6,
      (id) => by(id).density,
    )!;
    expect(Math.hypot(twin.centre.x - x / kg, twin.centre.y - y / kg)).toBeGreaterThan(1e-3);
  }
});
