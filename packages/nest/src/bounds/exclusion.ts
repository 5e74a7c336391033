import type { Region } from '@underlap/geometry/region';
import { isInRing, type Ring, ringBounds } from '@underlap/geometry/ring';
import { NoFitCache } from '../nfp/no-fit-cache.ts';
import { growSimpler } from '../shape/grow-simple.ts';
import { SEARCH_TOLERANCE_MM } from '../shape/outer-outline.ts';
import type { Prepared, PreparedPiece } from '../shape/prepare.ts';
import type { TurnedForm } from '../shape/turned-form.ts';

/** How far the outlines that exclusion is proved with may lie outside the search outlines, mm: large parts need no more. */
const COARSE_MM = 1;
/**
 * What the coarse outlines of two parts add to their no-fit polygon, what the search outlines add to their boxes, and a little
 * for rounding, mm: places must lie deeper than this inside before two parts are said to exclude each other.
 */
const SAFETY_MM = 2 * (COARSE_MM + SEARCH_TOLERANCE_MM) + 2 * SEARCH_TOLERANCE_MM + 0.1;
/** Most parts looked at, largest first: small parts exclude nothing. */
const MOST_PARTS = 60;
/** No-fit polygons built for one bound; pairs beyond are taken to share, which is always safe. */
const MOST_POLYGONS = 300;
/** Most attitudes of one part that are compared one by one; with more, turns are too fine to be told apart cheaply. */
const MOST_ATTITUDES = 8;

/**
 * Boards needed by parts that exclude each other: no two pieces of a clique can share a board, so each needs its own.
 * A pair excludes itself when on every kind of board and in all allowed turns the places that keep both inside the board all
 * lie within the no-fit polygon.
 * @param counts - how many of each part.
 * @param noFits - polygons made for other layouts of the same parts.
 * @returns the size of the largest clique found (greedy: any clique is a proof).
 */
export function exclusionBound(prepared: Prepared, counts: readonly number[], noFits = new NoFitCache()): number {
  const parts = prepared.pieces
    .filter((part) => counts[part.index]! > 0 && listsAllTurns(part))
    .sort((a, b) => b.areaMm2 - a.areaMm2 || a.index - b.index)
    .slice(0, MOST_PARTS);
  if (parts.length === 0) return counts.some((count) => count > 0) ? 1 : 0;
  const known = new Map<string, boolean>();
  const polygons = { left: MOST_POLYGONS, noFits };
  const excludes = (a: PreparedPiece, b: PreparedPiece): boolean => {
    const key = a.index < b.index ? `${a.index} ${b.index}` : `${b.index} ${a.index}`;
    let answer = known.get(key);
    if (answer === undefined) {
      answer = neverShare(prepared, a, b, polygons);
      known.set(key, answer);
    }
    return answer;
  };
  let best = 1;
  for (const first of parts) {
    const clique: PreparedPiece[] = [];
    let size = 0;
    for (const part of [first, ...parts.filter((p) => p !== first)]) {
      if (!clique.every((member) => excludes(member, part))) continue;
      clique.push(part);
      size += excludes(part, part) ? counts[part.index]! : 1;
    }
    best = Math.max(best, size);
  }
  return best;
}

/** Free rotation and fine steps have turns that no list holds. */
function listsAllTurns(part: PreparedPiece): boolean {
  return part.piece.turns !== 'any' && part.offGrain.length <= MOST_ATTITUDES;
}

/** Where no-fit polygons come from, and how many more may be asked for. */
interface Polygons {
  left: number;
  readonly noFits: NoFitCache;
}

function neverShare(prepared: Prepared, a: PreparedPiece, b: PreparedPiece, polygons: Polygons): boolean {
  const { spacing, margin } = prepared.problem.rules;
  for (const stock of prepared.stocks) {
    if (stock.stock.count === 0) continue;
    const width = stock.width - 2 * margin;
    const height = stock.height - 2 * margin;
    const attitudes = (part: PreparedPiece) =>
      (stock.stock.hasGrain ? part.onGrain : part.offGrain).filter(
        ({ bounds }) =>
          bounds.maxX - bounds.minX <= width + SAFETY_MM && bounds.maxY - bounds.minY <= height + SAFETY_MM,
      );
    const left = attitudes(a);
    const right = attitudes(b);
    // side by side or one above the other is the common way to share: no polygon needed
    if (left.some((p) => right.some((q) => standBeside(p, q, width, height, spacing)))) return false;
    // turning the whole board by half repeats the other half of the pairs
    const isSymmetric = right.every((q) => hasOpposite(q, right));
    for (const p of left) {
      if (isSymmetric && p.turnDeg >= 180 && hasOpposite(p, left)) continue;
      for (const q of right) {
        if (polygons.left-- <= 0) return false;
        if (!isCovered(p, q, width, height, spacing, polygons.noFits)) return false;
      }
    }
  }
  return true;
}

