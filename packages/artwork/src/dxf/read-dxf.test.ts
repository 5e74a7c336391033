import { contourEnd } from '@underlap/geometry/contour';
import { describe, expect, it } from 'vitest';
import { area, box, codes, entities, kinds, length, only, read } from '../../testing/dxf-reading.ts';
import { type Groups, lightPolyline, line, oldPolyline, spline } from '../../testing/dxf-text.ts';

describe('entities', () => {
  it('reads a LINE', () => {
    const shape = only(entities(line(0, 0, 30, 40)));
    expect(length(shape)).toBe(50);
    expect(shape.contours[0]!.closed).toBe(false);
  });

  it('reads ARC counter-clockwise from its start angle, also across zero', () => {
    const shape = only(entities([0, 'ARC', 10, 50, 20, 50, 40, 20, 50, 350, 51, 20]));
    expect(length(shape)).toBeCloseTo((20 * 30 * Math.PI) / 180, 9);
    expect(kinds(shape)).toEqual(['arc']);
  });

  it('reads CIRCLE as one closed arc', () => {
    const shape = only(entities([0, 'CIRCLE', 10, 50, 20, 50, 40, 20]));
    expect(area(shape)).toBeCloseTo(400 * Math.PI, 9);
    expect(shape.contours[0]!.segments).toHaveLength(1);
  });

  it('reads ELLIPSE whole and in part', () => {
    const whole = only(entities([0, 'ELLIPSE', 10, 0, 20, 0, 11, 30, 21, 40, 40, 0.5, 41, 0, 42, 2 * Math.PI]));
    expect(area(whole)).toBeCloseTo(50 * 25 * Math.PI, 8);
    const half = entities([
      ...[0, 'ELLIPSE', 10, 0, 20, 0, 11, 50, 21, 0, 40, 0.5, 41, 0, 42, Math.PI],
      ...line(-50, 0, 50, 0),
    ]);
    expect(area(only(half))).toBeCloseTo((50 * 25 * Math.PI) / 2, 8);
    // The upper half, y up: in the drawing (y down) the straight side lies below.
    expect(only(half).contours[0]!.start.y).toBeCloseTo(25, 9);
  });

  it('reads LWPOLYLINE with bulges: a slot of two half circles', () => {
    const slot = lightPolyline(
      [
        [0, 0],
        [40, 0, 1],
        [40, 20],
        [0, 20, 1],
      ],
      true,
    );
    const shape = only(entities(slot));
    expect(area(shape)).toBeCloseTo(800 + 100 * Math.PI, 9);
    expect(kinds(shape)).toEqual(['arc', 'line']);
  });

  it('takes the sign of a bulge: a bite instead of a belly', () => {
    const bite = lightPolyline(
      [
        [0, 0],
        [40, 0, -1],
        [40, 20],
        [0, 20],
      ],
      true,
    );
    expect(area(only(entities(bite)))).toBeCloseTo(800 - 50 * Math.PI, 9);
  });

  it('reads POLYLINE and its VERTEX list, and leaves out the frame of a smoothed one', () => {
    const shape = only(entities(oldPolyline(box, true)));
    expect(area(shape)).toBe(1200);
    const framed = [...oldPolyline(box, true)];
    framed.splice(-4, 0, 0, 'VERTEX', 10, 500, 20, 500, 70, 16);
    expect(area(only(entities(framed)))).toBe(1200);
  });

  it('reads an open polyline that ends where it began as closed', () => {
    const shape = only(entities(lightPolyline([...box, [0, 0]], false)));
    expect(shape.contours[0]!.closed).toBe(true);
    expect(area(shape)).toBe(1200);
  });

  it('reads a cubic SPLINE exactly: one Bezier', () => {
    const bezier = spline({
      degree: 3,
      knots: [0, 0, 0, 0, 1, 1, 1, 1],
      controls: [
        [0, 0],
        [0, 40],
        [40, 40],
        [40, 0],
      ],
    });
    const shape = only(entities(bezier));
    expect(kinds(shape)).toEqual(['cubic']);
    expect(contourEnd(shape.contours[0]!)).toEqual({ x: 40, y: 30 });
    expect(area(shape)).toBeCloseTo(40 * 40 * 0.6, 9);
  });

  it('reads a circle written as a rational SPLINE as arcs', () => {
    const w = Math.SQRT1_2;
    const circle = spline({
      degree: 2,
      flags: 5,
      knots: [0, 0, 0, 1, 1, 2, 2, 3, 3, 4, 4, 4],
      controls: [
        [20, 0],
        [20, 20],
        [0, 20],
        [-20, 20],
        [-20, 0],
        [-20, -20],
        [0, -20],
        [20, -20],
        [20, 0],
      ],
      weights: [1, w, 1, w, 1, w, 1, w, 1],
    });
    const shape = only(entities(circle));
    expect(kinds(shape)).toEqual(['arc']);
    expect(area(shape)).toBeCloseTo(400 * Math.PI, 6);
  });

  it('reads a SPLINE given by fit points through all of them', () => {
    const points = Array.from({ length: 12 }, (_, i) => {
      const turn = (i * Math.PI) / 6;
      return [30 * Math.cos(turn), 30 * Math.sin(turn)] as const;
    });
    const shape = only(entities(spline({ degree: 3, flags: 1, fits: points })));
    expect(shape.contours[0]!.segments).toHaveLength(12);
    // Chord-length interpolation of a circle at 30 degrees is off by about 1e-4 of its area.
    expect(Math.abs(area(shape) / (900 * Math.PI) - 1)).toBeLessThan(1e-3);
  });
});

