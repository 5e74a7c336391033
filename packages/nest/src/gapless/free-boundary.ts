/** Directed straight pieces of the boundary of the free area of one board; free lies to the left. x1, y1, x2, y2 each. */
export type FreeBoundary = number[];

/** A convex corner of the free area. */
export interface FreeCorner {
  readonly x: number;
  readonly y: number;
  /** Unit direction of the boundary that leaves the corner. */
  readonly outX: number;
  readonly outY: number;
  /** Angle of the free wedge, radians, below pi. */
  readonly angle: number;
}

/** The boundary of an empty rectangle. */
export function rectangleBoundary(minX: number, minY: number, maxX: number, maxY: number): FreeBoundary {
  return [minX, minY, maxX, minY, maxX, minY, maxX, maxY, maxX, maxY, minX, maxY, minX, maxY, minX, minY];
}

/**
 * Take a ring out of the free area: its edges join the boundary, and where they run against it both vanish.
 * @param ring - material to the left (outer counter-clockwise, holes clockwise), moved by x, y.
 * @param snap - distance within which edges count as running on each other.
 * @returns length that vanished: how much of the ring lies flush against what was there.
 * @remarks O(edges * boundary).
 */
export function placeRing(free: FreeBoundary, ring: Float64Array, x: number, y: number, snap: number): number {
  let flush = 0;
  const n = ring.length;
  const todo: number[] = [];
  for (let i = 0; i < n; i += 2) {
    const j = i + 2 === n ? 0 : i + 2;
    todo.push(ring[j]! + x, ring[j + 1]! + y, ring[i]! + x, ring[i + 1]! + y);
  }
  while (todo.length > 0) {
    const by = todo.pop()!;
    const bx = todo.pop()!;
    const ay = todo.pop()!;
    const ax = todo.pop()!;
    const length = Math.hypot(bx - ax, by - ay);
    if (length <= snap) continue;
    const ux = (bx - ax) / length;
    const uy = (by - ay) / length;
    let met = false;
    for (let k = 0; k < free.length; k += 4) {
      // Positions of the other's start and end along this edge; it must run the other way and on the same line.
      const cx = free[k]! - ax;
      const cy = free[k + 1]! - ay;
      const dx = free[k + 2]! - ax;
      const dy = free[k + 3]! - ay;
      const tc = cx * ux + cy * uy;
      const td = dx * ux + dy * uy;
      if (td >= tc) continue;
      const low = Math.max(0, td);
      const high = Math.min(length, tc);
      if (high - low <= snap) continue;
      const hc = ux * cy - uy * cx;
      const hd = ux * dy - uy * dx;
      const slope = (hc - hd) / (tc - td);
      if (Math.abs(hd + slope * (low - td)) > snap || Math.abs(hd + slope * (high - td)) > snap) continue;
      const [sx, sy, ex, ey] = [free[k]!, free[k + 1]!, free[k + 2]!, free[k + 3]!];
      free.splice(k, 4);
      // What remains of the old one before and after, and of the new one before and after.
      if (tc - high > snap) free.push(sx, sy, bx, by);
      if (low - td > snap) free.push(ax, ay, ex, ey);
      if (low > snap) todo.push(ax, ay, ex, ey);
      if (length - high > snap) todo.push(sx, sy, bx, by);
      flush += high - low;
      met = true;
      break;
    }
    if (!met) free.push(ax, ay, bx, by);
  }
  return flush;
}

/** Length of the ring's edges that would lie flush against the boundary, without changing it. O(edges * boundary). */
export function flushLength(free: FreeBoundary, ring: Float64Array, x: number, y: number, snap: number): number {
  let flush = 0;
  const n = ring.length;
  for (let i = 0; i < n; i += 2) {
    const j = i + 2 === n ? 0 : i + 2;
    const ax = ring[j]! + x;
    const ay = ring[j + 1]! + y;
    const bx = ring[i]! + x;
    const by = ring[i + 1]! + y;
    const length = Math.hypot(bx - ax, by - ay);
    const ux = (bx - ax) / length;
    const uy = (by - ay) / length;
    for (let k = 0; k < free.length; k += 4) {
      const cx = free[k]! - ax;
      const cy = free[k + 1]! - ay;
      const dx = free[k + 2]! - ax;
      const dy = free[k + 3]! - ay;
      const tc = cx * ux + cy * uy;
      const td = dx * ux + dy * uy;
      if (td >= tc) continue;
      const low = Math.max(0, td);
      const high = Math.min(length, tc);
      if (high - low <= snap) continue;
      if (Math.abs(ux * cy - uy * cx) > snap || Math.abs(ux * dy - uy * dx) > snap) continue;
      flush += high - low;
    }
  }
  return flush;
}

/** Would any edge of the ring pass through the boundary by more than `snap`? O(edges * boundary). */
export function crossesBoundary(free: FreeBoundary, ring: Float64Array, x: number, y: number, snap: number): boolean {
  const n = ring.length;
  for (let i = 0; i < n; i += 2) {
    const j = i + 2 === n ? 0 : i + 2;
    const ax = ring[i]! + x;
    const ay = ring[i + 1]! + y;
    const bx = ring[j]! + x;
    const by = ring[j + 1]! + y;
    const length = Math.hypot(bx - ax, by - ay);
    const ux = (bx - ax) / length;
    const uy = (by - ay) / length;
    for (let k = 0; k < free.length; k += 4) {
      const cx = free[k]! - ax;
      const cy = free[k + 1]! - ay;
      const dx = free[k + 2]! - ax;
      const dy = free[k + 3]! - ay;
      const hc = ux * cy - uy * cx;
      const hd = ux * dy - uy * dx;
      if (!((hc > snap && hd < -snap) || (hc < -snap && hd > snap))) continue;
      const s = hc / (hc - hd);
      const t = (cx + s * (dx - cx)) * ux + (cy + s * (dy - cy)) * uy;
      if (t > snap && t < length - snap) return true;
    }
  }
  return false;
}

/** Corners of the free area whose wedge is narrower than a straight angle. O(boundary^2). */
export function convexCorners(free: FreeBoundary, snap: number): FreeCorner[] {
  const corners: FreeCorner[] = [];
  for (let k = 0; k < free.length; k += 4) {
    const x = free[k + 2]!;
    const y = free[k + 3]!;
    const backX = free[k]! - x;
    const backY = free[k + 1]! - y;
    let best = Infinity;
    let bestX = 0;
    let bestY = 0;
    let outX = 0;
    let outY = 0;
    for (let l = 0; l < free.length; l += 4) {
      if (Math.abs(free[l]! - x) > 2 * snap || Math.abs(free[l + 1]! - y) > 2 * snap) continue;
      const vx = free[l + 2]! - free[l]!;
      const vy = free[l + 3]! - free[l + 1]!;
      let angle = Math.atan2(vx * backY - vy * backX, vx * backX + vy * backY);
      if (angle <= 1e-9) angle += 2 * Math.PI;
      if (angle < best) {
        best = angle;
        const length = Math.hypot(vx, vy);
        outX = vx / length;
        outY = vy / length;
        bestX = free[l]!;
        bestY = free[l + 1]!;
      }
    }
    if (best < Math.PI - 1e-4) corners.push({ x: bestX, y: bestY, outX, outY, angle: best });
  }
  return corners;
}
