import { describe, expect, it } from 'vitest';
import { binaryDxfBytes } from '../../packages/artwork/testing/binary-dxf-bytes.ts';
import {
  dxfText,
  type Groups,
  groupsText,
  lightPolyline,
  line,
  oldPolyline,
  spline,
} from '../../packages/artwork/testing/dxf-text.ts';
import { inspected, summary } from '../support/inspected.ts';

/*
 * Drawings in the manner of many programs, read as a whole. Every expected figure is worked out by hand beside its case, from
 * the entities' own measures and the DXF reference's group codes.
 */

interface Case {
  readonly name: string;
  readonly dxf: string | Uint8Array;
  readonly size: string;
  readonly parts: readonly string[];
  readonly mode?: 'stacked' | 'spread';
  readonly marks?: readonly string[];
  readonly told?: readonly string[];
}

const PI = Math.PI;
const round = (value: number): string => String(Number(value.toFixed(2)));
const MM = { $INSUNITS: 4 };

/** Corners of an upright rectangle. */
const corners = (x: number, y: number, width: number, height: number): [number, number][] => [
  [x, y],
  [x + width, y],
  [x + width, y + height],
  [x, y + height],
];
const rect = (x: number, y: number, width: number, height: number, layer = 'cut'): Groups =>
  lightPolyline(corners(x, y, width, height), true, layer);
const mm = (...entities: readonly Groups[]): string => dxfText({ header: MM, entities: entities.flat() });
const block = (entities: Groups, base?: [number, number]) => ({ name: 'B', entities, ...(base && { base }) });

/** The header's version as programs of that year write it. */
function versioned(version: string, unit: number | null, body: Groups): string {
  return groupsText([
    ...[0, 'SECTION', 2, 'HEADER', 9, '$ACADVER', 1, version],
    ...(unit === null ? [] : [9, '$INSUNITS', 70, unit]),
    ...[0, 'ENDSEC', 0, 'SECTION', 2, 'ENTITIES'],
    ...body,
    ...[0, 'ENDSEC', 0, 'EOF'],
  ]);
}

const UNITS: readonly (readonly [number, number])[] = [
  [1, 25.4],
  [2, 304.8],
  [4, 1],
  [5, 10],
  [6, 1000],
  [14, 100],
];

