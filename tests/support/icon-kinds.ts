import { type Region, regionArea, regionBounds } from '@underlap/geometry/region';
import { transformRegion } from '@underlap/geometry/transform-region';
import { parseRegions } from '@underlap/job/path-regions';
import type { NestProblem } from '@underlap/nest/problem';
import seedrandom from 'seedrandom';
import { iconCorpus } from './icon-corpus.ts';
import { boardStock, nestPart, nestProblem } from './nest-problems.ts';

/** A day of many designs: how many shapes, how many copies in all, how many corners an outline has at least and at most. */
export interface KindsWish {
  readonly seed: string;
  readonly kinds: number;
  readonly copies: number;
  readonly corners: readonly [number, number];
  /** Sides of the shapes' boxes, mm: from, to; small ones are more frequent. */
  readonly sides: readonly [number, number];
  /** Are openings left out, as in outlines of motifs? Default: they stay, and small shapes may lie in them. */
  readonly isSolid?: boolean;
}

/**
 * Pieces of many shapes: the largest area of icons that hands unknown to us drew, scaled. Each is taken once, in four turns.
 * The same wish gives the same problem while the icon set stays the same.
 */
export function iconKinds(wish: KindsWish): NestProblem {
  const random = seedrandom(wish.seed);
  const files = iconCorpus().filter((file) => file.name.startsWith('svg/'));
  const taken = new Set<number>();
  const pieces: NestProblem['pieces'][number][] = [];
  while (pieces.length < wish.kinds) {
    const at = Math.floor(random() * files.length);
    if (taken.has(at)) continue;
    taken.add(at);
    const side = wish.sides[0] + (wish.sides[1] - wish.sides[0]) * random() ** 2;
    const drawn = largestArea(files[at]!.read(), side);
    if (drawn === null) continue;
    const region = wish.isSolid === true ? { outer: drawn.outer, holes: [] } : drawn;
    const corners = region.outer.length / 2;
    if (corners < wish.corners[0] || corners > wish.corners[1]) continue;
    const index = pieces.length;
    const quantity = Math.floor(wish.copies / wish.kinds) + (index < wish.copies % wish.kinds ? 1 : 0);
    pieces.push(nestPart(`kind ${index + 1}`, region, { quantity, turns: 'quarter' }));
  }
  return nestProblem(pieces, [boardStock(508, 305)]);
}

/** The largest area of a drawing of one path, its box's longer side as asked; null where there is none. */
function largestArea(svg: string, side: number): Region | null {
  const data = /\sd="([^"]+)"/.exec(svg)?.[1];
  if (data === undefined) return null;
  // flattened at the size it will have: the corners are those of a drawing of that size
  const regions = parseRegions(data).sort((a, b) => regionArea(b) - regionArea(a));
  const first = regions[0];
  if (first === undefined) return null;
  const { minX, minY, maxX, maxY } = regionBounds(first);
  const scale = side / Math.max(maxX - minX, maxY - minY);
  if (!(scale > 0 && Number.isFinite(scale))) return null;
  return transformRegion(first, { a: scale, b: 0, c: 0, d: scale, e: -minX * scale, f: -minY * scale });
}