describe('splines as programs write them', () => {
  it('reads a periodic one: uniform knots, the first controls repeated', () => {
    const ring = Array.from({ length: 8 }, (_, i) => {
      const turn = (i * Math.PI) / 4;
      return [30 * Math.cos(turn), 30 * Math.sin(turn)] as const;
    });
    const controls = [...ring, ...ring.slice(0, 3)];
    const knots = Array.from({ length: controls.length + 4 }, (_, i) => i);
    const shape = only(entities(spline({ degree: 3, flags: 3, knots, controls })));
    expect(shape.contours[0]!.segments).toHaveLength(8);
    expect(shape.contours[0]!.closed).toBe(true);
    // The cubic B-spline of a regular polygon is its circle shrunk to (2 + cos) / 3 at the knots (textbook).
    const reach = 30 * ((2 + Math.cos(Math.PI / 4)) / 3);
    expect(Math.abs(area(shape) / (Math.PI * reach * reach) - 1)).toBeLessThan(2e-3);
  });

  it('reads a quadratic exactly, and a quintic within a millionth of its size', () => {
    const quadratic = spline({
      degree: 2,
      knots: [0, 0, 0, 1, 1, 1],
      controls: [
        [0, 0],
        [30, 60],
        [60, 0],
      ],
    });
    // Area under a parabola: two thirds of base times height, and the arch is half as high as its control point.
    expect(area(only(entities(quadratic)))).toBeCloseTo((2 / 3) * 60 * 30, 9);
    // A straight line from 0 to 60 raised to degree 5, bent up in the middle: y = 60 (10 u^3 (1-u)^2 + 10 u^2 (1-u)^3).
    const controls = Array.from({ length: 6 }, (_, i) => [12 * i, i === 2 || i === 3 ? 60 : 0] as const);
    const quintic = spline({ degree: 5, knots: [0, 0, 0, 0, 0, 0, 1, 1, 1, 1, 1, 1], controls });
    // Integral of y dx with dx = 60 du: 60 * 60 * (10/60 + 10/60) = 1200.
    expect(area(only(entities(quintic)))).toBeCloseTo(1200, 2);
  });

  it('falls back on the fit points when the knots are missing', () => {
    const controls = [
      [0, 0],
      [20, 30],
      [40, 0],
      [60, 30],
    ] as const;
    const shape = only(
      entities(
        spline({
          degree: 3,
          controls,
          fits: [
            [0, 0],
            [30, 15],
            [60, 30],
          ],
        }),
      ),
    );
    expect(contourEnd(shape.contours[0]!)).toEqual({ x: 60, y: 0 });
  });
});

