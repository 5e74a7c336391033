import { type Region, regionArea } from '@underlap/geometry/region';
import { assertFiniteRing, type Bounds, type Ring, ringBounds } from '@underlap/geometry/ring';
import { type CopyRef, copyName } from '../copy.ts';
import { NestError } from '../error.ts';
import type { NestPiece, NestProblem, Stock } from '../problem.ts';
import { turnsOf } from '../turns.ts';
import { growSimpler } from './grow-simple.ts';
import { outerRings, SEARCH_TOLERANCE_MM } from './outer-outline.ts';
import { isSameUpToMove, type TurnedForm, turnForm } from './turned-form.ts';
import { windowsOf } from './windows.ts';

/** A piece as the search sees it. */
export interface PreparedPiece {
  readonly index: number;
  readonly piece: NestPiece;
  /** Contain the exact outline; outer first. */
  readonly rings: readonly Ring[];
  /** Net area of what is cut, mm2. */
  readonly areaMm2: number;
  /** Attitudes on a board with grain, and on one without. */
  readonly onGrain: readonly TurnedForm[];
  readonly offGrain: readonly TurnedForm[];
}

export interface PreparedCopy extends CopyRef {
  readonly index: number;
  /** As `copyName` writes it: for messages and tables. */
  readonly name: string;
  readonly pieceIndex: number;
  readonly group: string | null;
}

/** Something on a board that pieces keep `gap` mm away from: the outside of an odd outline, a flaw, a clamp. */
export interface Obstacle {
  readonly rings: readonly Ring[];
  readonly gap: number;
  readonly bounds: Bounds;
}

export interface PreparedStock {
  readonly index: number;
  readonly stock: Stock;
  readonly width: number;
  readonly height: number;
  readonly areaMm2: number;
  readonly obstacles: readonly Obstacle[];
  /** What is reached at one loading each; the whole board when the stock has no reach of its own. */
  readonly windows: readonly Bounds[];
}

export interface Prepared {
  readonly problem: NestProblem;
  readonly pieces: readonly PreparedPiece[];
  readonly copies: readonly PreparedCopy[];
  readonly stocks: readonly PreparedStock[];
}

/** Outlines with no more vertices than this are searched as they are. */
const FEW_VERTICES = 12;

/** How far the outside of an odd board is drawn around it, as a multiple of the board's size. */
const OUTSIDE_REACH = 3;

/**
 * Read a problem once: expand pieces, build search outlines and attitudes, turn boards into boxes with obstacles.
 * @throws NestError `bad-piece`, `bad-stock`, `bad-rule` naming what cannot be used.
 * @remarks O(vertices log vertices) for each part and attitude.
 */
export function prepareProblem(problem: NestProblem): Prepared {
  checkRules(problem);
  const outlines = problem.pieces.map(searchRings);
  const narrowest = Math.min(...outlines.map((rings) => leastWidth(rings[0]!)));
  let key = 0;
  const pieces = problem.pieces.map((piece, index): PreparedPiece => {
    const roomiest = narrowest + 2 * problem.rules.spacing;
    const rings = outlines[index]!.filter((ring, i) => i === 0 || leastBox(ring) >= roomiest);
    const attitudes = (hasGrain: boolean): TurnedForm[] => {
      const list: TurnedForm[] = [];
      for (const mirrored of piece.mayMirror ? [false, true] : [false]) {
        for (const turn of turnsOf(piece, hasGrain, mirrored)) {
          const next = turnForm(key, index, rings, turn, mirrored);
          if (list.some((known) => isSameUpToMove(known, next))) continue;
          key++;
          list.push(next);
        }
      }
      return list;
    };
    const offGrain = attitudes(false);
    const onGrain = piece.keepsGrain ? attitudes(true) : offGrain;
    return { index, piece, rings, areaMm2: regionArea(piece.region), onGrain, offGrain };
  });
  const copies: PreparedCopy[] = [];
  for (const { piece, index: pieceIndex } of pieces) {
    const pieceId = piece.id;
    for (let copy = 1; copy <= piece.quantity; copy++) {
      const group = piece.groups[copy - 1] ?? null;
      copies.push({ index: copies.length, pieceId, copy, name: copyName({ pieceId, copy }), pieceIndex, group });
    }
  }
  const stocks = problem.stock.map((stock, index) => prepareStock(stock, index, problem));
  return { problem, pieces, copies, stocks };
}

/** The rings that the search works with: exact where the outline is straight, at most the tolerance larger where it bends. */
export function searchRings(piece: NestPiece): Ring[] {
  if (piece.outline === null) {
    // half for chords, half for corners, where both meet
    const rings = [piece.region.outer, ...piece.region.holes];
    return rings.map((ring) => (ring.length > FEW_VERTICES * 2 ? growSimpler(ring, SEARCH_TOLERANCE_MM / 2) : ring));
  }
  // most for the tangents of curves, which spare vertices best; the rest for what was drawn with many short lines
  const rings = outerRings(piece.outline, SEARCH_TOLERANCE_MM * 0.6);
  return rings.map((ring) => (ring.length > FEW_VERTICES * 2 ? growSimpler(ring, SEARCH_TOLERANCE_MM * 0.2) : ring));
}

