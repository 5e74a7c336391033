import { contourArea, contourLength } from '@underlap/geometry/contour';
import { describe, expect, it } from 'vitest';
import { readPath } from './path-grammar.ts';

const read = (data: string) => readPath(data, 1000);
const ends = (data: string) =>
  read(data).contours.map(({ start, segments }) =>
    [start, ...[...segments].map(({ to }) => to)].map(({ x, y }) => [x, y]),
  );

describe('numbers', () => {
  it('needs no separators where the grammar needs none', () => {
    expect(ends('M.5.5L1e1-2,3-4.5.25+7 1.e0,2')).toEqual([
      [
        [0.5, 0.5],
        [10, -2],
        [3, -4.5],
        [0.25, 7],
        [1, 2],
      ],
    ]);
  });

  it('ends an exponent where another number begins', () => {
    expect(ends('M1e-3-2L0 0')[0]![0]).toEqual([0.001, -2]);
  });

  it('reads flags without separators', () => {
    const apart = read('M0 0a5 5 0 0 1 6 0A5 5 0 1 0 3 -4');
    const compact = read('M0,0a5,5,0,016,0A5 5 0 103-4');
    expect(compact).toEqual(apart);
    expect(compact.fault).toBeNull();
  });
});

describe('commands', () => {
  it('repeats a move as lines and a command with its next numbers', () => {
    expect(ends('m1 2 3 4 5 6')).toEqual([
      [
        [1, 2],
        [4, 6],
        [9, 12],
      ],
    ]);
    expect(ends('M0 0h1 2v3 4H0')).toEqual([
      [
        [0, 0],
        [1, 0],
        [3, 0],
        [3, 3],
        [3, 7],
        [0, 7],
      ],
    ]);
  });

  it('starts again at the beginning of a closed contour', () => {
    expect(ends('M5 5h4v4zl-3 0v-3z')).toEqual([
      [
        [5, 5],
        [9, 5],
        [9, 9],
        [5, 5],
      ],
      [
        [5, 5],
        [2, 5],
        [2, 2],
        [5, 5],
      ],
    ]);
  });

  it('reflects control points of smooth commands, and only after their own kind', () => {
    const cubic = read('M0 0C0 1 1 2 2 2S4 1 4 0').contours[0]!.segments.at(1)!;
    expect(cubic).toMatchObject({ kind: 'cubic', c1: { x: 3, y: 2 } });
    const alone = read('M0 0L2 2S4 1 4 0').contours[0]!.segments.at(1)!;
    expect(alone).toMatchObject({ c1: { x: 2, y: 2 } });
    const afterQuadratic = read('M0 0Q1 2 2 2S4 1 4 0').contours[0]!.segments.at(1)!;
    expect(afterQuadratic).toMatchObject({ c1: { x: 2, y: 2 } });
    const twice = read('M0 0Q1 2 2 0T4 0T6 0').contours[0]!;
    // Three equal arches: the area under a quadratic of height h over width w is 2/3 of h/2 w.
    expect(Math.abs(contourArea({ ...twice, closed: true }))).toBeCloseTo((2 / 3) * 2, 12);
  });

  it('raises quadratics to cubics exactly', () => {
    const { contours } = read('M0 0Q30 60 60 0z');
    expect(Math.abs(contourArea(contours[0]!))).toBeCloseTo((2 / 3) * 60 * 30, 9);
  });
});

