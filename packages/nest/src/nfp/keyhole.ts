import type { Region } from '@underlap/geometry/region';
import { type Ring, ringArea } from '@underlap/geometry/ring';

/**
 * One closed chain that walks a region's outer ring and, through a bridge there and back, each of its holes.
 * @param region - outer ring counter-clockwise, holes clockwise; a region without holes is returned as it is.
 * @returns a weakly simple ring of the same signed area; bridges are walked twice in opposite directions.
 * @throws Error when a hole sees no vertex around it, which only happens when rings cross.
 * @remarks O(h n^2) worst, O(h n) typically. Holes are taken from the left, and the leftmost vertex of each is tied to the
 * nearest vertex it can see (Held, FIST, Algorithmica 30 (2001), describes bridging in this order).
 */
export function keyholeRing(region: Region): Ring {
  if (region.holes.length === 0) return region.outer;
  const waiting = region.holes
    .filter((hole) => hole.length >= 6 && ringArea(hole) !== 0)
    .map((hole) => ({ hole, start: leftmost(hole) }))
    .sort((a, b) => a.hole[2 * a.start]! - b.hole[2 * b.start]!);
  let chain = Array.from(region.outer);
  for (let k = 0; k < waiting.length; k++) {
    const { hole, start } = waiting[k]!;
    const others = waiting.slice(k).map((entry) => entry.hole);
    const hx = hole[2 * start]!;
    const hy = hole[2 * start + 1]!;
    const at = visibleVertex(chain, others, hx, hy);
    if (at < 0) throw new Error(`a hole near ${hx}, ${hy} cannot be tied to its outer ring: the rings cross`);
    const n = hole.length / 2;
    const detour: number[] = [];
    for (let s = 0; s <= n; s++) {
      const v = (start + s) % n;
      detour.push(hole[2 * v]!, hole[2 * v + 1]!);
    }
    detour.push(chain[2 * at]!, chain[2 * at + 1]!);
    chain = [...chain.slice(0, 2 * at + 2), ...detour, ...chain.slice(2 * at + 2)];
  }
  return Float64Array.from(chain);
}

function leftmost(ring: Ring): number {
  let best = 0;
  for (let v = 1; v < ring.length / 2; v++) if (ring[2 * v]! < ring[2 * best]!) best = v;
  return best;
}

/** Index of the nearest chain vertex that (hx, hy) sees from the inside, -1 when there is none. */
function visibleVertex(chain: readonly number[], holes: readonly Ring[], hx: number, hy: number): number {
  const n = chain.length / 2;
  const order = Array.from({ length: n }, (_, v) => v);
  const distance = order.map((v) => Math.hypot(chain[2 * v]! - hx, chain[2 * v + 1]! - hy));
  order.sort((a, b) => distance[a]! - distance[b]! || a - b);
  for (const v of order) {
    if (!opensTowards(chain, v, hx, hy)) continue;
    const x = chain[2 * v]!;
    const y = chain[2 * v + 1]!;
    if (!isCrossed(chain, x, y, hx, hy) && holes.every((hole) => !isCrossed(hole, x, y, hx, hy))) return v;
  }
  return -1;
}

/** Does the interior (left side) of the chain at vertex v contain the direction to (hx, hy)? */
function opensTowards(chain: readonly number[], v: number, hx: number, hy: number): boolean {
  const n = chain.length / 2;
  const x = chain[2 * v]!;
  const y = chain[2 * v + 1]!;
  const p = (v + n - 1) % n;
  const q = (v + 1) % n;
  const inX = x - chain[2 * p]!;
  const inY = y - chain[2 * p + 1]!;
  const outX = chain[2 * q]! - x;
  const outY = chain[2 * q + 1]! - y;
  const dx = hx - x;
  const dy = hy - y;
  const leftOfIn = inX * dy - inY * dx > 0;
  const leftOfOut = outX * dy - outY * dx > 0;
  return inX * outY - inY * outX >= 0 ? leftOfIn && leftOfOut : leftOfIn || leftOfOut;
}

/** Does segment (ax,ay)-(bx,by) meet an edge of the ring anywhere but in its own two ends? */
function isCrossed(ring: ArrayLike<number>, ax: number, ay: number, bx: number, by: number): boolean {
  const n = ring.length;
  let px = ring[n - 2]!;
  let py = ring[n - 1]!;
  for (let i = 0; i < n; i += 2) {
    const qx = ring[i]!;
    const qy = ring[i + 1]!;
    const isEnd = (qx === ax && qy === ay) || (qx === bx && qy === by);
    const wasEnd = (px === ax && py === ay) || (px === bx && py === by);
    if (!isEnd && isBetween(ax, ay, bx, by, qx, qy)) return true;
    if (!isEnd && !wasEnd) {
      const a = side(ax, ay, bx, by, px, py);
      const b = side(ax, ay, bx, by, qx, qy);
      const c = side(px, py, qx, qy, ax, ay);
      const d = side(px, py, qx, qy, bx, by);
      if (a * b <= 0 && c * d <= 0 && (a !== 0 || b !== 0 || c !== 0 || d !== 0)) return true;
    }
    px = qx;
    py = qy;
  }
  return false;
}

function side(ax: number, ay: number, bx: number, by: number, px: number, py: number): number {
  return Math.sign((bx - ax) * (py - ay) - (by - ay) * (px - ax));
}

function isBetween(ax: number, ay: number, bx: number, by: number, px: number, py: number): boolean {
  if (side(ax, ay, bx, by, px, py) !== 0) return false;
  const t = (px - ax) * (bx - ax) + (py - ay) * (by - ay);
  return t > 0 && t < (bx - ax) ** 2 + (by - ay) ** 2;
}
