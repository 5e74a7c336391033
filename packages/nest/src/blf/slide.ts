import type { Ring } from '@underlap/geometry/ring';

/** Nearness that counts as contact, mm: rounding of a position computed to touch. */
const CONTACT_MM = 1e-6;

/** Rings at a place. */
export interface PlacedRings {
  readonly rings: readonly Ring[];
  readonly x: number;
  readonly y: number;
}

/**
 * How far a set of rings can move straight along an axis (towards smaller x or y) before it comes nearer than `gap` to
 * standing rings.
 * @param axis - 0 slides along -x, 1 along -y.
 * @param limit - no farther than this, mm.
 * @remarks Exact: contact is a vertex of one against an edge (with rounded ends) of the other. O(n m) with box tests.
 * The start is taken to be free; pairs already nearer than the gap stop the motion at once when it would bring them nearer.
 */
export function slideLength(
  moving: PlacedRings,
  standing: PlacedRings,
  axis: 0 | 1,
  gap: number,
  limit: number,
): number {
  let best = limit;
  // a hair less than the gap, so that a piece may slide along one that it touches; the check's tolerance is 10^4 times that
  const clear = Math.max(0, gap - CONTACT_MM / 10);
  for (const a of moving.rings) {
    for (const b of standing.rings) {
      // moving vertices against standing edges, then standing vertices (moving the other way) against moving edges
      best = sweepVertices(
        a,
        b,
        { dx: moving.x - standing.x, dy: moving.y - standing.y, axis, sign: -1, gap: clear },
        best,
      );
      best = sweepVertices(
        b,
        a,
        { dx: standing.x - moving.x, dy: standing.y - moving.y, axis, sign: 1, gap: clear },
        best,
      );
      if (best <= 0) return 0;
    }
  }
  return best;
}

/** How vertices move past edges. */
interface Sweep {
  /** Where the vertices' ring lies, seen from the edges' ring. */
  readonly dx: number;
  readonly dy: number;
  readonly axis: 0 | 1;
  /** Of the vertices' motion along the axis. */
  readonly sign: 1 | -1;
  readonly gap: number;
}

/** How far the vertices get, `limit` at most, before one comes within the gap of an edge. */
function sweepVertices(points: Ring, edges: Ring, { dx, dy, axis, sign, gap }: Sweep, limit: number): number {
  let best = limit;
  const m = edges.length;
  const across = axis === 0 ? dy : dx;
  const along = axis === 0 ? dx : dy;
  let lowV = Number.POSITIVE_INFINITY;
  let highV = Number.NEGATIVE_INFINITY;
  let lowU = Number.POSITIVE_INFINITY;
  let highU = Number.NEGATIVE_INFINITY;
  for (let k = 0; k < points.length; k += 2) {
    const v = points[k + 1 - axis]! + across;
    const u = (points[k + axis]! + along) * sign;
    if (v < lowV) lowV = v;
    if (v > highV) highV = v;
    if (u < lowU) lowU = u;
    if (u > highU) highU = u;
  }
  for (let i = 0; i < m; i += 2) {
    const j = i + 2 === m ? 0 : i + 2;
    const v0 = edges[i + 1 - axis]!;
    const v1 = edges[j + 1 - axis]!;
    const u0 = edges[i + axis]! * sign;
    const u1 = edges[j + axis]! * sign;
    // half-open towards the side that the piece rests on, so that corners meet and resting edges slide
    const below = (v0 < v1 ? v0 : v1) - gap;
    const above = (v0 < v1 ? v1 : v0) + gap;
    const near = (u0 < u1 ? u0 : u1) - gap;
    const far = (u0 < u1 ? u1 : u0) + CONTACT_MM;
    if (above < lowV || below > highV || far < lowU || near >= highU + best) continue;
    for (let k = 0; k < points.length; k += 2) {
      // u runs along the motion (towards the edge), v across it
      const v = points[k + 1 - axis]! + across;
      if (sign < 0 ? v < below || v >= above : v <= below || v > above) continue;
      const u = (points[k + axis]! + along) * sign;
      if (near - u >= best || far < u) continue;
      const hit = capsuleEntry(u, v, u0, v0, u1, v1, gap);
      if (hit < best) best = hit > 0 ? hit : 0;
    }
  }
  return best;
}

/** Smallest t >= 0 at which the point (u + t, v) comes within `gap` of the segment; Infinity when never. */
function capsuleEntry(u: number, v: number, u0: number, v0: number, u1: number, v1: number, gap: number): number {
  const du = u1 - u0;
  const dv = v1 - v0;
  const length = Math.hypot(du, dv);
  let entry = Math.min(circleEntry(u, v, u0, v0, gap), circleEntry(u, v, u1, v1, gap));
  if (length > 0 && dv !== 0) {
    // the offset line on the near side: its normal points against the motion
    const s = dv > 0 ? -1 : 1;
    const nu = (dv / length) * s;
    const nv = (-du / length) * s;
    const share = (v - (v0 + nv * gap)) / dv;
    if (share >= 0 && share <= 1) {
      const t = u0 + nu * gap + du * share - u;
      // behind the offset line already and ahead of the segment itself: as near as allowed, or nearer
      const through = u0 + du * ((v - v0) / dv) - u;
      if (t >= 0) entry = Math.min(entry, t);
      else if (through >= -CONTACT_MM) entry = 0;
    }
  }
  return entry;
}

function circleEntry(u: number, v: number, cu: number, cv: number, radius: number): number {
  const across = v - cv;
  const root = radius * radius - across * across;
  if (root <= 0) return Number.POSITIVE_INFINITY;
  const half = Math.sqrt(root);
  const t = cu - half - u;
  if (t >= 0) return t;
  return cu - u >= 0 ? 0 : Number.POSITIVE_INFINITY;
}
