import { distanceBetweenRings } from '@underlap/geometry/distance';
import { placementMatrix } from '@underlap/geometry/matrix';
import type { Point } from '@underlap/geometry/point';
import { isInRegion, type Region } from '@underlap/geometry/region';
import { type Bounds, type Ring, ringBounds } from '@underlap/geometry/ring';
import { transformRegion } from '@underlap/geometry/transform-region';
import type { TouchAnswer } from '../workers/api.ts';

/** What lies on a sheet beside the piece in hand, in the sheet's frame. */
export interface SheetGround {
  readonly board: Region;
  readonly forbidden: readonly Region[];
  readonly others: readonly { readonly id: string; readonly region: Region }[];
  readonly spacing: number;
  readonly margin: number;
}

/** A hair's breadth, mm: distances this much short of what is asked still count, since outlines are chords of curves. */
const SLACK_MM = 1e-6;
/** How far round the hand a free place is looked for, mm, and how finely. */
const REACH_MM = 600;
const FIRST_STEP_MM = 0.5;
const STEP_GROWTH = 1.22;
const DIRECTIONS = 36;
const BISECTIONS = 12;

/**
 * Is a piece free where the hand holds it, and if not, where is the nearest free place?
 * @param piece - as cut, in the sheet's frame, where the hand holds it; the nearest place is a shift of it.
 * @remarks Rings of growing size round the hand, then bisection towards it: near the nearest place, not proven nearest.
 * The layout is checked exactly and independently before anything is written.
 */
export function touchAt(piece: Region, ground: SheetGround): TouchAnswer & { readonly shift: Point | null } {
  const obstacles = obstaclesOf(ground);
  const why = blockedBy(piece, { x: 0, y: 0 }, ground, obstacles);
  if (why === null) return { isFree: true, why, nearest: null, shift: { x: 0, y: 0 } };
  const shift = nearestFree(piece, ground, obstacles);
  return { isFree: false, why, nearest: null, shift };
}

interface Obstacle {
  /** Null = a place where nothing may lie. */
  readonly pieceId: string | null;
  readonly region: Region;
  readonly box: Bounds;
  readonly clearance: number;
}

function obstaclesOf({ others, forbidden, spacing }: SheetGround): Obstacle[] {
  return [
    ...others.map(({ id, region }) => ({ pieceId: id, region, box: ringBounds(region.outer), clearance: spacing })),
    ...forbidden.map((region) => ({
      pieceId: null,
      region,
      box: ringBounds(region.outer),
      clearance: spacing,
    })),
  ];
}

/** Why the piece, shifted, cannot lie there; null when it can. */
function blockedBy(
  piece: Region,
  shift: Point,
  ground: SheetGround,
  obstacles: readonly Obstacle[],
): TouchAnswer['why'] {
  const moved = shifted(piece, shift);
  const box = ringBounds(moved.outer);
  if (!isOnBoard(moved, box, ground)) return { kind: 'off-board' };
  for (const obstacle of obstacles) {
    const gap = obstacle.clearance;
    const { box: other } = obstacle;
    if (box.minX > other.maxX + gap || box.maxX < other.minX - gap) continue;
    if (box.minY > other.maxY + gap || box.maxY < other.minY - gap) continue;
    if (!isTooNear(moved, obstacle.region, gap)) continue;
    return obstacle.pieceId === null ? { kind: 'forbidden' } : { kind: 'piece', id: obstacle.pieceId };
  }
  return null;
}

function isOnBoard(piece: Region, box: Bounds, { board, margin }: SheetGround): boolean {
  const edge = ringBounds(board.outer);
  const slack = margin - SLACK_MM;
  if (box.minX < edge.minX + slack || box.maxX > edge.maxX - slack) return false;
  if (box.minY < edge.minY + slack || box.maxY > edge.maxY - slack) return false;
  if (board.outer.length === 8 && board.holes.length === 0) return true;
  if (!isInRegion(board, piece.outer[0]!, piece.outer[1]!)) return false;
  return [board.outer, ...board.holes].every((ring) => distanceBetweenRings(piece.outer, ring) >= slack);
}

/** Nearer than `gap`, touching, or one within the other. */
function isTooNear(a: Region, b: Region, gap: number): boolean {
  if (isInRegion(b, a.outer[0]!, a.outer[1]!) || isInRegion(a, b.outer[0]!, b.outer[1]!)) return true;
  const rings = [b.outer, ...b.holes];
  return [a.outer, ...a.holes].some((own) => rings.some((ring) => distanceBetweenRings(own, ring) < gap - SLACK_MM));
}

function nearestFree(piece: Region, ground: SheetGround, obstacles: readonly Obstacle[]): Point | null {
  const isFree = (shift: Point): boolean => blockedBy(piece, shift, ground, obstacles) === null;
  let inner = 0;
  for (
    let radius = FIRST_STEP_MM;
    radius <= REACH_MM;
    radius = Math.max(radius * STEP_GROWTH, radius + FIRST_STEP_MM)
  ) {
    let best: Point | null = null;
    let bestRadius = Number.POSITIVE_INFINITY;
    for (let k = 0; k < DIRECTIONS; k++) {
      const angle = (k / DIRECTIONS) * 2 * Math.PI;
      const way = { x: Math.cos(angle), y: Math.sin(angle) };
      if (!isFree({ x: way.x * radius, y: way.y * radius })) continue;
      const reached = bisected(way, inner, radius, isFree);
      if (reached < bestRadius) {
        bestRadius = reached;
        best = { x: way.x * reached, y: way.y * reached };
      }
    }
    if (best !== null) return best;
    inner = radius;
  }
  return null;
}

/** The least radius between a blocked and a free one that bisection finds free. */
function bisected(way: Point, blocked: number, free: number, isFree: (shift: Point) => boolean): number {
  let low = blocked;
  let high = free;
  for (let i = 0; i < BISECTIONS; i++) {
    const middle = (low + high) / 2;
    if (isFree({ x: way.x * middle, y: way.y * middle })) high = middle;
    else low = middle;
  }
  return high;
}

function shifted(region: Region, { x, y }: Point): Region {
  if (x === 0 && y === 0) return region;
  const move = (ring: Ring): Ring => {
    const out = new Float64Array(ring.length);
    for (let i = 0; i < ring.length; i += 2) {
      out[i] = ring[i]! + x;
      out[i + 1] = ring[i + 1]! + y;
    }
    return out;
  };
  return { outer: move(region.outer), holes: region.holes.map(move) };
}

/** A piece's cut region where a placement puts it. */
export function placedRegion(
  region: Region,
  { x, y, turnDeg, mirrored }: { x: number; y: number; turnDeg: number; mirrored: boolean },
): Region {
  return transformRegion(region, placementMatrix(x, y, turnDeg, mirrored));
}