describe('blocks', () => {
  // A right triangle: its mirror image is another one, so orientation shows.
  const triangle = {
    name: 'gull',
    base: [10, 0] as const,
    entities: lightPolyline(
      [
        [10, 0],
        [40, 0],
        [10, 20],
      ],
      true,
    ),
  };
  const insert = (...groups: Groups): Groups => [0, 'INSERT', 2, 'gull', 8, 'birds', ...groups];

  it('moves, turns and scales', () => {
    const drawing = read({ blocks: [triangle], entities: insert(10, 100, 20, 100, 41, 2, 42, 2, 50, 90) });
    const shape = only(drawing);
    expect(area(shape)).toBeCloseTo(1200, 9);
    expect(shape).toMatchObject({ name: 'gull', layer: 'birds' });
    // Legs 60 along +y and 40 along -x (y up): the corner is at the lower right.
    const points = [...shape.contours[0]!.segments].map(({ to }) => to);
    expect(points.map(({ x, y }) => [Math.round(x), Math.round(y)])).toEqual([
      [40, 0],
      [0, 60],
      [40, 60],
    ]);
  });

  it('scales unevenly: a circle becomes an ellipse', () => {
    const blocks = [{ name: 'gull', entities: [0, 'CIRCLE', 10, 0, 20, 0, 40, 10] }];
    const shape = only(read({ blocks, entities: insert(10, 0, 20, 0, 41, 3, 42, 2) }));
    expect(kinds(shape)).toEqual(['ellipse']);
    expect(area(shape)).toBeCloseTo(600 * Math.PI, 9);
  });

  it('nests and repeats in rows and columns', () => {
    const row = { name: 'row', entities: insert(10, 0, 20, 0, 70, 3, 71, 2, 44, 100, 45, 50) };
    const drawing = read({ blocks: [triangle, row], entities: [0, 'INSERT', 2, 'row', 10, 0, 20, 0, 50, 90] });
    expect(drawing.shapes).toHaveLength(6);
    expect(drawing.size).toMatchObject({ widthMm: 70, heightMm: 230 });
  });

  it('looks from behind when the plane is turned over', () => {
    const drawing = read({ blocks: [triangle], entities: insert(10, 0, 20, 0, 230, -1) });
    const points = [...only(drawing).contours[0]!.segments].map(({ to }) => [to.x, to.y]);
    expect(points).toEqual([
      [0, 20],
      [30, 0],
      [30, 20],
    ]);
  });

  it('lets layer 0 and BYBLOCK take after the insert', () => {
    const inner = [...lightPolyline(box, true), 62, 0];
    const drawing = read({
      blocks: [{ name: 'gull', entities: inner }],
      layers: [[2, 'birds', 70, 0, 62, 3]],
      entities: insert(10, 0, 20, 0, 62, 1),
    });
    expect(only(drawing)).toMatchObject({ layer: 'birds', stroke: '#ff0000' });
  });

  it('tells of cycles and missing blocks and reads the rest', () => {
    const loop = { name: 'loop', entities: [0, 'INSERT', 2, 'LOOP', 10, 1, 20, 1, ...lightPolyline(box, true)] };
    const drawing = read({ blocks: [loop], entities: [0, 'INSERT', 2, 'loop', ...insert(10, 0, 20, 0)] });
    expect(drawing.shapes).toHaveLength(1);
    expect(codes(drawing)).toEqual(['circular-reference', 'missing-reference']);
  });

  it('bounds blocks that multiply', () => {
    const levels = Array.from({ length: 12 }, (_, i) => ({
      name: `b${i}`,
      entities: i === 0 ? line(0, 0, 1, 1) : Array.from({ length: 10 }, () => [0, 'INSERT', 2, `b${i - 1}`]).flat(),
    }));
    expect(() => read({ blocks: levels, entities: [0, 'INSERT', 2, 'b11'] })).toThrow(/unfold/);
  });

  it('bounds an array of a million million cells', () => {
    const array = insert(10, 0, 20, 0, 70, 1_000_000, 71, 1_000_000, 44, 1, 45, 1);
    expect(() => read({ blocks: [triangle], entities: array })).toThrow(/unfold/);
  });
});

describe('layers and colours', () => {
  it('takes the layer colour, a colour number or a true colour', () => {
    const drawing = read({
      layers: [[2, 'cut', 70, 0, 62, 5]],
      entities: [
        ...lightPolyline(box, true, 'cut'),
        ...[
          ...lightPolyline(
            box.map(([x = 0, y = 0]) => [x + 100, y]),
            true,
            'cut',
          ),
          62,
          30,
        ],
        ...[
          ...lightPolyline(
            box.map(([x = 0, y = 0]) => [x + 200, y]),
            true,
            'cut',
          ),
          62,
          5,
          420,
          0x123456,
        ],
      ],
    });
    expect(drawing.shapes.map(({ stroke }) => stroke)).toEqual(['#0000ff', '#ff7f00', '#123456']);
  });

  it('leaves out layers that are off or frozen, and says so', () => {
    const drawing = read({
      layers: [
        [2, 'off', 70, 0, 62, -3],
        [2, 'frozen', 70, 1, 62, 3],
      ],
      entities: [...lightPolyline(box, true), ...line(0, 0, 1, 1, 'OFF'), ...line(0, 0, 1, 1, 'frozen')],
    });
    expect(drawing.shapes).toHaveLength(1);
    expect(drawing.complaints.map(({ code, place }) => [code, place.element])).toEqual([
      ['hidden', 'layer OFF'],
      ['hidden', 'layer frozen'],
    ]);
  });
});

