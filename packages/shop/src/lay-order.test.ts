import { buildPlaces } from '@underlap/stack/levels';
import { recogniseParts } from '@underlap/stack/recognise';
import { describe, expect, it } from 'vitest';
import { drawingOf, drawn, rectangle } from '../../stack/testing/fixtures.ts';
import { layOrder } from './lay-order.ts';

type Box = readonly [string, number, number, number, number];

function laid(boxes: readonly Box[], thickness: (id: string) => number = () => 6, classOf = (id: string) => id) {
  const shapes = boxes.map(([id, x, y, w, h], at) =>
    drawn(id, [rectangle(x, y, w, h)], { fill: `#0000${String(10 + at)}` }),
  );
  const sign = recogniseParts(drawingOf(shapes), { mode: 'stacked' });
  return layOrder(buildPlaces(sign, thickness), classOf);
}

const ids = (order: ReturnType<typeof laid>) => order.map(({ place }) => place.part.id);
const enclosed = (order: ReturnType<typeof laid>) =>
  order.filter((one) => one.isEnclosed).map(({ place }) => place.part.id);

const ROW: readonly Box[] = [
  ['backer', 0, 0, 300, 100],
  ['left', 20, 20, 80, 40],
  ['right', 180.2, 20, 80, 40],
  ['middle', 100.1, 20, 80, 40],
];

describe('nothing is squeezed between parts that are down', () => {
  it('lays a row from one end to the other, though its middle was drawn last', () => {
    const order = laid(ROW);
    expect(ids(order)[0]).toBe('backer');
    expect(ids(order).indexOf('middle')).toBe(2);
    expect(enclosed(order)).toEqual([]);
    expect(order[3]!.beside).toEqual(['middle']);
  });

  it('says so where no order helps: an inlay', () => {
    const shapes = [
      drawn('backer', [rectangle(0, 0, 300, 100)], { fill: '#000010' }),
      drawn('frame', [rectangle(20, 20, 100, 60), rectangle(40, 30, 60, 40)], { fill: '#000011', fillRule: 'evenodd' }),
      drawn('inlay', [rectangle(40.1, 30.1, 59.8, 39.8)], { fill: '#000012' }),
    ];
    const sign = recogniseParts(drawingOf(shapes), { mode: 'stacked' });
    const order = layOrder(
      buildPlaces(sign, () => 6),
      (id) => id,
    );
    expect(enclosed(order)).toEqual(['inlay']);
    expect(order.at(-1)!.beside).toEqual(['frame']);
  });

  it('frames an inlay of four pieces without squeezing any', () => {
    const order = laid([
      ['backer', 0, 0, 300, 100],
      ['north', 50, 10, 60, 20],
      ['east', 110.1, 10, 20, 60],
      ['south', 50, 50.1, 60, 20],
      ['west', 29.9, 10, 20, 60],
      ['inlay', 50.1, 30.1, 59.8, 19.8],
    ]);
    expect(enclosed(order)).toEqual([]);
    expect(ids(order).indexOf('inlay')).toBeLessThan(5);
  });

  it('leaves parts alone that only meet at a corner or stand apart', () => {
    const order = laid([
      ['backer', 0, 0, 300, 100],
      ['one', 20, 20, 30, 30],
      ['two', 50.1, 50.1, 30, 30],
      ['three', 90, 20, 30, 30],
    ]);
    expect(order.flatMap(({ beside }) => beside)).toEqual([]);
  });

  it('lays what lies lower first, whatever its layer is called', () => {
    // A thick block carries a roof that reaches over a stack of three thin plates beside it.
    const thick = (id: string) => (id === 'block' ? 30 : 6);
    const order = laid(
      [
        ['backer', 0, 0, 300, 100],
        ['block', 20, 20, 40, 40],
        ['thin-1', 80, 20, 40, 40],
        ['thin-2', 80, 20, 38, 38],
        ['thin-3', 80, 20, 36, 36],
        ['roof', 30, 25, 80, 20],
      ],
      thick,
    );
    expect(order.at(-1)!.place.part.id).toBe('roof');
    const roof = order.at(-1)!.place;
    const last = order.at(-2)!.place;
    expect(last.part.id).toBe('thin-3');
    // By layers alone the roof (2) would have come before the third plate (3), which had to be pushed below it.
    expect(roof.level).toBeLessThan(last.level);
  });

  it('keeps equal parts together', () => {
    const order = laid(
      [
        ['backer', 0, 0, 300, 100],
        ['star', 20, 20, 10, 10],
        ['moon', 60, 20, 20, 10],
        ['starlet', 120, 20, 10, 10],
      ],
      () => 6,
      (id) => (id.startsWith('star') ? 'star' : id),
    );
    expect(ids(order)).toEqual(['backer', 'star', 'starlet', 'moon']);
  });
});
