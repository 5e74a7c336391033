import { contourArea } from '@underlap/geometry/contour';
import { describe, expect, it } from 'vitest';
import { codes, entities, only, read } from '../../testing/dxf-reading.ts';
import type { Groups } from '../../testing/dxf-text.ts';
import type { Drawing } from '../drawing.ts';

/** Groups by hand after the DXF reference, 'HATCH' and 'SOLID'; areas by hand. */

const hatch = (loops: readonly Groups[], solid = 1): Groups => [
  ...[0, 'HATCH', 5, '7A', 8, 'sail', 62, 1, 10, 0, 20, 0, 30, 0, 210, 0, 220, 0, 230, 1],
  ...[2, 'SOLID', 70, solid, 71, 0, 91, loops.length],
  ...loops.flat(),
  ...[75, 0, 76, 1, 98, 1, 10, 5, 20, 5],
];
const polyline = (points: readonly (readonly number[])[], hasBulge = 0): Groups => [
  ...[92, 2, 72, hasBulge, 73, 1, 93, points.length],
  ...points.flatMap(([x = 0, y = 0, bulge = 0]) => [10, x, 20, y, ...(hasBulge === 1 ? [42, bulge] : [])]),
  ...[97, 0],
];
const edges = (...list: Groups[]): Groups => [92, 1, 93, list.length, ...list.flat(), 97, 0];
const lineEdge = (x1: number, y1: number, x2: number, y2: number): Groups => [72, 1, 10, x1, 20, y1, 11, x2, 21, y2];
const area = (drawing: Drawing): number =>
  Math.abs(only(drawing).contours.reduce((sum, contour) => sum + contourArea(contour), 0));
const BOX = [
  [0, 0],
  [40, 0],
  [40, 30],
  [0, 30],
];

describe('solid hatches', () => {
  it('are one filled shape with its gaps', () => {
    const hole = [
      [10, 10],
      [10, 20],
      [20, 20],
      [20, 10],
    ];
    const drawing = entities(hatch([polyline(BOX), polyline(hole)]));
    const shape = only(drawing);
    expect(shape).toMatchObject({ fill: '#ff0000', stroke: null, fillRule: 'evenodd', layer: 'sail', id: 'hatch-7A' });
    expect(shape.contours.map((contour) => Math.abs(contourArea(contour)))).toEqual([1200, 100]);
    expect(codes(drawing)).toEqual([]);
  });

  it.each([
    [
      'bulges: half circles on two sides',
      polyline(
        [
          [0, 0, 0],
          [40, 0, 1],
          [40, 30, 0],
          [0, 30, 1],
        ],
        1,
      ),
      1200 + Math.PI * 225,
    ],
    [
      'lines, one the wrong way round',
      edges(lineEdge(0, 0, 40, 0), lineEdge(40, 30, 40, 0), lineEdge(40, 30, 0, 30), lineEdge(0, 30, 0, 0)),
      1200,
    ],
    [
      'lines, the first the wrong way round',
      edges(lineEdge(40, 0, 0, 0), lineEdge(40, 0, 40, 30), lineEdge(40, 30, 0, 30), lineEdge(0, 30, 0, 0)),
      1200,
    ],
    ['a whole circle', edges([72, 2, 10, 5, 20, 5, 40, 10, 50, 0, 51, 360, 73, 1]), Math.PI * 100],
    [
      'an arc and its chord',
      edges([72, 2, 10, 0, 20, 0, 40, 10, 50, 0, 51, 180, 73, 1], lineEdge(-10, 0, 10, 0)),
      Math.PI * 50,
    ],
    // Clockwise from 0 to 180 degrees measured clockwise: the lower half.
    [
      'a clockwise arc and its chord',
      edges([72, 2, 10, 0, 20, 0, 40, 10, 50, 0, 51, 180, 73, 0], lineEdge(-10, 0, 10, 0)),
      Math.PI * 50,
    ],
    [
      'a quarter, clockwise',
      edges([72, 2, 10, 0, 20, 0, 40, 10, 50, 270, 51, 360, 73, 0], lineEdge(10, 0, 0, 0), lineEdge(0, 0, 0, 10)),
      Math.PI * 25,
    ],
    ['an ellipse', edges([72, 3, 10, 0, 20, 0, 11, 20, 21, 0, 40, 0.5, 50, 0, 51, 360, 73, 1]), Math.PI * 200],
    // A cubic with controls in a square's corners over its base: area 3 / 20 of ... by Green: 3/5 of the square's side squared.
    [
      'a spline and its chord',
      edges(
        [
          72, 4, 94, 3, 73, 0, 74, 0, 95, 8, 96, 4, 40, 0, 40, 0, 40, 0, 40, 0, 40, 1, 40, 1, 40, 1, 40, 1, 10, 0, 20,
          0, 10, 0, 20, 10, 10, 10, 20, 10, 10, 10, 20, 0,
        ],
        lineEdge(10, 0, 0, 0),
      ),
      60,
    ],
  ])('are bounded by %s', (_, loop, wanted) => {
    const drawing = entities(hatch([loop]));
    expect(area(drawing)).toBeCloseTo(wanted, 9);
    expect(codes(drawing).filter((code) => code !== 'unlikely-size')).toEqual([]);
  });

  it('come with their blocks, each a shape of its own', () => {
    const drawing = read({
      blocks: [
        {
          name: 'gull',
          entities: hatch([
            polyline(BOX),
            polyline([
              [5, 5],
              [9, 5],
              [9, 9],
            ]),
          ]),
        },
      ],
      entities: [...[0, 'INSERT', 2, 'gull', 10, 0, 20, 0], ...[0, 'INSERT', 2, 'gull', 10, 100, 20, 0, 41, -1]],
    });
    expect(drawing.shapes.map(({ contours }) => contours.length)).toEqual([2, 2]);
  });

  it('of lines are told, and broken ones', () => {
    const circle: Groups = [0, 'CIRCLE', 8, '0', 10, 50, 20, 50, 40, 30];
    expect(codes(entities([...hatch([polyline(BOX)], 0), ...circle]))).toEqual(['hatch']);
    expect(codes(entities([...hatch([edges([72, 9])]), ...circle]))).toEqual(['broken-shape']);
    expect(codes(entities([...hatch([[92, 2, 93, 9, 10, 1]]), ...circle]))).toEqual(['broken-shape']);
    expect(
      codes(
        entities([
          ...hatch([
            polyline([
              ['x' as unknown as number, 0],
              [1, 1],
              [2, 0],
            ]),
          ]),
          ...circle,
        ]),
      ),
    ).toEqual(['non-finite']);
    expect(codes(entities([...hatch([]), ...circle]))).toEqual(['nothing-drawn']);
  });
});

