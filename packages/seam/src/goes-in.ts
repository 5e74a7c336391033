import { contourBounds, transformContour } from '@underlap/geometry/contour';
import type { Shape } from '@underlap/geometry/curve';
import { feasibleTurns } from '@underlap/geometry/goes-in-rectangle';
import { convexHull } from '@underlap/geometry/hull';
import { placementMatrix } from '@underlap/geometry/matrix';
import type { Ring } from '@underlap/geometry/ring';
import type { Limit } from './task.ts';

/** A piece exactly as large as the bed fits in spite of rounding, mm. */
const FIT_SLACK_MM = 1e-6;

/** Turns for each limit at which a piece fits. */
export type LimitTurns = Record<Limit['name'], number>;

/**
 * Does a shape, grown by half the kerf, fit every limit under some turn of its own, measured on its exact curves?
 * @param hull - vertices on the shape's outline; only used to find turns worth measuring.
 * @returns a turn in 0..180 degrees for each limit (0 and 90 preferred), or null when a limit cannot be met.
 * @remarks Growing by a disc adds the kerf to the extent in every direction, so the limit is reduced instead. O(n log n + h^2).
 */
export function exactTurns(shape: Shape, hull: Ring, limits: readonly Limit[], kerf: number): LimitTurns | null {
  const turns: LimitTurns = { bed: 0, board: 0 };
  for (const limit of limits) {
    const width = limit.width - kerf;
    const height = limit.height - kerf;
    if (!(width > 0) || !(height > 0)) return null;
    const turn = exactTurn(shape, hull, width, height);
    if (turn === null) return null;
    turns[limit.name] = turn;
  }
  return turns;
}

/** Turns tried before the exact answer is worked out, degrees. */
const QUICK_STEP_DEG = 2;

/**
 * Test on vertices only; what it accepts may exceed a limit by the flattening tolerance.
 * @remarks O(h) for most hulls: turns every 2 degrees decide, with the most that an extent can change in between; only what
 * stays open is worked out exactly in O(h^2).
 */
export function roughlyGoesIn(hull: Ring, limits: readonly Limit[], kerf: number): boolean {
  return limits.every((limit) => {
    const width = limit.width - kerf;
    const height = limit.height - kerf;
    if (!(width > 0) || !(height > 0)) return false;
    const quick = quickAnswer(hull, width, height);
    return quick === 'open' ? feasibleTurns(hull, width, height).length > 0 : quick === 'yes';
  });
}

/** Estimate for searching: like roughlyGoesIn, but what only fits between the turns tried counts as too large. */
export function likelyGoesIn(hull: Ring, limits: readonly Limit[], kerf: number): boolean {
  return limits.every((limit) => quickAnswer(hull, limit.width - kerf, limit.height - kerf) === 'yes');
}

function quickAnswer(hull: Ring, width: number, height: number): 'yes' | 'no' | 'open' {
  // An extent changes by no more than the hull's size per radian of turn.
  const box = berthAt(hull, 0, width, height);
  const swing = (Math.hypot(box.maxX - box.minX, box.maxY - box.minY) * QUICK_STEP_DEG * Math.PI) / 360;
  let isOpen = false;
  for (let deg = 0; deg < 180; deg += QUICK_STEP_DEG) {
    const berth = deg === 0 ? box : berthAt(hull, deg, width, height);
    const overX = berth.maxX - berth.minX - width;
    const overY = berth.maxY - berth.minY - height;
    if (overX <= 0 && overY <= 0) return 'yes';
    if (overX <= swing && overY <= swing) isOpen = true;
  }
  return isOpen ? 'open' : 'no';
}

/** How far the limits leave room around a piece: a rectangle in the piece's frame, by its turn and the middle of the room. */
export interface Berth {
  readonly turnDeg: number;
  /** Extent of the piece along the turned axes, and the limit net of kerf. */
  readonly minX: number;
  readonly maxX: number;
  readonly minY: number;
  readonly maxY: number;
  readonly width: number;
  readonly height: number;
}

