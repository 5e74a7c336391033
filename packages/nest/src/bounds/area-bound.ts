import { ringArea, ringPerimeter } from '@underlap/geometry/ring';
import type { Prepared, PreparedStock } from '../shape/prepare.ts';

/** Relative slack that keeps a sum equal to whole boards (a jigsaw) from being rounded up by its own rounding. */
export const BOUND_SLACK = 1e-6;

/**
 * Fewest boards that hold the pieces' areas, largest boards first and no more of a kind than there are.
 *
 * Half the spacing belongs to each piece: pieces grown by it do not overlap, and they stay inside the board less its margin,
 * grown by the same. A set of area A grown by r covers at least (sqrt(A) + r sqrt(pi))^2 (Brunn-Minkowski inequality, textbook),
 * whatever its shape.
 * @param counts - how many of each part.
 */
export function areaBound(prepared: Prepared, counts: readonly number[]): number {
  const r = prepared.problem.rules.spacing / 2;
  const reach = r * Math.sqrt(Math.PI);
  let rest = 0;
  for (const part of prepared.pieces) rest += counts[part.index]! * (Math.sqrt(part.areaMm2) + reach) ** 2;
  const total = rest;
  const kinds = prepared.stocks
    .map((stock) => ({ room: roomOf(stock, prepared.problem.rules.margin, r), count: stock.stock.count }))
    .filter(({ room, count }) => room > 0 && count !== 0)
    .sort((a, b) => b.room - a.room);
  let boards = 0;
  for (const { room, count } of kinds) {
    if (rest <= total * BOUND_SLACK) break;
    const needed = Math.max(1, Math.ceil(rest / room - BOUND_SLACK));
    const taken = count === null ? needed : Math.min(count, needed);
    boards += taken;
    rest -= taken * room;
  }
  return boards;
}

/** No less than the area that pieces grown by r can cover on the board, mm2. */
function roomOf(stock: PreparedStock, margin: number, r: number): number {
  const inset = margin - r;
  const box = Math.max(0, stock.width - 2 * inset) * Math.max(0, stock.height - 2 * inset);
  if (stock.obstacles.length === 0) return box;
  // an odd outline: with a wide margin the grown pieces stay inside it, else within a strip of r - margin around it
  const { outer, holes } = stock.stock.outline;
  const rings = [outer, ...holes];
  const beyond = Math.max(0, -inset);
  const strip = rings.reduce((sum, ring) => sum + ringPerimeter(ring) * beyond, 0) + Math.PI * beyond * beyond;
  return Math.min(box, rings.reduce((sum, ring) => sum + ringArea(ring), 0) + strip);
}
