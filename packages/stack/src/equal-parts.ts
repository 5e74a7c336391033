import { regionArea } from '@underlap/geometry/region';
import { ringPerimeter } from '@underlap/geometry/ring';
import { transformRing } from '@underlap/geometry/transform-region';
import { type MatchRules, matchRing } from './ring-match.ts';
import type { Part } from './sign.ts';

/** Equal on the bench: no hand tells a tenth of a millimetre, mm. Not mirrored: a painted face has two sides. */
const SAME_SHAPE: MatchRules = { toleranceMm: 0.1, largestInsetMm: 0, mayMirror: false };

/** Areas and outlines of equal parts agree within this share. */
const SAME_SHARE = 2e-3;

/**
 * Parts of the very same outline and holes, turned and moved: at the bench they are one and the same.
 * @returns for every part that has an earlier equal, the id of the first such part.
 * @remarks Area and length of outlines sort nearly all pairs out; the rest take one registration each.
 */
export function equalParts(parts: readonly Part[]): Map<string, string> {
  const firsts: Part[] = [];
  const out = new Map<string, string>();
  for (const part of parts) {
    const first = firsts.find((candidate) => areEqual(part, candidate));
    if (first === undefined) firsts.push(part);
    else out.set(part.id, first.id);
  }
  return out;
}

function areEqual(a: Part, b: Part): boolean {
  if (a.region.holes.length !== b.region.holes.length) return false;
  if (!agree(regionArea(a.region), regionArea(b.region))) return false;
  if (!agree(ringPerimeter(a.region.outer), ringPerimeter(b.region.outer))) return false;
  const match = matchRing(a.region.outer, b.region.outer, SAME_SHAPE);
  if (match === null || match.errorMm > SAME_SHAPE.toleranceMm) return false;
  return a.region.holes.every((hole) => {
    const moved = transformRing(hole, match.matrix);
    return b.region.holes.some((other) => isSameRing(moved, other) && isSameRing(other, moved));
  });
}

function agree(a: number, b: number): boolean {
  return Math.abs(a - b) <= SAME_SHARE * Math.max(a, b);
}

/** Does every corner of one ring lie on the other? O(n x m). */
function isSameRing(ring: Float64Array, other: Float64Array): boolean {
  for (let i = 0; i < ring.length; i += 2) {
    if (distanceTo(other, ring[i]!, ring[i + 1]!) > SAME_SHAPE.toleranceMm) return false;
  }
  return true;
}

function distanceTo(ring: Float64Array, x: number, y: number): number {
  let least = Number.POSITIVE_INFINITY;
  for (let i = 0, j = ring.length - 2; i < ring.length; j = i, i += 2) {
    const dx = ring[i]! - ring[j]!;
    const dy = ring[i + 1]! - ring[j + 1]!;
    const square = dx * dx + dy * dy;
    const u = square > 0 ? Math.min(1, Math.max(0, ((x - ring[j]!) * dx + (y - ring[j + 1]!) * dy) / square)) : 0;
    least = Math.min(least, Math.hypot(x - ring[j]! - u * dx, y - ring[j + 1]! - u * dy));
  }
  return least;
}
