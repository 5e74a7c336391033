import { describe, expect, it } from 'vitest';
import { polylineContour } from './contour.ts';
import { contourToPathData, shapeToPathData } from './path-data.ts';

describe('contourToPathData', () => {
  it('writes every kind of segment, and leaves the closing line to Z', () => {
    const data = contourToPathData({
      start: { x: 0, y: 0 },
      segments: [
        { kind: 'line', to: { x: 1.5, y: -0.00001 } },
        { kind: 'arc', to: { x: 2.5, y: 1 }, centre: { x: 1.5, y: 1 }, radius: 1, sweep: Math.PI / 2 },
        { kind: 'cubic', c1: { x: 3, y: 2 }, c2: { x: 1, y: 2 }, to: { x: 1 / 3, y: 2 } },
        { kind: 'line', to: { x: 0, y: 0 } },
      ],
      closed: true,
    });
    expect(data).toBe('M0 0L1.5 0A1 1 0 0 1 2.5 1C3 2 1 2 0.3333 2Z');
  });

  it('never writes exponents or negative zero', () => {
    const data = contourToPathData(polylineContour(Float64Array.of(1e-9, -1e-9, 123456.789012, 1e-5), false), 3);
    expect(data).toBe('M0 0L123456.789 0');
  });

  it('cuts long arcs into quarter turns at most', () => {
    const start = { x: 10, y: 0 };
    const circle = {
      start,
      segments: [{ kind: 'arc' as const, to: start, centre: { x: 0, y: 0 }, radius: 10, sweep: -2 * Math.PI }],
      closed: true,
    };
    expect(contourToPathData(circle)).toBe(
      'M10 0A10 10 0 0 0 0 -10A10 10 0 0 0 -10 0A10 10 0 0 0 0 10A10 10 0 0 0 10 0Z',
    );
    expect(shapeToPathData({ outer: circle, holes: [circle] }).match(/Z/g)).toHaveLength(2);
  });

  it('refuses numbers that are not finite', () => {
    expect(() => contourToPathData(polylineContour(Float64Array.of(0, Infinity), false))).toThrowError(
      expect.objectContaining({ code: 'non-finite' }),
    );
  });
});
