import { UNITS_OF_EFFORT } from '@underlap/nest/nest';
import { describe, expect, it } from 'vitest';
import { effortOfRow } from './study-effort.ts';

describe('effort of one layout of a table', () => {
  it("is a plan's where there are few rows, and shared where there are many", () => {
    expect(effortOfRow('normal', 1)).toBe(UNITS_OF_EFFORT.normal);
    expect(effortOfRow('normal', 5)).toBe(UNITS_OF_EFFORT.normal);
    expect(effortOfRow('normal', 20)).toBe(UNITS_OF_EFFORT.normal / 4);
    expect(effortOfRow('thorough', 200)).toBe(UNITS_OF_EFFORT.thorough / 40);
  });

  it('leaves quick and numbers as they are', () => {
    expect(effortOfRow('quick', 36)).toBe('quick');
    expect(effortOfRow(30, 36)).toBe(30);
  });
});
