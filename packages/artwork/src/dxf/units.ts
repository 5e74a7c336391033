import type { PhysicalSize, ReadOptions } from '../drawing.ts';
import { MM_PER_INCH } from '../units.ts';

/** mm for one of each $INSUNITS value. Source: DXF reference, HEADER section; 0 is unitless, and what is no length is left out. */
const MM_PER_UNIT: Readonly<Record<number, number>> = {
  1: MM_PER_INCH,
  2: 12 * MM_PER_INCH,
  3: 63_360 * MM_PER_INCH,
  4: 1,
  5: 10,
  6: 1000,
  7: 1e6,
  8: MM_PER_INCH * 1e-6,
  9: MM_PER_INCH * 1e-3,
  10: 36 * MM_PER_INCH,
  11: 1e-7,
  12: 1e-6,
  13: 1e-3,
  14: 100,
  15: 1e4,
  16: 1e5,
  17: 1e12,
  21: 1_200_000 / 3937,
};

/** mm of one drawing unit by the header, null when the header leaves it open. */
export function mmPerDrawingUnit(insUnits: number | null): number | null {
  return insUnits === null ? null : (MM_PER_UNIT[insUnits] ?? null);
}

export interface SettledSize {
  readonly size: PhysicalSize;
  /** What drawing units are to be multiplied by: to mm, or by 1 while the size is open. */
  readonly scale: number;
  /** A given number of units to the inch that was not needed, since the file states its unit. */
  readonly isPerInchUnused: boolean;
}

/**
 * The true size of a drawing of `width` x `height` units. A given width decides; then the header's unit; then given units
 * to the inch; else it stays open.
 *
 * The choices for an open DXF are the two units that drawings for machines are made in: a unit is a millimetre (25.4 to
 * the inch) or an inch (1 to the inch); $MEASUREMENT, which many programs write without meaning it, decides only which
 * comes first.
 */
export function settleSize(
  width: number,
  height: number,
  insUnits: number | null,
  measurement: number | null,
  options: ReadOptions,
): SettledSize {
  const at = (scale: number) => ({ widthMm: width * scale, heightMm: height * scale });
  const known = (scale: number, source: 'file' | 'user', isPerInchUnused: boolean): SettledSize => ({
    size: { kind: 'known', ...at(scale), source },
    scale,
    isPerInchUnused,
  });
  const { widthMm, perInch } = options;
  if (widthMm !== undefined && width > 0) return known(widthMm / width, 'user', false);
  const stated = mmPerDrawingUnit(insUnits);
  if (stated !== null) return known(stated, 'file', perInch !== undefined);
  if (perInch !== undefined) return known(MM_PER_INCH / perInch, 'user', false);
  const counts = measurement === 0 ? [1, MM_PER_INCH] : [MM_PER_INCH, 1];
  const choices = counts.map((count) => ({ perInch: count, ...at(MM_PER_INCH / count) }));
  return { size: { kind: 'open', choices }, scale: 1, isPerInchUnused: false };
}