function prepareStock(stock: Stock, index: number, problem: NestProblem): PreparedStock {
  assertFiniteStock(stock);
  const bounds = ringBounds(stock.outline.outer);
  const width = bounds.maxX;
  const height = bounds.maxY;
  const { margin, spacing } = problem.rules;
  const obstacles: Obstacle[] = [];
  if (!isBox(stock.outline.outer, width, height)) {
    const reach = OUTSIDE_REACH * Math.max(width, height);
    const around = Float64Array.of(
      -reach,
      -reach,
      width + reach,
      -reach,
      width + reach,
      height + reach,
      -reach,
      height + reach,
    );
    obstacles.push(obstacleOf([around, stock.outline.outer], margin));
  }
  for (const hole of stock.outline.holes) obstacles.push(obstacleOf([hole], margin));
  for (const zone of stock.forbidden) obstacles.push(obstacleOf([zone.outer, ...zone.holes], spacing));
  return {
    index,
    stock,
    width,
    height,
    areaMm2: regionArea(stock.outline),
    obstacles,
    windows: windowsOf(width, height, stock.reach),
  };
}

function obstacleOf(rings: readonly Ring[], gap: number): Obstacle {
  return { rings, gap, bounds: ringBounds(rings[0]!) };
}

/** Is the outline its own bounding box? */
function isBox(ring: Ring, width: number, height: number): boolean {
  if (ring.length !== 8) return false;
  for (let i = 0; i < 8; i += 2) {
    if ((ring[i] !== 0 && ring[i] !== width) || (ring[i + 1] !== 0 && ring[i + 1] !== height)) return false;
  }
  return true;
}

function leastBox(ring: Ring): number {
  const b = ringBounds(ring);
  return Math.min(b.maxX - b.minX, b.maxY - b.minY);
}

/** Least extent of a ring over 36 directions; only decides which holes are worth keeping, so a sample is enough. */
function leastWidth(ring: Ring): number {
  let least = Infinity;
  for (let k = 0; k < 36; k++) {
    const c = Math.cos((k * Math.PI) / 36);
    const s = Math.sin((k * Math.PI) / 36);
    let lo = Infinity;
    let hi = -Infinity;
    for (let i = 0; i < ring.length; i += 2) {
      const d = ring[i]! * c + ring[i + 1]! * s;
      if (d < lo) lo = d;
      if (d > hi) hi = d;
    }
    if (hi - lo < least) least = hi - lo;
  }
  return least * 0.99;
}

function checkRules(problem: NestProblem): void {
  const { spacing, margin } = problem.rules;
  if (!(spacing >= 0 && Number.isFinite(spacing))) {
    throw new NestError('bad-rule', `spacing must be a length of 0 mm or more, not ${spacing}`, 'spacing');
  }
  if (!(margin >= 0 && Number.isFinite(margin))) {
    throw new NestError('bad-rule', `margin must be a length of 0 mm or more, not ${margin}`, 'margin');
  }
  const seen = new Set<string>();
  for (const piece of problem.pieces) {
    if (seen.has(piece.id)) throw new NestError('bad-piece', `two pieces are both called ${piece.id}`, piece.id);
    seen.add(piece.id);
    checkPiece(piece);
  }
}

function checkPiece(piece: NestPiece): void {
  if (!(Number.isInteger(piece.quantity) && piece.quantity >= 0)) {
    throw new NestError(
      'bad-piece',
      `piece ${piece.id}: the quantity must be a whole number, not ${piece.quantity}`,
      piece.id,
    );
  }
  if (piece.groups.length !== 0 && piece.groups.length !== piece.quantity) {
    throw new NestError(
      'bad-piece',
      `piece ${piece.id}: ${piece.groups.length} groups are listed for ${piece.quantity} copies`,
      piece.id,
    );
  }
  if (typeof piece.turns === 'object' && !(piece.turns.stepDeg >= 1 && piece.turns.stepDeg <= 360)) {
    throw new NestError(
      'bad-piece',
      `piece ${piece.id}: a turn step must lie between 1 and 360 degrees, not ${piece.turns.stepDeg}`,
      piece.id,
    );
  }
  if (!Number.isFinite(piece.baseTurnDeg)) {
    throw new NestError('bad-piece', `piece ${piece.id}: the base turn must be a number of degrees`, piece.id);
  }
  assertFiniteRegion(piece.region, `piece ${piece.id}`);
  if (!(regionArea(piece.region) > 0)) throw new NestError('bad-piece', `piece ${piece.id} has no area`, piece.id);
}

function assertFiniteRegion(region: Region, name: string): void {
  for (const ring of [region.outer, ...region.holes]) assertFiniteRing(ring, name);
}

function assertFiniteStock(stock: Stock): void {
  assertFiniteRegion(stock.outline, `board ${stock.id}`);
  for (const zone of stock.forbidden) assertFiniteRegion(zone, `a forbidden zone of board ${stock.id}`);
  if (!(regionArea(stock.outline) > 0)) throw new NestError('bad-stock', `board ${stock.id} has no area`, stock.id);
  const b = ringBounds(stock.outline.outer);
  if (Math.abs(b.minX) > 1e-6 || Math.abs(b.minY) > 1e-6) {
    throw new NestError(
      'bad-stock',
      `board ${stock.id} must have the upper left corner of its box at 0, 0, not at ${b.minX}, ${b.minY}`,
      stock.id,
    );
  }
  if (stock.count !== null && !(Number.isInteger(stock.count) && stock.count >= 0)) {
    throw new NestError(
      'bad-stock',
      `board ${stock.id}: the count must be a whole number or unlimited, not ${stock.count}`,
      stock.id,
    );
  }
  if (!(stock.price >= 0 && Number.isFinite(stock.price))) {
    throw new NestError('bad-stock', `board ${stock.id}: the price must be 0 or more, not ${stock.price}`, stock.id);
  }
}
