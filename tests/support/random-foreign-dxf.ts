import seedrandom from 'seedrandom';
import {
  dxfText,
  type Groups,
  lightPolyline,
  line,
  oldPolyline,
  spline,
} from '../../packages/artwork/testing/dxf-text.ts';

/**
 * A DXF that combines what programs write and dxf-parser reads too: lines, arcs, ellipses, polylines of both kinds with bulges,
 * splines, blocks within blocks that are moved, turned, stretched, mirrored and repeated. The same seed gives the same drawing.
 */
export function randomForeignDxf(seed: string): string {
  const random = seedrandom(seed);
  const number = (low: number, high: number): number => Number((low + random() * (high - low)).toFixed(3));
  const pick = <T>(list: readonly T[]): T => list[Math.floor(random() * list.length)]!;
  const layer = (): string => pick(['PLATES', 'WAVES', 'GULLS']);
  const spots = (count: number, bulge: boolean): number[][] =>
    Array.from({ length: count }, (_, k) => {
      const turn = (2 * Math.PI * k) / count;
      const reach = number(8, 30);
      const at = [Number((reach * Math.cos(turn)).toFixed(3)), Number((reach * Math.sin(turn)).toFixed(3))];
      return bulge && random() < 0.5 ? [...at, number(-0.8, 0.8)] : at;
    });
  const moved = (points: number[][], x: number, y: number): number[][] =>
    points.map(([px, py, ...bulge]) => [Number((px! + x).toFixed(3)), Number((py! + y).toFixed(3)), ...bulge]);
  const entity = (x: number, y: number): Groups =>
    pick<() => Groups>([
      () => line(x, y, x + number(5, 40), y + number(-20, 20), layer()),
      () => [0, 'CIRCLE', 8, layer(), 10, x, 20, y, 40, number(2, 25)],
      () => [0, 'ARC', 8, layer(), 10, x, 20, y, 40, number(4, 25), 50, number(0, 360), 51, number(0, 360)],
      () => {
        const axis = [11, number(5, 20), 21, number(-10, 10)];
        const ends = random() < 0.5 ? [41, 0, 42, 6.283185307] : [41, number(0, 3), 42, number(3.2, 6)];
        return [0, 'ELLIPSE', 8, layer(), 10, x, 20, y, ...axis, 40, number(0.2, 0.95), ...ends];
      },
      () => lightPolyline(moved(spots(5, true), x, y), true, layer()),
      () => lightPolyline(moved(spots(6, true), x, y), false, layer()),
      () => oldPolyline(moved(spots(4, true), x, y), random() < 0.5, layer()),
      () => {
        const controls = moved(spots(7, false), x, y).map(([px, py]) => [px!, py!] as const);
        return spline({ degree: 3, flags: 8, knots: [0, 0, 0, 0, 1, 2, 3, 4, 4, 4, 4], controls });
      },
    ])();
  const insert = (name: string, x: number, y: number): Groups => {
    const turn = random() < 0.6 ? [50, number(0, 360)] : [];
    const sizes = random() < 0.6 ? [41, pick([1, -1, 2, number(0.4, 1.8)]), 42, pick([1, 1, number(0.4, 1.8)])] : [];
    const rows = random() < 0.3 ? [70, 2, 71, 2, 44, 90, 45, 70] : [];
    return [0, 'INSERT', 8, layer(), 2, name, 10, x, 20, y, ...sizes, ...turn, ...rows];
  };
  const blocks = [
    { name: 'BOAT', base: [number(-5, 5), number(-5, 5)] as const, entities: [...entity(0, 0), ...entity(12, 8)] },
    { name: 'FLEET', base: [0, 0] as const, entities: [...insert('BOAT', 10, 10), ...entity(40, 0)] },
  ];
  const places = Array.from({ length: 6 }, (_, k) => [150 * (k % 3), 130 * Math.floor(k / 3)] as const);
  const entities = places.flatMap(([x, y]) => (random() < 0.4 ? insert(pick(['BOAT', 'FLEET']), x, y) : entity(x, y)));
  return dxfText({ header: { $INSUNITS: pick([1, 4, 5]) }, blocks, entities });
}