describe('SOLID and TRACE', () => {
  it('have their last two corners crosswise', () => {
    const corners = [10, 0, 20, 0, 11, 40, 21, 0, 12, 0, 22, 30, 13, 40, 23, 30];
    expect(area(entities([0, 'SOLID', 8, '0', ...corners]))).toBe(1200);
    expect(area(entities([0, 'TRACE', 8, '0', ...corners]))).toBe(1200);
  });

  it('may be triangles, with the last corner left out or said twice', () => {
    const three = [10, 0, 20, 0, 11, 40, 21, 0, 12, 0, 22, 30];
    expect(area(entities([0, 'SOLID', 8, '0', ...three]))).toBe(600);
    expect(area(entities([0, 'SOLID', 8, '0', ...three, 13, 0, 23, 30]))).toBe(600);
  });
});

describe('tilted entities', () => {
  const tilted = (degrees: number): Groups => [
    210,
    0,
    220,
    -Math.sin((degrees * Math.PI) / 180),
    230,
    Math.cos((degrees * Math.PI) / 180),
  ];
  const circle: Groups = [0, 'CIRCLE', 8, '0', 10, 50, 20, 50, 40, 30];
  const plate: Groups = [0, 'CIRCLE', 8, '0', 10, 200, 20, 50, 40, 30];

  it('are read as seen from above, and told, where they are flat but for rounding', () => {
    const drawing = entities([...circle, ...tilted(1)]);
    expect(codes(drawing)).toEqual(['not-flat']);
    expect(area(drawing)).toBeCloseTo(Math.PI * 900 * Math.cos(Math.PI / 180), 6);
  });

  it('are left out and told where they are not', () => {
    expect(codes(entities([...circle, ...tilted(45), ...plate]))).toEqual(['tilted']);
    expect(codes(entities([...circle, ...[210, 1, 220, 0, 230, 0], ...plate]))).toEqual(['tilted']);
  });

  it('are exact where they are level all the same', () => {
    // Normal along -y: the entity's x is world x, its y is world z.
    const drawing = entities([
      0,
      'LWPOLYLINE',
      8,
      '0',
      90,
      2,
      70,
      0,
      38,
      -7,
      10,
      5,
      20,
      3,
      10,
      45,
      20,
      3,
      210,
      0,
      220,
      -1,
      230,
      0,
    ]);
    expect(codes(drawing)).toEqual([]);
    expect(only(drawing).contours[0]!.segments.at(0)!.to.x - only(drawing).contours[0]!.start.x).toBeCloseTo(40, 9);
  });

  it('seen from behind are mirrored, as before', () => {
    expect(codes(entities([...circle, ...[210, 0, 220, 0, 230, -1]]))).toEqual([]);
  });
});
