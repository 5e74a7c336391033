/** CSS Values and Units (W3C): 1 in = 25.4 mm = 96 px = 72 pt = 6 pc; 1 Q = 0.25 mm. */
export const MM_PER_INCH = 25.4;
export const PX_PER_INCH = 96;

/** mm for one of each absolute unit. */
const MM_PER_UNIT: ReadonlyMap<string, number> = new Map([
  ['px', MM_PER_INCH / PX_PER_INCH],
  ['in', MM_PER_INCH],
  ['cm', 10],
  ['mm', 1],
  ['q', 0.25],
  ['pt', MM_PER_INCH / 72],
  ['pc', MM_PER_INCH / 6],
]);

export interface Length {
  readonly value: number;
  /** Lower case: '' without a unit, '%', or a CSS unit. */
  readonly unit: string;
}

/** What relative lengths refer to, in px. */
export interface LengthBase {
  /** What 100 % is. */
  readonly whole: number;
  readonly fontSize: number;
  /** Font size of the outermost element. */
  readonly rootFontSize: number;
}

const LENGTH = /^([+-]?(?:\d+\.?\d*|\.\d+)(?:e[+-]?\d+)?)\s*([a-z]*|%)$/i;

/** Read `12.5mm`, `4`, `50%`, `1e2px`; null when it is no length or not finite. */
export function parseLength(text: string): Length | null {
  const match = LENGTH.exec(text.trim());
  if (match === null) return null;
  const value = Number(match[1]);
  return Number.isFinite(value) ? { value, unit: match[2]!.toLowerCase() } : null;
}

/** Is this a unit with a physical size that all programs agree on? px is not: see `PhysicalSize`. */
export function isPhysicalUnit(unit: string): boolean {
  return unit !== 'px' && MM_PER_UNIT.has(unit);
}

/** px of a length; null for a unit that is not known here (vw, ch, ...). */
export function lengthToPx(length: Length, base: LengthBase): number | null {
  const { value, unit } = length;
  if (unit === '' || unit === 'px') return value;
  if (unit === '%') return (value / 100) * base.whole;
  if (unit === 'em') return value * base.fontSize;
  if (unit === 'rem') return value * base.rootFontSize;
  if (unit === 'ex') return (value * base.fontSize) / 2;
  const perUnit = MM_PER_UNIT.get(unit);
  return perUnit === undefined ? null : (value * perUnit * PX_PER_INCH) / MM_PER_INCH;
}

/** mm of a length with a physical unit, or of px and bare numbers at 96 to the inch; null for a relative one. */
export function lengthToMm({ value, unit }: Length): number | null {
  const perUnit = MM_PER_UNIT.get(unit === '' ? 'px' : unit);
  return perUnit === undefined ? null : value * perUnit;
}
