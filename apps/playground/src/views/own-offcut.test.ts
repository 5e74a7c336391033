import { describe, expect, it } from 'vitest';
import { parseLength } from '../units/length.ts';
import { numberStyle } from '../units/number.ts';
import { outlinePath } from './own-offcut.tsx';

const german = numberStyle('de');
const parse = (text: string): number | null => parseLength(text, 'mm', german);

describe('the outline of an offcut', () => {
  it('is a size in the units of the user, or closed path data as it is', () => {
    expect(outlinePath('300 x 200', parse)).toBe('M0 0h300v200h-300z');
    expect(outlinePath('300,5\u00d720 cm', parse)).toBe('M0 0h300.5v200h-300.5z');
    expect(outlinePath(' M0 0H90L0 40Z ', parse)).toBe('M0 0H90L0 40Z');
  });

  it('is nothing else', () => {
    for (const text of ['', '300', '0 x 20', '1 x 2 x 3', 'round', 'M0 0H90'])
      expect(outlinePath(text, parse)).toBeNull();
  });
});