const CASES: readonly Case[] = [
  {
    name: 'R12 with an old polyline',
    // 40 x 30 mm.
    dxf: versioned('AC1009', 4, oldPolyline(corners(10, 10, 40, 30), true)),
    size: '40 x 30',
    parts: ['polyline-1 1200'],
  },
  {
    name: '2018 with subclass marks, handles and extended data',
    dxf: versioned('AC1032', 4, [
      ...[0, 'LWPOLYLINE', 5, '2A', 330, '1F', 100, 'AcDbEntity', 8, 'hull', 100, 'AcDbPolyline', 90, 4, 70, 1, 43, 0],
      ...corners(0, 0, 40, 30).flatMap(([x, y]) => [10, x, 20, y]),
      ...[1001, 'SOMEONE', 1010, 999, 1020, 999, 1040, 5],
    ]),
    size: '40 x 30',
    parts: ['hull 1200'],
  },
  {
    name: 'unitless with $MEASUREMENT alone stays open, metric first',
    dxf: dxfText({ header: { $MEASUREMENT: 1 }, entities: rect(0, 0, 40, 30) }),
    // A unit is 1 mm (25.4 to the inch) or 1 inch.
    size: '40 at 25.4 or 1016 at 1',
    parts: ['cut open'],
  },
  {
    name: 'a block mirrored and turned by negative scale',
    // An L of 20 x 10 less 10 x 5, scaled by -2 and 1: 150 * 2.
    dxf: dxfText({
      header: MM,
      blocks: [
        block(
          lightPolyline(
            [
              [0, 0],
              [20, 0],
              [20, 5],
              [10, 5],
              [10, 10],
              [0, 10],
            ],
            true,
            'cut',
          ),
        ),
      ],
      entities: [0, 'INSERT', 8, '0', 2, 'B', 10, 50, 20, 50, 41, -2, 42, 1, 50, 90],
    }),
    // Turned by a quarter: 40 wide along y.
    size: '10 x 40',
    parts: ['B 300'],
  },
  {
    name: 'blocks in blocks, with base points',
    // A 4 x 4 square about its middle, in a block scaled by 3, in the model by 2: 24 x 24.
    dxf: dxfText({
      header: MM,
      blocks: [
        { name: 'IN', base: [2, 2], entities: rect(0, 0, 4, 4) },
        { name: 'OUT', base: [7, 7], entities: [0, 'INSERT', 8, '0', 2, 'IN', 10, 7, 20, 7, 41, 3, 42, 3] },
      ],
      entities: [...[0, 'INSERT', 8, '0', 2, 'OUT', 10, 100, 20, 100, 41, 2, 42, 2], ...rect(88, 112, 24, 5)],
    }),
    // The square reaches from 88 to 112; the rectangle lies on top of it from y 112 to 117.
    size: '24 x 29',
    parts: ['IN 576', 'cut 120'],
  },
  {
    name: 'a whole block grid with rows and columns',
    dxf: dxfText({
      header: MM,
      blocks: [block(rect(0, 0, 5, 5))],
      entities: [0, 'INSERT', 8, '0', 2, 'B', 10, 0, 20, 0, 70, 3, 71, 2, 44, 10, 45, 20],
    }),
    // Three columns 10 apart, two rows 20 apart.
    size: '25 x 25',
    parts: Array.from({ length: 6 }, () => 'B 25'),
  },
  {
    name: 'bulges: half discs at the ends of a slot',
    // 30 x 10 and a disc of r 5.
    dxf: mm(
      lightPolyline(
        [
          [0, 0],
          [30, 0, 1],
          [30, 10],
          [0, 10, 1],
        ],
        true,
        'cut',
      ),
    ),
    size: '40 x 10',
    parts: [`cut ${round(300 + PI * 25)}`],
  },
  {
    name: 'seen from below: the plane of an arc turned over',
    // From behind x runs the other way: an L of 20 x 10 less 10 x 5 in x from -20 to 0.
    dxf: mm(
      [
        ...lightPolyline(
          [
            [0, 0],
            [20, 0],
            [20, 5],
            [10, 5],
            [10, 10],
            [0, 10],
          ],
          true,
          'cut',
        ),
        210,
        0,
        220,
        0,
        230,
        -1,
      ],
      rect(0, 0, 20, 10),
    ),
    size: '40 x 10',
    parts: ['cut 1 150', 'cut 2 200'],
  },
  {
    name: 'an ellipse in part, closed by a line',
    // Half of 20 by 10: pi * 200 / 2.
    dxf: mm(
      [0, 'ELLIPSE', 8, 'cut', 10, 0, 20, 0, 30, 0, 11, 20, 21, 0, 31, 0, 40, 0.5, 41, 0, 42, PI],
      line(-20, 0, 20, 0, 'cut'),
    ),
    size: '40 x 10',
    parts: [`cut ${round(PI * 100)}`],
    told: ['joined-ends'],
  },
  {
    name: 'a circle as a closed rational spline',
    // Nine controls of degree 2 with weights 1 and 1 / sqrt 2: r 10 exactly.
    dxf: mm(
      spline({
        degree: 2,
        flags: 1 + 4,
        knots: [0, 0, 0, 1, 1, 2, 2, 3, 3, 4, 4, 4],
        controls: [
          [10, 0],
          [10, 10],
          [0, 10],
          [-10, 10],
          [-10, 0],
          [-10, -10],
          [0, -10],
          [10, -10],
          [10, 0],
        ],
        weights: [1, Math.SQRT1_2, 1, Math.SQRT1_2, 1, Math.SQRT1_2, 1, Math.SQRT1_2, 1],
      }),
    ),
    size: '20 x 20',
    parts: [`spline-1 ${round(PI * 100)}`],
  },
  {
    name: 'loose lines and arcs in any order and direction',
    // A square of 20 with one side bulged out by a half disc of r 10.
    dxf: mm(
      line(20, 20, 0, 20, 'cut'),
      [0, 'ARC', 8, 'cut', 10, 20, 20, 10, 40, 10, 50, 270, 51, 90],
      line(0, 20, 0, 0, 'cut'),
      line(20, 0, 0, 0, 'cut'),
    ),
    size: '30 x 20',
    parts: [`cut ${round(400 + PI * 50)}`],
    told: ['joined-ends'],
  },
  {
    name: 'holes of a part among its loose ends',
    // 40 x 30 less a disc of r 5.
    dxf: mm(rect(0, 0, 40, 30), [0, 'CIRCLE', 8, 'cut', 10, 20, 20, 15, 40, 5]),
    size: '40 x 30',
    parts: [`cut ${round(1200 - PI * 25)} holes 1`],
    told: ['holes'],
  },
  {
    name: 'paper space, frozen and switched-off layers are left out and told',
    dxf: dxfText({
      header: MM,
      layers: [
        [2, 'off', 70, 0, 62, -3],
        [2, 'frozen', 70, 1, 62, 3],
      ],
      entities: [
        ...rect(0, 0, 40, 30),
        ...rect(100, 0, 40, 30, 'off'),
        ...rect(200, 0, 40, 30, 'frozen'),
        ...[...line(0, 0, 300, 300), 67, 1],
      ],
    }),
    size: '40 x 30',
    parts: ['cut 1200'],
    told: ['hidden', 'paper-space'],
  },
  {
    name: 'text, dimensions, hatches and points are told',
    dxf: mm(
      rect(0, 0, 40, 30),
      [0, 'TEXT', 8, '0', 10, 5, 20, 5, 40, 5, 1, 'Gull'],
      [0, 'DIMENSION', 8, '0', 2, '*D1', 10, 0, 20, 0],
      [0, 'HATCH', 8, '0', 10, 0, 20, 0, 30, 0, 2, 'LINES', 70, 0],
      [0, 'POINT', 8, '0', 10, 1, 20, 1],
    ),
    size: '40 x 30',
    parts: ['cut 1200'],
    told: ['construction', 'dimension', 'hatch', 'text'],
  },
  {
    name: 'a wide polyline is read along its middle and told',
    dxf: mm([...rect(0, 0, 40, 30), 43, 2]),
    size: '40 x 30',
    parts: ['cut 1200'],
    told: ['wide-line'],
  },
  {
    name: 'decimal commas',
    // 40.5 x 30.5 mm.
    dxf: mm(rect(0, 0, 40.5, 30.5)).replace(/(\d)\.(\d)/g, '$1,$2'),
    size: '40.5 x 30.5',
    parts: ['cut 1235.25'],
    told: ['decimal-comma'],
  },
  {
    name: 'carriage returns alone, and a byte order mark',
    dxf: `\uFEFF${mm(rect(0, 0, 40, 30)).replace(/\n/g, '\r')}`,
    size: '40 x 30',
    parts: ['cut 1200'],
  },
  {
    name: 'a layer name in an old code page',
    // 0xFC is u with two dots in Windows code page 1252.
    dxf: Uint8Array.from(mm(rect(0, 0, 40, 30, 'M\u00fcwe')), (letter) => letter.charCodeAt(0)),
    size: '40 x 30',
    parts: ['M\u00fcwe 1200'],
  },
  {
    name: 'layers by process: holes on a layer of their own, a score inside',
    // Different colours: yellow bounds the parts; the green line inside is a score, 20 mm.
    dxf: dxfText({
      header: MM,
      layers: [
        [2, 'outer', 70, 0, 62, 2],
        [2, 'score', 70, 0, 62, 3],
      ],
      entities: [...rect(0, 0, 40, 30, 'outer'), ...line(10, 10, 30, 10, 'score')],
    }),
    size: '40 x 30',
    parts: ['outer 1200'],
    marks: ['score on outer 20'],
    told: ['layer-name'],
  },
  {
    name: 'a stack of bare lines: holes go to the part of their layer',
    // The backer of 200 x 100 less two discs of r 5; the banner crosses its edges.
    dxf: mm(
      rect(0, 0, 200, 100, 'backer'),
      [0, 'CIRCLE', 8, 'backer', 10, 20, 20, 90, 40, 5],
      [0, 'CIRCLE', 8, 'backer', 10, 180, 20, 90, 40, 5],
      rect(-20, 30, 240, 30, 'banner'),
    ),
    size: '240 x 100',
    mode: 'stacked',
    parts: [`backer ${round(20_000 - PI * 50)} holes 2`, 'banner 7200'],
    told: ['paired-holes'],
  },
];

