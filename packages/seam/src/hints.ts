import { flattenContour } from '@underlap/geometry/flatten';
import type { Point } from '@underlap/geometry/point';
import { isInRegion, regionBounds } from '@underlap/geometry/region';
import type { CoverPart, Seam, SeamRemark } from './task.ts';

/** How far a part is moved at most, in what steps, mm. */
const FARTHEST_MM = 12;
const STEP_MM = 2;

/** Shorter visible lengths are no concern, longer ones no small change will hide, mm. */
const LEAST_VISIBLE_MM = 1;
const MOST_VISIBLE_MM = 150;

const WAYS: readonly (readonly [number, number, string])[] = [
  [-1, 0, 'left'],
  [1, 0, 'right'],
  [0, -1, 'up'],
  [0, 1, 'down'],
  [-Math.SQRT1_2, -Math.SQRT1_2, 'up and left'],
  [Math.SQRT1_2, -Math.SQRT1_2, 'up and right'],
  [-Math.SQRT1_2, Math.SQRT1_2, 'down and left'],
  [Math.SQRT1_2, Math.SQRT1_2, 'down and right'],
];

/**
 * The smallest move of one covering part that hides all that shows of a seam and bares nothing else of it.
 * @returns null when no part within reach does that.
 * @remarks O(parts x moves x points); only parts near what shows are moved. Judged on points at most 1 mm apart.
 */
export function hintFor(seam: Seam, parts: readonly CoverPart[]): SeamRemark | null {
  const visible = seam.lengthMm - seam.hiddenLengthMm;
  if (visible < LEAST_VISIBLE_MM || visible > MOST_VISIBLE_MM) return null;
  const points = densePath(seam);
  const covers = points.map(({ x, y }) => parts.filter((part) => isInRegion(part.region, x, y)));
  const bare = points.filter((_, index) => covers[index]!.length === 0);
  // The ends lie on the part's edge, where inside and outside are told either way.
  const shown = bare.length > 2 ? bare : [];
  if (shown.length === 0) return null;
  for (let distance = STEP_MM; distance <= FARTHEST_MM; distance += STEP_MM) {
    for (const part of parts) {
      const box = regionBounds(part.region);
      const isNear = shown.every(
        ({ x, y }) =>
          x > box.minX - distance && x < box.maxX + distance && y > box.minY - distance && y < box.maxY + distance,
      );
      if (!isNear) continue;
      const alone = points.filter((_, index) => covers[index]!.length === 1 && covers[index]![0] === part);
      for (const [dx, dy, words] of WAYS) {
        const holds = ({ x, y }: Point) => isInRegion(part.region, x - distance * dx, y - distance * dy);
        if (!shown.every(holds) || !alone.every(holds)) continue;
        const message = `Moving ${part.name} ${distance} mm ${words} hides the ${visible.toFixed(0)} mm of seam ${seam.id} that show.`;
        return { code: 'hint', message, at: shown[Math.floor(shown.length / 2)]! };
      }
    }
  }
  return null;
}

function densePath(seam: Seam): Point[] {
  const line = flattenContour(seam.path, 0.05);
  const out: Point[] = [];
  for (let i = 0; i + 3 < line.length; i += 2) {
    const dx = line[i + 2]! - line[i]!;
    const dy = line[i + 3]! - line[i + 1]!;
    const steps = Math.max(1, Math.ceil(Math.hypot(dx, dy)));
    for (let k = 0; k < steps; k++)
      out.push({ x: line[i]! + (dx * (k + 0.5)) / steps, y: line[i + 1]! + (dy * (k + 0.5)) / steps });
  }
  return out;
}
