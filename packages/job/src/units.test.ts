import { describe, expect, it } from 'vitest';
import { parseLength, parseSize } from './units.ts';

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
  ])('%s is %s mm', (text, mm) => {
    expect(parseLength(text)).toBe(mm);
  });

  it.each(['', 'wide', '20 feet', '5,5', 'NaN', 'Infinity', '1/0', '3in2', '--2'])('%s is no length', (text) => {
    expect(parseLength(text)).toBeNull();
  });

  it('reads sizes with one unit for both sides or one each', () => {
    expect(parseSize('508x305')).toEqual({ width: 508, height: 305 });
    expect(parseSize('20x12in')).toEqual({ width: 508, height: 304.8 });
    expect(parseSize('20 in × 305 mm')).toEqual({ width: 508, height: 305 });
    expect(parseSize('508')).toBeNull();
    expect(parseSize('1x2x3')).toBeNull();
  });
});
