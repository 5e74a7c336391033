import { describe, expect, it } from 'vitest';
import { lengthAdvice, parseLength, parseSize, parseSizes } from './units.ts';

describe('lengths as makers write them', () => {
  // 1 in = 25.4 mm exactly (SVG 2 and CSS Values and Units, W3C; international inch of 1959).
  it.each([
    ['508', 508],
    ['20in', 508],
    ['20 1/2 in', 520.7],
    ['3/4"', 19.05],
    ['12in', 304.8],
    ['50.8 cm', 508],
    ['.5', 0.5],
    ['-0.1', -0.1],
    ['1e2', 100],
    ['2-1/2"', 63.5],
    ['6cm', 60],
    ['0.5m', 500],
    ['1/2in', 12.7],
    ['0,2', 0.2],
    ['5,5 cm', 55],
    ['1.234,5', 1234.5],
    ['1,234.5', 1234.5],
    ['1.234.567,5', 1234567.5],
  ])('%s is %s mm', (text, mm) => {
    expect(parseLength(text)).toBe(mm);
  });

  it.each(['', 'wide', '20 feet', '1,234', '1,2,3', '1.2.3,4', '1,23.4', 'NaN', 'Infinity', '1/0', '3in2', '--2'])(
    '%s is no length',
    (text) => {
      expect(parseLength(text)).toBeNull();
    },
  );

  // Common practice, no source: what people write who are used to other units and other marks.
  it.each([
    ['1,234', 'may mean 1234 or 1.234'],
    ['2 ft', '24in'],
    ['300px', 'mm or in'],
    ['20 Zoll', '20in'],
    ['5 mil', 'mm, cm, m and in'],
  ])('%s is answered with the cure', (text, words) => {
    expect(parseLength(text)).toBeNull();
    expect(lengthAdvice(text)).toContain(words);
  });

  it('reads sizes with one unit for both sides or one each', () => {
    expect(parseSize('508x305')).toEqual({ width: 508, height: 305 });
    expect(parseSize('20x12in')).toEqual({ width: 508, height: 304.8 });
    expect(parseSize('20 in × 305 mm')).toEqual({ width: 508, height: 305 });
    expect(parseSize('50,8 x 30,5 cm')).toEqual({ width: 508, height: 305 });
    expect(parseSize('508 by 305')).toEqual({ width: 508, height: 305 });
    expect(parseSize('508')).toBeNull();
    expect(parseSize('1x2x3')).toBeNull();
  });

  it.each([
    ['508x305,610x305', ['508x305', '610x305']],
    ['50,8cmx30,5cm', ['508x305']],
    ['1.234,5x305', ['1234.5x305']],
    ['50,8x30,5cm,610x305', ['508x305', '610x305']],
    ['50,8x30,5cm; 61x30,5cm', ['508x305', '610x305']],
    ['2 ftx1ft', null],
    ['508x305,', null],
    ['508x305;wide', null],
    // 50 x 30,5 and 61 x 30, or 50 x 30 and 5,61 x 30?
    ['50x30,5,61x30', 'ambiguous'],
  ] as const)('several sizes: %s', (text, expected) => {
    const sizes = parseSizes(text);
    const words = Array.isArray(sizes) ? sizes.map(({ width, height }) => `${width}x${height}`) : sizes;
    expect(words).toEqual(expected);
  });
});