describe('odd DXF drawings', () => {
  it.each(CASES)('$name', ({ dxf, size, parts, mode = 'spread', marks = [], told = [] }) => {
    expect(summary(inspected(dxf))).toEqual({ size, mode, parts, marks, told });
  });

  it.each(UNITS)('$INSUNITS %i is %f mm', (code, perUnit) => {
    // Source: DXF reference, HEADER, $INSUNITS; 40 x 30 units.
    const seen = inspected(dxfText({ header: { $INSUNITS: code }, entities: rect(0, 0, 40, 30) }));
    expect(seen.widthMm).toBeCloseTo(40 * perUnit, 9);
    expect(seen.heightMm).toBeCloseTo(30 * perUnit, 9);
  });

  it('reads a binary DXF like its text, and refuses what is left of a broken one', () => {
    const circle = [0, 'SECTION', 2, 'ENTITIES', 0, 'CIRCLE', 8, 'plate', 10, 5, 20, 5, 40, 5, 0, 'ENDSEC', 0, 'EOF'];
    const seen = inspected(binaryDxfBytes(circle, false));
    expect(seen.sizeChoices?.map(({ widthMm }) => widthMm)).toEqual([10, 254]);
    expect(() => inspected(binaryDxfBytes(circle, false).subarray(0, 40))).toThrow(/not a DXF file/);
  });
});
