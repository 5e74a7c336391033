import { describe, expect, it } from 'vitest';
import { formatLength, formatSize, parseLength } from './length.ts';
import { formatNumber, numberStyle, parseNumber } from './number.ts';

const english = numberStyle('en-US');
const german = numberStyle('de-DE');

describe('lengths as makers write them', () => {
  it('reads millimetres, centimetres and inches with fractions', () => {
    expect(parseLength('508', 'mm', english)).toBe(508);
    expect(parseLength('2.5 cm', 'mm', english)).toBe(25);
    expect(parseLength('20 in', 'mm', english)).toBeCloseTo(508, 9);
    expect(parseLength('20 1/2', 'in', english)).toBeCloseTo(520.7, 9);
    expect(parseLength('3/4"', 'mm', english)).toBeCloseTo(19.05, 9);
    expect(parseLength('1\u00bd in', 'mm', english)).toBeCloseTo(38.1, 9);
    expect(parseLength('-0.1', 'mm', english)).toBe(-0.1);
  });

  it('refuses what is not a length', () => {
    for (const text of ['', 'wide', '1/0', '12 mm mm', '1e3', 'NaN', '3/'])
      expect(parseLength(text, 'mm', english)).toBeNull();
  });

  it('writes inches as fractions only where they are one', () => {
    expect(formatLength(508, 'in', english)).toBe('20');
    expect(formatLength(304.8 + 12.7, 'in', english)).toBe('12 1/2');
    expect(formatLength(9.525, 'in', english)).toBe('3/8');
    expect(formatLength(0.2, 'in', english)).toBe('0.0079');
    expect(formatSize(508, 304.8, 'in', english)).toBe('20 \u00d7 12 in');
  });

  it('comes back to the same length after writing and reading', () => {
    for (let sixtyFourths = 1; sixtyFourths < 2000; sixtyFourths += 7) {
      const mm = (sixtyFourths * 25.4) / 64;
      expect(parseLength(formatLength(mm, 'in', english), 'in', english)).toBeCloseTo(mm, 9);
    }
  });
});

describe('numbers as the locale writes them', () => {
  it('reads both decimal signs where that is safe', () => {
    expect(parseNumber('12,5', german)).toBe(12.5);
    expect(parseNumber('12.5', german)).toBe(12.5);
    expect(parseNumber('1.234', german)).toBe(1234);
    expect(parseNumber('1.234,5', german)).toBe(1234.5);
    expect(parseNumber('1,234', english)).toBe(1234);
    expect(parseNumber('12,5', english)).toBe(12.5);
    expect(formatNumber(1234.5, german, 1)).toBe('1.234,5');
  });
});
