import type { Layout } from '../search/layout.ts';

/** Remainders up to this share of the unit count as none. */
export const WHOLE = 1e-6;

/** Greatest common measure of all corners' distances from their boxes' least corners, or 0 where it is too fine. */
export function latticeUnit(
  layout: Layout,
  poses: Set<number>,
  height: number,
  isCoarse: (unit: number) => boolean,
): number {
  const { model } = layout;
  const noise = 1e-9 * height;
  let unit = 0;
  for (const index of poses) {
    const pose = model.poses[index]!;
    const { outer, holes } = model.forms[pose.form]!.region;
    for (const ring of [outer, ...holes]) {
      for (let i = 0; i < ring.length; i += 2) {
        const along = pose.cos * ring[i]! - pose.sin * ring[i + 1]! - pose.minX;
        const up = pose.sin * ring[i]! + pose.cos * ring[i + 1]! - pose.minY;
        if (along > noise) unit = common(unit, along);
        if (up > noise) unit = common(unit, up);
        if (unit > 0 && !isCoarse(unit)) return 0;
      }
    }
  }
  return unit;
}

/** Greatest common measure of two lengths (Euclid), with rounding noise taken as none. */
function common(a: number, b: number): number {
  let high = Math.max(a, b);
  let low = Math.min(a, b);
  const noise = WHOLE * high;
  while (low > noise) {
    const rest = high % low;
    high = low;
    low = rest > high - noise ? high - rest : rest;
  }
  return high;
}