describe('true size', () => {
  it.each([
    [1, 25.4],
    [4, 1],
    [5, 10],
    [6, 1000],
  ])('$INSUNITS %i is %f mm', (code, mm) => {
    const drawing = read({ header: { $INSUNITS: code }, entities: lightPolyline(box, true) });
    expect(drawing.size).toEqual({ kind: 'known', widthMm: 40 * mm, heightMm: 30 * mm, source: 'file' });
    expect(area(only(drawing))).toBeCloseTo(1200 * mm * mm, 6);
  });

  it('stays open without a unit: mm or inches, metric first unless the file says imperial', () => {
    const open = read({ header: { $INSUNITS: 0 }, entities: lightPolyline(box, true) });
    expect(open.size).toMatchObject({
      kind: 'open',
      choices: [
        { perInch: 25.4, widthMm: 40 },
        { perInch: 1, widthMm: 1016 },
      ],
    });
    const imperial = read({ header: { $MEASUREMENT: 0 }, entities: lightPolyline(box, true) });
    expect(imperial.size).toMatchObject({ kind: 'open', choices: [{ perInch: 1 }, { perInch: 25.4 }] });
  });

  it('takes the answer: units to the inch where open, a width always', () => {
    const parts = { header: {}, entities: lightPolyline(box, true) };
    expect(read(parts, { perInch: 1 }).size).toMatchObject({ kind: 'known', widthMm: 1016, source: 'user' });
    expect(read({ entities: parts.entities }, { widthMm: 400 }).size).toMatchObject({
      widthMm: 400,
      heightMm: 300,
      source: 'user',
    });
    const stated = read({ entities: parts.entities }, { perInch: 1 });
    expect(stated.size).toMatchObject({ widthMm: 40, source: 'file' });
    expect(codes(stated)).toContain('size-option-unused');
  });

  it('keeps the digits of a drawing far from its origin', () => {
    const far = box.map(([x = 0, y = 0]) => [x + 5_400_000, y + 3_300_000]);
    const shape = only(entities(lightPolyline(far, true)));
    expect(area(shape)).toBeCloseTo(1200, 9);
    expect(shape.contours[0]!.start).toEqual({ x: 0, y: 30 });
  });
});

describe('loose ends', () => {
  const square = (x: number, y: number, side: number): Groups => [
    ...line(x, y, x + side, y),
    ...line(x + side, y + side, x + side, y),
    ...line(x + side, y + side, x, y + side),
    ...line(x, y, x, y + side),
  ];

  it('joins lines drawn in any direction to one closed outline, told as a note', () => {
    const drawing = entities(square(0, 0, 30));
    expect(area(only(drawing))).toBe(900);
    expect(only(drawing).contours[0]!.closed).toBe(true);
    expect(codes(drawing)).toEqual(['joined-ends']);
    expect(drawing.repairs).toEqual([]);
  });

  it('keeps two squares apart that touch in a corner', () => {
    const drawing = entities([...square(0, 0, 30), ...square(30, 30, 20)]);
    expect(drawing.shapes.map(area)).toEqual([900, 400]);
  });

  it('does not join across layers or colours', () => {
    const half = [...line(0, 0, 30, 0, 'a'), ...line(30, 0, 30, 30, 'b'), ...line(30, 30, 0, 0, 'a')];
    expect(entities(half).shapes.every(({ contours }) => !contours[0]!.closed)).toBe(true);
  });

  it('closes a gap within reach as a repair, and refuses to when told', () => {
    const gapped = [...line(0, 0, 30, 0), ...line(30, 0, 30, 30), ...line(30, 30, 0, 30), ...line(0, 30, 0, 0.06)];
    const mended = entities(gapped);
    expect(only(mended).contours[0]!.closed).toBe(true);
    expect(mended.repairs).toHaveLength(1);
    expect(mended.repairs[0]!.sizeMm).toBeCloseTo(0.06, 6);
    const asDrawn = entities(gapped, { repair: false });
    expect(only(asDrawn).contours[0]!.closed).toBe(false);
    expect(asDrawn.repairs).toEqual([]);
  });

  it('drops a line drawn twice, told as a repair', () => {
    const drawing = entities([...square(0, 0, 30), ...line(30, 0, 0, 0)]);
    expect(area(only(drawing))).toBe(900);
    expect(drawing.repairs.map(({ kind }) => kind)).toEqual(['removed-double']);
  });
});