function hasOpposite(turned: TurnedForm, list: readonly TurnedForm[]): boolean {
  return list.some(
    (o) => o.mirrored === turned.mirrored && Math.abs(Math.abs(o.turnDeg - turned.turnDeg) - 180) < 1e-9,
  );
}

function standBeside(p: TurnedForm, q: TurnedForm, width: number, height: number, spacing: number): boolean {
  const w = p.bounds.maxX - p.bounds.minX + q.bounds.maxX - q.bounds.minX + spacing;
  const h = p.bounds.maxY - p.bounds.minY + q.bounds.maxY - q.bounds.minY + spacing;
  return w <= width + SAFETY_MM || h <= height + SAFETY_MM;
}

function coarseRegion(turned: TurnedForm): Region {
  const [outer, ...holes] = turned.rings.map((ring) => growSimpler(ring, COARSE_MM / 2));
  return { outer: outer!, holes };
}

/**
 * Do all displacements that keep both pieces on the board lie too near, by the safety? The displacements are a rectangle; each
 * of its points is within the spacing of the rectangle shrunk by spacing / sqrt(2), so that one need only lie in the polygon.
 */
function isCovered(
  p: TurnedForm,
  q: TurnedForm,
  width: number,
  height: number,
  spacing: number,
  noFits: NoFitCache,
): boolean {
  const reach = SAFETY_MM - spacing * Math.SQRT1_2;
  // origins of p range over [-p.minX, width - p.maxX], of q likewise; their differences over a box
  const [minX, maxX] = grownRange(
    -q.bounds.minX - (width - p.bounds.maxX),
    width - q.bounds.maxX + p.bounds.minX,
    reach,
  );
  const [minY, maxY] = grownRange(
    -q.bounds.minY - (height - p.bounds.maxY),
    height - q.bounds.maxY + p.bounds.minY,
    reach,
  );
  const [fixed, moving] = [coarseRegion(p), coarseRegion(q)];
  const { rings } = noFits.polygon(fixed, noFits.shapeOf(fixed), moving, noFits.shapeOf(moving), 0);
  const inside = rings.filter((ring) => isInRing(ring, (minX + maxX) / 2, (minY + maxY) / 2)).length;
  if (inside % 2 !== 1) return false;
  return rings.every((ring) => isClearOfBox(ring, minX, minY, maxX, maxY));
}

/** A range grown (or shrunk, no further than to its middle) at both ends. */
function grownRange(from: number, to: number, reach: number): [number, number] {
  const middle = (from + to) / 2;
  return [Math.min(middle, from - reach), Math.max(middle, to + reach)];
}

/** Does no edge of the ring reach into the box? Separating-axis test for each edge. */
function isClearOfBox(ring: Ring, minX: number, minY: number, maxX: number, maxY: number): boolean {
  const b = ringBounds(ring);
  if (b.maxX < minX || b.minX > maxX || b.maxY < minY || b.minY > maxY) return true;
  const n = ring.length;
  for (let i = 0; i < n; i += 2) {
    const j = i + 2 === n ? 0 : i + 2;
    const [x0, y0, x1, y1] = [ring[i]!, ring[i + 1]!, ring[j]!, ring[j + 1]!];
    if (Math.max(x0, x1) < minX || Math.min(x0, x1) > maxX || Math.max(y0, y1) < minY || Math.min(y0, y1) > maxY)
      continue;
    const sides = [
      [minX, minY],
      [maxX, minY],
      [maxX, maxY],
      [minX, maxY],
    ].map(([x, y]) => Math.sign((x1 - x0) * (y! - y0) - (y1 - y0) * (x! - x0)));
    if (sides.some((side) => side <= 0) && sides.some((side) => side >= 0)) return false;
  }
  return true;
}
