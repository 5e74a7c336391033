import { subtractRegions } from '@underlap/geometry/boolean';
import { offsetRegions } from '@underlap/geometry/offset';
import type { Point } from '@underlap/geometry/point';
import { type Region, regionArea, regionsArea } from '@underlap/geometry/region';

/** Corners lose a little to any round tool; what is lost beyond this share of the width squared is a thin stroke. */
const CORNER_SHARE = 1;

/**
 * Where a shape is thinner than a width: what an opening by a disc of that width loses (mathematical morphology, textbook).
 * @returns the largest such place with its area, mm and mm2; null when the shape is that wide everywhere but for its corners.
 */
export function thinnestPlace(
  regions: readonly Region[],
  widthMm: number,
): { readonly at: Point; readonly areaMm2: number } | null {
  const half = widthMm / 2;
  const opened = offsetRegions(offsetRegions(regions, -half), half);
  const lost = opened.length === 0 ? [...regions] : subtractRegions(regions, offsetRegions(opened, 0.02));
  const thin = lost
    .filter((region) => regionArea(region) > CORNER_SHARE * widthMm * widthMm * 0.25)
    .sort((a, b) => regionArea(b) - regionArea(a))[0];
  if (thin === undefined) return null;
  const { outer } = thin;
  let [x, y] = [0, 0];
  for (let i = 0; i < outer.length; i += 2) {
    x += outer[i]!;
    y += outer[i + 1]!;
  }
  return { at: { x: (2 * x) / outer.length, y: (2 * y) / outer.length }, areaMm2: regionsArea(lost) };
}