/** The turn at which the limit leaves the most room around the points; null when it does not hold them. */
export function roomiestBerth(hull: Ring, limit: Limit, kerf: number): Berth | null {
  const width = limit.width - kerf;
  const height = limit.height - kerf;
  let best: Berth | null = null;
  let most = -Infinity;
  for (const { fromDeg, toDeg } of feasibleTurns(hull, width, height)) {
    const steps = Math.max(2, Math.ceil((toDeg - fromDeg) / 3));
    for (let k = 0; k <= steps; k++) {
      const berth = berthAt(hull, fromDeg + ((toDeg - fromDeg) * k) / steps, width, height);
      const room = Math.min(width - (berth.maxX - berth.minX), height - (berth.maxY - berth.minY));
      if (room > most) {
        most = room;
        best = berth;
      }
    }
  }
  return best;
}

/** Would the berth still hold its piece when the points are added to it? */
export function holdsToo(berth: Berth, points: Ring): boolean {
  const cos = Math.cos((berth.turnDeg * Math.PI) / 180);
  const sin = Math.sin((berth.turnDeg * Math.PI) / 180);
  let { minX, maxX, minY, maxY } = berth;
  for (let i = 0; i < points.length; i += 2) {
    const x = points[i]! * cos - points[i + 1]! * sin;
    const y = points[i]! * sin + points[i + 1]! * cos;
    minX = Math.min(minX, x);
    maxX = Math.max(maxX, x);
    minY = Math.min(minY, y);
    maxY = Math.max(maxY, y);
  }
  return maxX - minX <= berth.width && maxY - minY <= berth.height;
}

/** The berth with the points added to its piece. */
export function widenedBerth(berth: Berth, points: Ring): Berth {
  const extent = berthAt(points, berth.turnDeg, berth.width, berth.height);
  return {
    ...berth,
    minX: Math.min(berth.minX, extent.minX),
    maxX: Math.max(berth.maxX, extent.maxX),
    minY: Math.min(berth.minY, extent.minY),
    maxY: Math.max(berth.maxY, extent.maxY),
  };
}

/** Longer and shorter side that every limit grants a piece, net of kerf (a piece that fits this box fits every limit). */
export function commonBox(limits: readonly Limit[], kerf: number): { long: number; short: number } {
  let long = Infinity;
  let short = Infinity;
  for (const limit of limits) {
    long = Math.min(long, Math.max(limit.width, limit.height) - kerf);
    short = Math.min(short, Math.min(limit.width, limit.height) - kerf);
  }
  return { long, short };
}

function exactTurn(shape: Shape, points: Ring, width: number, height: number): number | null {
  const hull = convexHull(points);
  const quick = quickAnswer(hull, width, height);
  if (quick === 'no') return null;
  for (const straight of [0, 90]) if (measuresWithin(shape, straight, width, height)) return straight;
  const intervals = feasibleTurns(hull, width, height);
  const tries: number[] = [];
  const widest = [...intervals].sort((a, b) => b.toDeg - b.fromDeg - (a.toDeg - a.fromDeg));
  for (const { fromDeg, toDeg } of widest) {
    for (const share of [0.5, 0.25, 0.75, 0, 1]) tries.push(fromDeg + share * (toDeg - fromDeg));
  }
  return tries.find((turn) => measuresWithin(shape, turn, width, height)) ?? null;
}

function measuresWithin(shape: Shape, turn: number, width: number, height: number): boolean {
  const box = contourBounds(transformContour(shape.outer, placementMatrix(0, 0, turn)));
  return box.maxX - box.minX <= width + FIT_SLACK_MM && box.maxY - box.minY <= height + FIT_SLACK_MM;
}

function berthAt(points: Ring, turnDeg: number, width: number, height: number): Berth {
  const cos = Math.cos((turnDeg * Math.PI) / 180);
  const sin = Math.sin((turnDeg * Math.PI) / 180);
  let minX = Infinity;
  let maxX = -Infinity;
  let minY = Infinity;
  let maxY = -Infinity;
  for (let i = 0; i < points.length; i += 2) {
    const x = points[i]! * cos - points[i + 1]! * sin;
    const y = points[i]! * sin + points[i + 1]! * cos;
    if (x < minX) minX = x;
    if (x > maxX) maxX = x;
    if (y < minY) minY = y;
    if (y > maxY) maxY = y;
  }
  return { turnDeg, minX, maxX, minY, maxY, width, height };
}
