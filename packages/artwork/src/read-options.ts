import type { ReadOptions } from './drawing.ts';
import { ArtworkError } from './error.ts';

/** @throws ArtworkError `bad-option` for a width, a scale or a gap that is no usable number. */
export function assertReadOptions({ name, widthMm, perInch, closeGapMm }: ReadOptions): void {
  const wrong = (what: string, value: number): never => {
    throw new ArtworkError('bad-option', `${what} must be a positive number, not ${value} (for ${name})`);
  };
  const isPositive = (value: number): boolean => value > 0 && Number.isFinite(value);
  if (widthMm !== undefined && !isPositive(widthMm)) wrong('the width', widthMm);
  if (perInch !== undefined && !isPositive(perInch)) wrong('units to the inch', perInch);
  if (closeGapMm !== undefined && closeGapMm !== 0 && !isPositive(closeGapMm)) wrong('the gap to close', closeGapMm);
}