describe('arcs', () => {
  it('keeps circles as arcs with their centre', () => {
    const [segment] = read('M10 0A10 10 30 0 1 0 10').contours[0]!.segments;
    expect(segment).toMatchObject({ kind: 'arc', radius: 10 });
    if (segment?.kind !== 'arc') throw new Error('no arc');
    expect(segment.centre.x).toBeCloseTo(0, 12);
    expect(segment.centre.y).toBeCloseTo(0, 12);
    expect(segment.sweep).toBeCloseTo(Math.PI / 2, 12);
  });

  it('chooses among the four arcs by both flags', () => {
    const sweeps = ['0 0', '0 1', '1 0', '1 1'].map((flags) => {
      const [segment] = read(`M10 0A10 10 0 ${flags} 0 10`).contours[0]!.segments;
      return segment?.kind === 'arc' ? segment.sweep / (Math.PI / 2) : Number.NaN;
    });
    [-1, 1, -3, 3].forEach((wanted, i) => {
      expect(sweeps[i]).toBeCloseTo(wanted, 9);
    });
  });

  it('scales radii up that do not reach (SVG 2, implementation notes)', () => {
    const [segment] = read('M0 0A1 1 0 0 1 10 0').contours[0]!.segments;
    expect(segment).toMatchObject({ kind: 'arc', radius: 5 });
    const [ellipse] = read('M0 0A2 1 90 0 1 10 0').contours[0]!.segments;
    // Along the turned axis the shorter radius has to reach 5; their ratio stays.
    if (ellipse?.kind !== 'ellipse') throw new Error('no ellipse');
    expect(ellipse.ry).toBeCloseTo(5, 9);
    expect(ellipse.rx).toBeCloseTo(10, 9);
  });

  it('draws a line for a radius of zero and nothing for equal ends', () => {
    expect(read('M0 0A0 5 0 0 1 3 4').contours[0]!.segments.at(0)!).toMatchObject({ kind: 'line' });
    expect(read('M3 4A5 5 0 1 1 3 4').contours).toEqual([]);
    expect(read('M0 0L3 4A5 5 0 1 1 3 4L9 9').contours[0]!.segments).toHaveLength(2);
  });

  it('keeps an ellipse with its turn', () => {
    // Half an ellipse of radii 20 and 10 turned by 90 degrees: area pi/2 * 200.
    const { contours } = read('M0 -20A20 10 90 0 1 0 20z');
    expect(contourArea(contours[0]!)).toBeCloseTo((Math.PI / 2) * 200, 9);
  });
});

describe('closing', () => {
  it('counts a contour as closed when its end meets its start, with or without z', () => {
    expect(read('M0 0H5V5H0V0').contours[0]).toMatchObject({ closed: true });
    expect(read('M0 0H5V5H0').contours[0]).toMatchObject({ closed: false });
    expect(read('M0 0H5V5H0z').contours[0]!.segments).toHaveLength(4);
  });

  it('meets the start exactly where relative steps have drifted', () => {
    const step = '0.1 0.2';
    const { contours } = read(`M100.3 7.1l${step} ${step} ${step} 5 0-5.3-.6z`);
    const [contour] = contours;
    expect(contour!.segments.at(-1)!.to).toEqual(contour!.start);
    expect(contour!.segments).toHaveLength(5);
  });
});

describe('faults', () => {
  it.each([
    ['L5 5', 0, 0],
    ['M0 0L5 5L6', 1, 9],
    ['M0 0L5 5 X 7 7', 1, 9],
    ['M0 0L5 5 7', 1, 9],
    ['M0 0L5 5,,7 7', 1, 8],
    ['M0 0L5 5A1 1 0 2 0 5 5', 1, 9],
    ['M0 0L5 5C1e400 0 0 0 0 0', 1, 9],
    ['M0 0L5 5 z 8', 2, 11],
  ])('keeps what comes before the fault in %s', (data, segments, at) => {
    const found = read(data);
    expect(found.contours.flatMap((contour) => [...contour.segments])).toHaveLength(segments);
    expect(found.fault?.at).toBe(at);
  });

  it('is content with nothing', () => {
    expect(read('')).toEqual({ contours: [], segments: 0, fault: null });
    expect(read('  M 3 4 ')).toMatchObject({ contours: [], fault: null });
  });

  it('stops at the limit of segments', () => {
    const found = readPath(`M0 0${'h1'.repeat(50)}`, 10);
    expect(found.fault?.message).toContain('more than 10');
    expect(found.segments).toBe(11);
  });
});

it('reads a long path in one piece', () => {
  const { contours, fault } = readPath(`M0 0${'l1 0'.repeat(100_000)}`, 1e6);
  expect(fault).toBeNull();
  expect(contourLength(contours[0]!)).toBe(100_000);
});
