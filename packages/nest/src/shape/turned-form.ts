import { placementMatrix } from '@underlap/geometry/matrix';
import { type Bounds, type Ring, reversedRing, ringArea, ringBounds } from '@underlap/geometry/ring';
import { transformRing } from '@underlap/geometry/transform-region';
import { buildProfile, type Profile } from './profile.ts';

/** A piece's outline in one allowed attitude: mirrored or not, turned about its frame's origin, not yet moved. */
export interface TurnedForm {
  /** Unique within one prepared problem; key of caches. */
  readonly key: number;
  readonly pieceIndex: number;
  readonly turnDeg: number;
  readonly mirrored: boolean;
  /** Outer ring first, then holes; each contains the exact outline on its material side. */
  readonly rings: readonly Ring[];
  readonly bounds: Bounds;
  /** What it covers, column by column, when grown by `growth` mm; built at first use. */
  profile(growth: number): Profile;
}

export function turnForm(
  key: number,
  pieceIndex: number,
  rings: readonly Ring[],
  turnDeg: number,
  mirrored: boolean,
): TurnedForm {
  const matrix = placementMatrix(0, 0, turnDeg, mirrored);
  const moved = rings.map((ring, index) => {
    const moved = transformRing(ring, matrix);
    return ringArea(moved) * (index === 0 ? 1 : -1) >= 0 ? moved : reversedRing(moved);
  });
  const cache = new Map<number, Profile>();
  const bounds = ringBounds(moved[0]!);
  return {
    key,
    pieceIndex,
    turnDeg,
    mirrored,
    rings: moved,
    bounds,
    profile(growth) {
      let known = cache.get(growth);
      if (known === undefined) {
        known = buildProfile(moved, growth);
        cache.set(growth, known);
      }
      return known;
    },
  };
}

/** Do two attitudes cover the same set up to a move (a square turned by 90 degrees)? O(n^2) on the few that pass the box test. */
export function isSameUpToMove(a: TurnedForm, b: TurnedForm, tolerance = 1e-6): boolean {
  const dx = b.bounds.minX - a.bounds.minX;
  const dy = b.bounds.minY - a.bounds.minY;
  if (
    Math.abs(b.bounds.maxX - a.bounds.maxX - dx) > tolerance ||
    Math.abs(b.bounds.maxY - a.bounds.maxY - dy) > tolerance ||
    a.rings.length !== b.rings.length
  ) {
    return false;
  }
  const used = new Set<number>();
  return a.rings.every((ring) => {
    const match = b.rings.findIndex((other, i) => !used.has(i) && isSameRing(ring, other, dx, dy, tolerance));
    if (match < 0) return false;
    used.add(match);
    return true;
  });
}

function isSameRing(a: Ring, b: Ring, dx: number, dy: number, tolerance: number): boolean {
  if (a.length !== b.length) return false;
  const n = a.length;
  for (let shift = 0; shift < n; shift += 2) {
    let i = 0;
    while (
      i < n &&
      Math.abs(a[i]! + dx - b[(i + shift) % n]!) <= tolerance &&
      Math.abs(a[i + 1]! + dy - b[(i + shift + 1) % n]!) <= tolerance
    ) {
      i += 2;
    }
    if (i >= n) return true;
  }
  return false;
}
