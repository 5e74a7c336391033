import { describe, expect, it } from 'vitest';
import { isPhysicalUnit, lengthToMm, lengthToPx, parseLength } from './units.ts';

const base = { whole: 200, fontSize: 16, rootFontSize: 20 };
const px = (text: string) => lengthToPx(parseLength(text)!, base);
const mm = (text: string) => lengthToMm(parseLength(text)!);

describe('lengths', () => {
  // CSS Values and Units Level 4 (W3C), 'Absolute lengths': 1in = 2.54cm = 25.4mm = 101.6Q = 72pt = 6pc = 96px.
  it.each(['1in', '2.54cm', '25.4mm', '101.6Q', '72pt', '6pc', '96px', '96'])('%s is an inch', (text) => {
    expect(px(text)).toBeCloseTo(96, 10);
    expect(mm(text)).toBeCloseTo(25.4, 10);
  });

  it('keeps round figures round', () => {
    expect(mm('500mm')).toBe(500);
    expect(mm('42cm')).toBe(420);
    expect(mm('20in')).toBe(508);
  });

  it('reads relative units', () => {
    expect(px('50%')).toBe(100);
    expect(px('2em')).toBe(32);
    expect(px('1ex')).toBe(8);
    expect(mm('50%')).toBeNull();
    expect(px('3vw')).toBeNull();
  });

  it('reads every way of writing a number', () => {
    expect(parseLength(' +.5E1mm ')).toEqual({ value: 5, unit: 'mm' });
    expect(parseLength('-3.')).toEqual({ value: -3, unit: '' });
    for (const text of ['', 'mm', '1e999', '1 2', 'NaN', '0x10', '5mm;']) expect(parseLength(text)).toBeNull();
  });

  it('tells physical units from px', () => {
    expect(['mm', 'cm', 'in', 'pt', 'pc', 'q'].every(isPhysicalUnit)).toBe(true);
    expect(['px', '', '%', 'em', 'toString'].some(isPhysicalUnit)).toBe(false);
  });
});
